package sim

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
	"winterline/pipe"
	"winterline/sim/heat"
)

// searchedLowSpot and searchedWater are lowSpot and standsIn by trying everything.
func searchedLowSpot(p *pipe.Profile, heave float64) (depth, at float64) {
	for i := range fallPoints {
		a := float64(i) / fallPoints
		for k := i + 1; k <= fallPoints; k++ {
			b := float64(k) / fallPoints
			rise := p.Invert(0, b) - p.Invert(0, a) + uneven(heave, p.X(0, b)-p.X(0, a))
			if rise > depth+levelNoise {
				depth, at = rise, p.X(0, a)
			}
		}
	}
	return depth, at
}

func searchedWater(p *pipe.Profile, bore, heave float64) float64 {
	most := 0.0
	for least := range fallPoints + 1 {
		x := p.X(0, float64(least)/fallPoints)
		sum, barrier := 0.0, math.Inf(-1)
		for i := fallPoints; i >= 0; i-- {
			s := float64(i) / fallPoints
			level := p.Invert(0, s) + uneven(heave, math.Abs(p.X(0, s)-x))
			barrier = max(barrier, level)
			area := pipe.SegmentArea(bore, barrier-level)
			if i == 0 {
				area /= 2
			}
			sum += area
		}
		most = max(most, sum*(p.Segments[0].X1-p.Segments[0].X0)/fallPoints)
	}
	return most
}

// What is left out of the search changes no bit of what it finds.
func TestFallLeftIsThatOfTheWholeSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		level := func(high float64) *rapid.Generator[float64] {
			return rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, high), rapid.Float64Range(0, 1e-9))
		}
		p := lineOf(rapid.Float64Range(shortestRun, 40).Draw(t, "length"), rapid.Float64Range(-0.3, 1).Draw(t, "fall"), level(0.2).Draw(t, "sag"))
		if rapid.Bool().Draw(t, "level") {
			p.Segments[0].Z1 = p.Segments[0].Z0
		}
		bore := rapid.Float64Range(0.02, 0.3).Draw(t, "bore")
		lift := Lift{High: level(0.4).Draw(t, "heave")}
		got := fallLeft(p, 0, bore, lift)
		want := got
		want.Sag, _ = searchedLowSpot(p, 0)
		want.LowSpot, want.At = searchedLowSpot(p, lift.High)
		want.Water = searchedWater(p, bore, lift.High)
		if got != want {
			t.Fatalf("%+v; want %+v", got, want)
		}
	})
}

// plainHeave is heave.go without what it leaves out: every slice at every row. It returns the heave under the top of
// each slice, row by row.
func plainHeave(h *heaving) (rows [][][2]float64) {
	all := slices.Clone(h.slices)
	for row, f := range h.r.frost {
		below := make([][2]float64, len(all)+1)
		for i := len(all) - 1; i >= 0; i-- {
			s, top := &all[i], float64(i)*heaveSlice
			frozen := (min(top+heaveSlice, f.bottom) - max(top, f.top)) / heaveSlice
			if !(frozen > 0) {
				s.lenses, frozen = [2]float64{}, 0
			}
			for end := range s.lenses {
				below[i][end] = below[i+1][end] + s.lenses[end] + frozen*s.swell[end]
			}
		}
		rows = append(rows, below)
		if math.IsNaN(f.bottom) || row+1 == len(h.r.time) {
			continue
		}
		s := &all[min(int(f.bottom/heaveSlice), len(all)-1)]
		for end := range s.lenses {
			s.lenses[end] += heat.SegregationRate(s.potential[end], plainGradient(h.r, row, s.point)) * (h.r.time[row+1] - h.r.time[row])
		}
	}
	return rows
}

// plainGradient looks at every depth known, from the surface down.
func plainGradient(r *frostRecord, row int, point float64) float64 {
	f, best := r.frost[row], -1
	for k, z := range r.depths {
		enough := gradientReach
		if best < 0 {
			enough = gradientLeast
		}
		if z < f.top || math.IsNaN(r.temperature(k, row)) {
			continue
		}
		if f.bottom-z < enough {
			break
		}
		best = k
	}
	if best < 0 {
		return 0
	}
	return max(0, (point-r.temperature(best, row))/(f.bottom-r.depths[best]))
}

// Nor does what is left out of following the frost, which comes, goes, thaws from above and jumps here, and is not
// known at every depth.
func TestHeaveIsThatOfAllSlices(t *testing.T) {
	soil := heaveSoil(t, "silt loam", 0.8)
	rapid.Check(t, func(t *rapid.T) {
		r := &frostRecord{soil: func(float64) pipe.Soil { return soil }, depths: []float64{0.05}}
		for range rapid.IntRange(0, 12).Draw(t, "depths") {
			r.depths = append(r.depths, r.depths[len(r.depths)-1]+rapid.SampledFrom([]float64{0, 0.005, 0.05, 0.1, 0.3}).Draw(t, "step"))
		}
		var temperatures [][]float64
		for row := range rapid.IntRange(1, 30).Draw(t, "rows") {
			f := frost{math.NaN(), math.NaN(), 0}
			if rapid.IntRange(0, 3).Draw(t, "frost") > 0 {
				bottom := rapid.OneOf(rapid.Float64Range(1e-6, 0.6), rapid.SampledFrom([]float64{0.01, 0.07, 0.29, 0.5})).Draw(t, "bottom")
				top := bottom * rapid.SampledFrom([]float64{0, 0, 0.1, 0.5}).Draw(t, "top")
				f = frost{top, bottom, bottom - top}
			}
			r.time, r.frost = append(r.time, float64(row)*3600), append(r.frost, f)
			temperatures = append(temperatures, rapid.SliceOfN(rapid.OneOf(rapid.Just(math.NaN()), rapid.Float64Range(-9, 1)), len(r.depths), len(r.depths)).Draw(t, "temperatures"))
		}
		r.temperature = func(k, row int) float64 { return temperatures[row][k] }
		h, ok := newHeaving(r)
		if !ok {
			t.Fatal("class not known")
		}
		want := plainHeave(h)
		h.follow(func(row int) {
			if !slices.Equal(h.below, want[row]) {
				t.Fatalf("row %d: %v; want %v", row, h.below, want[row])
			}
		})
	})
}
