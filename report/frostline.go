package report

import (
	"math"

	"gonum.org/v1/plot/vg"

	"winterline/sim"
)

// frostLine is the outline of the frozen ground as a chart draws it.
type frostLine struct {
	time, top, bottom []float64 // [s] and depths [m]; NaN where nothing is frozen
	layered           []bool    // a thawed layer lies between top and bottom
}

// manyWinters is the length of record from which winters stand close together [s].
const manyWinters = 500 * 86400

// groundByDay says whether the ground's charts show days.
func groundByDay(r *sim.GroundResult) bool {
	t0, t1 := spanOf(r.Time)
	return t1-t0 > longRecord
}

// frostLineOf takes the outline row by row, and in a long record day by day: the deepest
// frost and the deepest thaw above it of each day, so that the thin crust of a night does
// not hide what thawed.
func frostLineOf(r *sim.GroundResult) frostLine {
	const film = 0.005 // a layer thinner than this cannot be drawn [m]
	if !groundByDay(r) {
		f := frostLine{time: r.Time, top: r.FrostTop, bottom: r.FrostBottom, layered: make([]bool, len(r.Time))}
		for i := range f.layered {
			f.layered[i] = r.Frozen[i] < r.FrostBottom[i]-r.FrostTop[i]-film
		}
		return f
	}
	var f frostLine
	f.time, _, f.bottom = daily(r.Time, r.FrostBottom)
	_, _, f.top = daily(r.Time, r.FrostTop)
	f.layered = make([]bool, len(f.time))
	return f
}

// apart says whether the frost of one instant has nothing in common with that of the next.
func (f *frostLine) apart(i int) bool {
	return !(f.top[i] <= f.bottom[i+1] && f.top[i+1] <= f.bottom[i])
}

// at gives the frozen stretch at an instant, between the two nearest of the line; frozen
// is false where there is none.
func (f *frostLine) at(t float64) (top, bottom float64, layered, frozen bool) {
	n := len(f.time)
	if n == 0 {
		return 0, 0, false, false
	}
	i := nearestBefore(f.time, t)
	j := min(i+1, n-1)
	share := 0.0
	if f.time[j] > f.time[i] {
		share = math.Min(1, math.Max(0, (t-f.time[i])/(f.time[j]-f.time[i])))
	}
	if i < j && f.apart(i) { // one ends and perhaps another begins: half the way is each one's
		if share > 0.5 {
			i = j
		}
		j = i
	}
	top = f.top[i] + share*(f.top[j]-f.top[i])
	bottom = f.bottom[i] + share*(f.bottom[j]-f.bottom[i])
	return top, bottom, f.layered[i] || f.layered[j], !math.IsNaN(bottom)
}

// nearestBefore is the last of rising times at or before t; 0 if there is none.
func nearestBefore(times []float64, t float64) int {
	low, high := 0, len(times)
	for high-low > 1 {
		if middle := (low + high) / 2; times[middle] <= t {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// stretch is a run of instants with frost: the first and the last.
type stretch struct{ from, to int }

// stretches are the runs of instants whose frost hangs together.
func (f *frostLine) stretches() []stretch {
	var out []stretch
	from := -1
	for i := range f.time {
		if math.IsNaN(f.bottom[i]) {
			from = -1
			continue
		}
		if from < 0 {
			from = i
		}
		if i == len(f.time)-1 || f.apart(i) {
			out = append(out, stretch{from, i})
			from = -1
		}
	}
	return out
}

// draw outlines the frozen ground on a panel of heights above the ground: its lower edge
// heavy, its upper one lighter where years stand close. At the ends of the record, where the
// frost goes on, it stays open.
func (f *frostLine) draw(p *panel) {
	lower, upper := frostWidth, frostWidth
	if p.dataEnd-p.x0 > manyWinters {
		lower, upper = 1.7, 0.8
	}
	for _, s := range f.stretches() {
		below, above := f.edges(p, s)
		p.StrokeLines(stroke(ink, upper), p.ClipLinesXY(above)...)
		p.StrokeLines(stroke(ink, lower), p.ClipLinesXY(below)...)
	}
}

// edges are the lower edge of a stretch, with its two ends where it has any, and the upper
// one. It reaches half the way to the instants without frost beside it.
func (f *frostLine) edges(p *panel, s stretch) (below, above []vg.Point) {
	start, end := p.x0, p.dataEnd
	open := s.from == 0
	if !open {
		start = (f.time[s.from-1] + f.time[s.from]) / 2
		below = append(below, p.at(start, -f.top[s.from]))
	}
	goesOn := s.to == len(f.time)-1
	if !goesOn {
		end = (f.time[s.to] + f.time[s.to+1]) / 2
	}
	below, above = append(below, p.at(start, -f.bottom[s.from])), append(above, p.at(start, -f.top[s.from]))
	for i := s.from; i <= s.to; i++ {
		below, above = append(below, p.at(f.time[i], -f.bottom[i])), append(above, p.at(f.time[i], -f.top[i]))
	}
	below, above = append(below, p.at(end, -f.bottom[s.to])), append(above, p.at(end, -f.top[s.to]))
	if !goesOn {
		below = append(below, p.at(end, -f.top[s.to]))
	}
	return below, above
}
