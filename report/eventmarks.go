package report

import (
	"cmp"
	"fmt"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"winterline/sim"
)

// eventMark is an event as a chart shows it.
type eventMark struct {
	t     float64 // [s]
	words string
	count int // of its kind in the record
	// repeats says that the count means something: so many runs or spills, not so many places.
	repeats bool
}

// markedKinds are the events that charts name, weightiest first, in few words.
var markedKinds = []struct {
	kind    sim.EventKind
	words   string
	repeats bool
}{
	{sim.EventFloorWet, "floor wet", false},
	{sim.EventRimSpill, "out of the top", true},
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
	{sim.EventPocketFull, "rock pit full", false},
	{sim.EventPocketFrozen, "rock pit frozen", false},
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

// covers says whether the label, with some air, reaches over a place along the panel.
func (m placedMark) covers(x vg.Length, style text.Style) bool {
	return x > m.left-markAir && x < m.left+style.Width(m.label())+markAir
}

// markAir is the least distance of a label from the next one and from another event's hairline.
const markAir = vg.Length(4)

// placeMarks finds a row for every label, so that none covers another and no hairline runs through the words of
// another event: words stand right of their event, or left of it near the page's end.
func placeMarks(marks []eventMark, p *panel) []placedMark {
	style := lettering(textSize, ink, draw.XLeft, draw.YBottom)
	placed := make([]placedMark, len(marks))
	for i, m := range marks {
		placed[i] = placedMark{m, p.X(m.t), p.X(m.t) + 4, 0}
	}
	slices.SortStableFunc(placed, func(a, b placedMark) int { return cmp.Compare(b.x, a.x) }) // latest first
	turned := turnMarks(placed, style, p.Max.X+rightMargin)
	// Those that stand right cover later hairlines alone, so the latest goes first; those that
	// stand left cover earlier ones, those of the others among them.
	for i := turned; i < len(placed); i++ {
		placed[i].row = lowestRow(placed[i], placed[turned:i], style)
	}
	slices.Reverse(placed[:turned])
	for i := range turned {
		placed[i].row = lowestRow(placed[i], append(slices.Clone(placed[turned:]), placed[:i]...), style)
	}
	return placed
}

// turnMarks puts the last labels left of their events: those that would leave the page, and those that would reach over
// the hairline of one that was turned. It gives how many.
func turnMarks(placed []placedMark, style text.Style, end vg.Length) int {
	for i := range placed {
		m := &placed[i]
		if m.left+style.Width(m.label()) <= end && (i == 0 || !m.covers(placed[i-1].x, style)) {
			return i
		}
		m.left = m.x - 4 - style.Width(m.label())
	}
	return len(placed)
}

// lowestRow is the first row in which a label covers no other, above those whose hairlines it would cover.
func lowestRow(m placedMark, others []placedMark, style text.Style) int {
	row := 0
	for changed := true; changed; {
		changed = false
		for _, o := range others {
			crossed := m.covers(o.x, style) && o.row >= row
			beside := o.row == row && (o.covers(m.left, style) || m.covers(o.left, style))
			if crossed || beside {
				row, changed = o.row+1, true
			}
		}
	}
	return row
}

func markRows(placed []placedMark) int {
	n := 0
	for _, m := range placed {
		n = max(n, m.row+1)
	}
	return n
}

// marked is what charts over the record share: the coldest night, and hairlines of events with their words on top.
type marked struct {
	placed  []placedMark
	coldest night
	any     bool // there is such a night
	left    int  // kinds of event that are not named
}

// markRecord finds places for the marks of a record over panels with so much kept free at the right, and takes the room
// for their words off the area.
func markRecord(area *draw.Canvas, r *sim.Result, reserve vg.Length) marked {
	marks, left := eventMarks(r)
	m := marked{left: left}
	// Where labels stand depends on times only, so a first panel finds their rows.
	m.placed = placeMarks(marks, timePanels(*area, r, reserve, 1)[0])
	area.Max.Y -= markRow*vg.Length(markRows(m.placed)) + 4
	m.coldest, m.any = coldestNight(r)
	return m
}

// shadedWords explain the shading below the heading of a chart that does not name the night.
func shadedWords(r *sim.Result) string {
	if _, any := coldestNight(r); any {
		return "shaded: coldest night"
	}
	return ""
}

// under draws what stands behind the data of a panel, the first on top of the page or one further down.
func (m marked) under(p *panel, first bool) {
	p.keepClear(m.placed)
	if m.any {
		p.darken(m.coldest)
	}
	if first {
		drawMarks(p, m.placed)
	} else {
		p.continueMarks(m.placed)
	}
}

// keepClear tells a panel of the hairlines that will stand on it, so that words avoid them.
func (p *panel) keepClear(placed []placedMark) {
	for _, m := range placed {
		p.hairlines = append(p.hairlines, m.x)
	}
}

// drawMarks writes the labels above the panel, with a hairline down to its bottom.
func drawMarks(p *panel, placed []placedMark) {
	style := lettering(textSize, ink, draw.XLeft, draw.YBottom)
	for _, m := range placed {
		y := p.Max.Y + 3 + markRow*vg.Length(m.row)
		p.StrokeLine2(stroke(faint, 0.7, 3, 2), m.x, p.Min.Y, m.x, y+markRow-3)
		p.FillText(style, vg.Point{X: m.left, Y: y + 1.5}, m.label())
	}
}

// continueMarks draws the hairlines through a panel further down.
func (p *panel) continueMarks(placed []placedMark) {
	for _, m := range placed {
		p.StrokeLine2(stroke(faint, 0.7, 3, 2), m.x, p.Min.Y, m.x, p.Max.Y)
	}
}
