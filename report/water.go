package report

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"winterline/sim"
)

// waterPath names a row of the water table.
type waterPath int

const (
	pathArrived waterPath = iota
	pathExtra
	pathReturned
	pathDrawnDown
	pathBackup
	pathOutlet
	pathRelief
	pathRim
	pathSoil
	pathHeld
	pathFloor
	pathUnaccounted
)

// waterRow is one volume of the table: what it is exactly and what is printed.
type waterRow struct {
	path  waterPath
	words string
	m3    float64
	shown int64 // in units of the table's last printed digit
}

// waterTable says where the water came from and went, in printed numbers that add up.
type waterTable struct {
	system   System
	decimals int
	in, out  []waterRow
	total    int64
}

// newWaterTable works out the table of a result. In: what reached the basin or joined
// the line, and what the line held at the start beyond what it holds at the end.
// Out: every way out, what is held more at the end, and the floor.
func newWaterTable(r *sim.Result, s System) waterTable {
	l := r.Ledger
	t := waterTable{system: s}
	t.in = append(t.in, waterRow{path: pathArrived, words: arrivedWords(r), m3: l.Arrived})
	if l.Extra > 0 {
		t.in = append(t.in, waterRow{path: pathExtra, words: "joined the line from elsewhere", m3: l.Extra})
	}
	if l.Returned > 0 {
		t.in = append(t.in, waterRow{path: pathReturned, words: "came back from beside the house", m3: l.Returned})
	}
	held := l.HeldLine + l.HeldPocket + l.HeldBasin
	if held < 0 {
		t.in = append(t.in, waterRow{path: pathDrawnDown, words: "had been standing in " + heldWords(r) + " before", m3: -held})
	}
	if l.Backup > 0 {
		t.out = append(t.out, waterRow{path: pathBackup, words: "out through the backup pump's own line", m3: l.Backup})
	}
	t.out = append(t.out, waterRow{path: pathOutlet, words: "out at the far end", m3: l.Outlet})
	if l.Relief > 0 || len(r.Layout.Reliefs) > 0 {
		t.out = append(t.out, waterRow{path: pathRelief, words: "out of the " + reliefWords(r), m3: l.Relief})
	}
	if l.Rim > 0 || r.Layout.Standpipe != nil {
		t.out = append(t.out, waterRow{path: pathRim, words: "out of the top of the standpipe, beside the house", m3: l.Rim})
	}
	if l.PocketToSoil > 0 || r.Layout.Pocket != nil {
		t.out = append(t.out, waterRow{path: pathSoil, words: "into the soil round the rock pit", m3: l.PocketToSoil})
	}
	if held >= 0 {
		t.out = append(t.out, waterRow{path: pathHeld, words: "still in " + heldWords(r), m3: held})
	}
	if l.Floor > 0 || r.Layout.Basin != nil {
		t.out = append(t.out, waterRow{path: pathFloor, words: "on the basement floor", m3: l.Floor})
	}
	t.round()
	return t
}

func arrivedWords(r *sim.Result) string {
	if r.Layout.Basin == nil {
		return "pumped"
	}
	return "reached the basin"
}

func reliefWords(r *sim.Result) string {
	if len(r.Layout.Reliefs) > 1 {
		return "relief openings"
	}
	return "relief opening"
}

// heldWords lists what can hold water, "the line, rock pit and basin".
func heldWords(r *sim.Result) string {
	places := []string{"the line"}
	if r.Layout.Pocket != nil {
		places = append(places, "rock pit")
	}
	if r.Layout.Basin != nil {
		places = append(places, "basin")
	}
	return list(places)
}

