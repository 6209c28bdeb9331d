package sim

import (
	"math"
	"sort"

	"winterline/pipe"
	"winterline/sim/heat"
)

// frostRecord is what heave is computed from: the course of the frost through ground that
// no pipe disturbs.
type frostRecord struct {
	time        []float64                 // of the rows [s]
	frost       []frost                   // at each row
	depths      []float64                 // at which the temperature is known, rising [m]
	temperature func(k, row int) float64  // at depths[k] [°C]
	soil        func(z float64) pipe.Soil // at a depth [m]
}

// heaveSlice is the thickness of the slices of ground in each of which lenses of ice are added up [m].
const heaveSlice = 0.01

// slice is a slice of the ground and what frost has made of it.
type slice struct {
	potential [2]float64 // segregation potential, low and high [m²/(s K)]
	swell     [2]float64 // heave by its own water when it is frozen through, low and high [m]
	through   [2]float64 // the same for the thickness between the bounds of sliceAt, which rounding makes a little different [m]
	point     float64    // freezing point [°C]
	lenses    [2]float64 // heave by lenses of ice in it [m]
}

// heaving follows the heave of ground row by row.
type heaving struct {
	r      *frostRecord
	slices []slice
	below  [][2]float64 // heave of all that lies below the top of each slice, low and high [m]; a last one below all of them, 0
	reach  int          // how many slices the front had reached at the row before: those below hold no ice
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
		top, bottom := sliceAt(i)
		for end := range s.through {
			s.through[end] = (bottom - top) / heaveSlice * s.swell[end]
		}
		h.slices[i] = s
	}
	return h, true
}

// sliceAt is where a slice begins and ends [m].
func sliceAt(i int) (top, bottom float64) {
	top = float64(i) * heaveSlice
	return top, top + heaveSlice
}

// newSlice reads a slice's soil; false: its class is not known. Clean sand does not heave: the water that swells drains.
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

// melt clears the lenses of slices that are no longer frozen, and sums up the heave from below.
func (h *heaving) melt(row int) {
	f := h.r.frost[row]
	before := h.reach
	h.reach = 0
	if !math.IsNaN(f.bottom) {
		h.reach = min(int(f.bottom/heaveSlice)+1, len(h.slices))
	}
	for i := max(h.reach, before) - 1; i >= 0; i-- {
		s := &h.slices[i]
		top, bottom := sliceAt(i)
		swell := s.through
		if !(top >= f.top && bottom <= f.bottom) {
			swell = s.partly((min(bottom, f.bottom) - max(top, f.top)) / heaveSlice) // NaN without frost
		}
		h.below[i][0] = h.below[i+1][0] + s.lenses[0] + swell[0]
		h.below[i][1] = h.below[i+1][1] + s.lenses[1] + swell[1]
	}
}

// partly is the heave by its own water of a slice of which a share is frozen, low and high [m]. Where none is (or the
// share is NaN), its lenses have melted.
func (s *slice) partly(share float64) [2]float64 {
	if !(share > 0) {
		s.lenses = [2]float64{}
		return [2]float64{}
	}
	return [2]float64{share * s.swell[0], share * s.swell[1]}
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

// index is where in below a depth [m] stands.
func (h *heaving) index(depth float64) int {
	return min(int(math.Round(max(0, depth)/heaveSlice)), len(h.slices))
}

// Distances over which the gradient above a front is read [m]. Nearer to the front than gradientReach the temperature
// differs too little; a front right under the uppermost depth known leaves no choice, and gradientLeast will do.
const (
	gradientReach = 0.10
	gradientLeast = 0.01
)

// gradient is that of the frozen ground above the lowest front at a row [K/m]: from the front, at
// the freezing point [°C], up to the nearest depth known that lies far enough above it. Frost that has not
// reached the uppermost of them, a few centimetres down, has none: the crust of a night grows no lenses.
func (r *frostRecord) gradient(row int, point float64) float64 {
	f := r.frost[row]
	over := func(k int) (gradient float64, known bool) {
		if r.depths[k] < f.top {
			return 0, false
		}
		t := r.temperature(k, row)
		return max(0, (point-t)/(f.bottom-r.depths[k])), !math.IsNaN(t)
	}
	// From the front up: there are many depths, and seldom is the first temperature missing.
	near := sort.Search(len(r.depths), func(k int) bool { return f.bottom-r.depths[k] < gradientReach })
	for k := near - 1; k >= 0; k-- {
		if g, ok := over(k); ok {
			return g
		}
	}
	for k := near; k < len(r.depths) && f.bottom-r.depths[k] >= gradientLeast; k++ {
		if g, ok := over(k); ok {
			return g
		}
	}
	return 0
}
