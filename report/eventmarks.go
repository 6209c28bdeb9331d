package report

import (
	"fmt"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// eventMark is an event as a chart shows it.
type eventMark struct {
	t     float64 // [s]
	words string
	count int // of its kind in the record
	// repeats says that the count tells something: runs and spills, not places.
	repeats bool
}

// markedKinds are the events that charts name, weightiest first, in few words.
var markedKinds = []struct {
	kind    sim.EventKind
	words   string
	repeats bool
}{
	{sim.EventFloorWet, "floor wet", false},
	{sim.EventRimSpill, "over the rim", true},
	{sim.EventClosed, "frozen shut", false},
	{sim.EventLidFrozen, "far end iced over", true},
	{sim.EventReliefRunning, "relief runs", true},
	{sim.EventFirstIce, "first ice", false},
	{sim.EventTrappedWater, "water shut in by ice", false},
	{sim.EventReliefBuried, "relief under snow", true},
	{sim.EventReliefIced, "relief iced up", true},
	{sim.EventPumpNoFlow, "pump moves nothing", true},
	{sim.EventGapUsedUp, "air gap used up", false},
	{sim.EventRoofOver, "roof water runs over", true},
	{sim.EventBackupRunning, "backup pump runs", false},
	{sim.EventPocketFull, "rock pocket full", false},
	{sim.EventPocketFrozen, "rock pocket frozen", false},
}

// markLimit is how many kinds of event a chart names.
const markLimit = 8

// eventMarks gives the first event of each kind, the weightiest kinds first, and the
// moment when the line opened for the last time.
func eventMarks(r *sim.Result) (marks []eventMark, left int) {
	for _, m := range markedKinds {
		mark := eventMark{words: m.words, repeats: m.repeats}
		for _, e := range r.Events {
			if e.Kind != m.kind {
				continue
			}
			if mark.count == 0 {
				mark.t = e.Time
			}
			mark.count++
		}
		if mark.count == 0 {
			continue
		}
		if len(marks) == markLimit {
			left++
			continue
		}
		marks = append(marks, mark)
	}
	if r.Verdict.Reopened != nil {
		marks = append(marks, eventMark{t: *r.Verdict.Reopened, words: "open again", count: 1})
	}
	return marks, left
}

func (m eventMark) label() string {
	if m.count > 1 && m.repeats {
		return fmt.Sprintf("%s (first of %s)", m.words, number(float64(m.count), 0))
	}
	return m.words
}

const markRow = vg.Length(14) // height of a row of event labels

// placedMark is an event label with its place above a panel.
type placedMark struct {
	eventMark
	x, left vg.Length // of the event and of its label
	row     int
}

// placeMarks finds a row for every label, so that none covers another: words stand
// right of their event, or left of it where the page ends.
func placeMarks(marks []eventMark, p *panel) []placedMark {
	style := lettering(textSize, ink, draw.XLeft, draw.YBottom)
	placed := make([]placedMark, len(marks))
	taken := make([]interval, len(marks))
	for i, m := range marks {
		x := p.X(m.t)
		left, width := x+4, style.Width(m.label())
		taken[i] = interval{x - 3, left + width + 6}
		if left+width > p.Max.X+rightMargin {
			left = x - 4 - width
			taken[i] = interval{left - 3, x + 6}
		}
		placed[i] = placedMark{m, x, left, 0}
	}
	for i, row := range rows(taken) {
		placed[i].row = row
	}
	return placed
}

func markRows(placed []placedMark) int {
	n := 0
	for _, m := range placed {
		n = max(n, m.row+1)
	}
	return n
}

// drawMarks writes the labels above the panel, with a hairline down to its bottom. The
// first row stands on top, where its hairline can pass the rows below.
func drawMarks(p *panel, placed []placedMark) {
	style := lettering(textSize, ink, draw.XLeft, draw.YBottom)
	height := func(m placedMark) vg.Length { return p.Max.Y + 3 + markRow*vg.Length(m.row) }
	for _, m := range placed {
		p.StrokeLine2(stroke(faint, 0.7, 3, 2), m.x, p.Min.Y, m.x, height(m)+markRow-3)
	}
	for _, m := range placed {
		y := height(m)
		p.FillPolygon(white, corners(box(m.left-1, y-0.5, m.left+style.Width(m.label())+1, y+markRow-2)))
		p.FillText(style, vg.Point{X: m.left, Y: y + 1.5}, m.label())
	}
}