// round chooses the printed digits: whole gallons or litres, tenths when there are
// fewer than ten in all. Both sides are apportioned to the same total.
func (t *waterTable) round() {
	in, out := sumRows(t.in), sumRows(t.out)
	if in/t.system.volumeSize() < 9.95 {
		t.decimals = 1
	}
	unit := t.unit()
	if rest := in - out; math.Abs(rest) >= unit/2 {
		t.out = append(t.out, waterRow{path: pathUnaccounted, words: "not accounted for", m3: rest})
	}
	t.total = int64(math.Round(in / unit))
	for _, side := range [][]waterRow{t.in, t.out} {
		values := make([]float64, len(side))
		for i, row := range side {
			values[i] = row.m3 / unit
		}
		for i, n := range apportion(values, t.total) {
			side[i].shown = n
		}
	}
}

// unit is the volume of one step of the last printed digit [m³].
func (t *waterTable) unit() float64 {
	return t.system.volumeSize() / math.Pow(10, float64(t.decimals))
}

func sumRows(rows []waterRow) float64 {
	sum := 0.0
	for _, row := range rows {
		sum += row.m3
	}
	return sum
}

// apportion rounds values to whole numbers that add up to total by the largest
// remainder: all are rounded down, and the ones that lost most get one back, the
// earlier first.
func apportion(values []float64, total int64) []int64 {
	out := make([]int64, len(values))
	order := make([]int, len(values))
	missing := total
	for i, v := range values {
		out[i] = int64(math.Floor(v))
		order[i] = i
		missing -= out[i]
	}
	lost := func(i int) float64 { return values[i] - math.Floor(values[i]) }
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case lost(a) > lost(b):
			return -1
		case lost(a) < lost(b):
			return 1
		}
		return 0
	})
	for i := 0; missing > 0 && len(out) > 0; i++ {
		out[order[i%len(order)]]++
		missing--
	}
	// Rounding the total down by more than the rows lost is possible only where they do
	// not add up themselves.
	for i := len(order) - 1; missing < 0 && i >= 0; i-- {
		out[order[i]]--
		missing++
	}
	return out
}

// amount prints the volume of one path as the table shows it, with the other unit in brackets, "870 gal (3,293 L)"; what is
// there but rounds to nothing is "under 1 gal".
func (t *waterTable) amount(p waterPath) string {
	for _, row := range append(slices.Clone(t.in), t.out...) {
		if row.path == p {
			shown := t.number(row) + " " + t.system.volumeUnit()
			if row.shown == 0 {
				return shown
			}
			return shown + " (" + t.system.other().volume(row.m3) + ")"
		}
	}
	return "0 " + t.system.volumeUnit()
}

func (t *waterTable) number(row waterRow) string {
	// A microlitre is rounding of the books, not water.
	if row.shown == 0 && row.m3 > 1e-9 {
		return "under " + fixed(math.Pow(10, -float64(t.decimals)), t.decimals)
	}
	return t.digits(row.shown)
}

func (t *waterTable) digits(n int64) string {
	return number(float64(n)/math.Pow(10, float64(t.decimals)), t.decimals)
}

// lines prints the table: what came in on the first line, one line a way out, and the
// sum, which is the total again.
func (t *waterTable) lines() []string {
	if sumRows(t.in) == 0 {
		return []string{"none"}
	}
	unit := " " + t.system.volumeUnit() + " "
	var sources []string
	for _, row := range t.in {
		sources = append(sources, t.number(row)+unit+row.words)
	}
	head := strings.Join(sources, " + ")
	if len(t.in) > 1 {
		head += " = " + t.digits(t.total) + strings.TrimRight(unit, " ")
	}
	width := 0
	for _, row := range t.out {
		width = max(width, utf8.RuneCountInString(t.number(row)))
	}
	width = max(width, utf8.RuneCountInString(t.digits(t.total)))
	lines := []string{head + "; it went:"}
	for _, row := range t.out {
		lines = append(lines, padLeft(t.number(row), width)+unit+" "+row.words)
	}
	return append(lines,
		strings.Repeat("-", width+len(unit)-1),
		padLeft(t.digits(t.total), width)+unit+" in all")
}

// list joins words as a sentence does, "a, b and c".
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
