package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// frostRecord is what heave is computed from: how the frost went through ground that
// no pipe disturbs.
type frostRecord struct {
	time        []float64                 // of the rows [s]
	frost       []frost                   // at each row
	depths      []float64                 // at which the temperature is known, rising [m]
	temperature func(k, row int) float64  // at depths[k] [°C]
	soil        func(z float64) pipe.Soil // at a depth [m]
}

// heaveSlice is the thickness of the slices by which lenses of ice are kept [m].
const heaveSlice = 0.01

// slice is a slice of the ground and what frost has made of it.
type slice struct {
	potential [2]float64 // segregation potential, low and high [m²/(s K)]
	swell     [2]float64 // heave by its own water where it is frozen through, low and high [m]
	point     float64    // freezing point [°C]
	lenses    [2]float64 // heave by lenses of ice in it [m]
}

// heaving follows the heave of ground row by row.
type heaving struct {
	r      *frostRecord
	slices []slice
	below  [][2]float64 // heave of all that lies below the top of a slice, low and high [m]
}

// newHeaving prepares the ground down to its deepest frost; false where the class of some of it is
// not known.
func newHeaving(r *frostRecord) (*heaving, bool) {
	deepest := 0.0
	for _, f := range r.frost {
		if f.bottom > deepest { // not where it is NaN
			deepest = f.bottom
		}
	}
	n := int(math.Ceil(deepest / heaveSlice))
	h := &heaving{r: r, slices: make([]slice, n), below: make([][2]float64, n+1)}
	for i := range h.slices {
		s, ok := newSlice(r.soil((float64(i) + 0.5) * heaveSlice))
		if !ok {
			return nil, false
		}
		h.slices[i] = s
	}
	return h, true
}

// newSlice reads a slice's soil. What does not heave, clean sand, drains what swells.
func newSlice(soil pipe.Soil) (slice, bool) {
	class, ok := FrostClassOf(soil.Texture)
	if !ok || class.High == 0 {
		return slice{}, ok
	}
	wet := saturationOf(soil)
	return slice{
		potential: [2]float64{class.Low * ownWater(wet), class.High},
		swell:     [2]float64{heat.InSituHeaveLeast(soil.Porosity, wet, heaveSlice), heat.InSituHeave(soil.Porosity, wet, heaveSlice)},
		point:     soil.Freezing.Point,
	}, true
}

// follow goes through the rows and shows each with the heave of the ground as it then stands.
func (h *heaving) follow(show func(row int)) {
	for row := range h.r.frost {
		h.melt(row)
		show(row)
		if row+1 < len(h.r.time) {
			h.grow(row)
		}
	}
}

// melt lets go the lenses that are no longer frozen, and sums up what is.
func (h *heaving) melt(row int) {
	f := h.r.frost[row]
	for i := len(h.slices) - 1; i >= 0; i-- {
		s := &h.slices[i]
		top := float64(i) * heaveSlice
		frozen := (min(top+heaveSlice, f.bottom) - max(top, f.top)) / heaveSlice // NaN without frost
		if !(frozen > 0) {
			s.lenses, frozen = [2]float64{}, 0
		}
		for end := range s.lenses {
			h.below[i][end] = h.below[i+1][end] + s.lenses[end] + frozen*s.swell[end]
		}
	}
}

// grow adds the lenses that grow at the front until the next row.
func (h *heaving) grow(row int) {
	bottom := h.r.frost[row].bottom
	if math.IsNaN(bottom) {
		return
	}
	s := &h.slices[min(int(bottom/heaveSlice), len(h.slices)-1)]
	gradient := h.r.gradient(row, s.point)
	for end := range s.lenses {
		s.lenses[end] += heat.SegregationRate(s.potential[end], gradient) * (h.r.time[row+1] - h.r.time[row])
	}
}

// under is the heave of all ground below a depth [m] at the row shown: low and high [m].
func (h *heaving) under(depth float64) (low, high float64) {
	i := int(math.Round(max(0, depth) / heaveSlice))
	if i >= len(h.below) {
		return 0, 0
	}
	return h.below[i][0], h.below[i][1]
}

// Distances over which the gradient above a front is read [m]: nearer to it than gradientReach the
// temperature differs too little; right under the uppermost depth known that is all there is.
const (
	gradientReach = 0.10
	gradientLeast = 0.01
)

// gradient is that of the frozen ground above the lowest front at a row [K/m]: from the front, at
// the freezing point [°C], up to the nearest depth known that lies far enough above it. Frost that has not
// reached the uppermost of them, a few centimetres down, has none: the crust of a night grows no lenses.
func (r *frostRecord) gradient(row int, point float64) float64 {
	f := r.frost[row]
	best := -1
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
