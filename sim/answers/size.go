package answers

import (
	"context"
	"fmt"
	"math"

	"winterline/pipe"
)

// Quantity is what a design varies.
type Quantity int

// Quantities.
const (
	ByInsulation Quantity = iota // foam added round a segment: thickness [m]
	ByCover                      // soil on top of the pipe at a segment's shallower end, the whole line deeper with it [m]
	BySlope                      // slope of a run [-]
	ByRelief                     // height of the lowest relief opening above ground, all others with it [m]
	ByPocket                     // volume of the rock pit, rock and all [m³]
)

var quantityWords = []string{"insulation", "cover", "slope", "relief", "pocket"}

// String gives the word by which the command line names a quantity.
func (q Quantity) String() string { return quantityWords[q] }

// QuantityWords lists the words that ParseQuantity takes.
func QuantityWords() []string { return append([]string(nil), quantityWords...) }

// ParseQuantity reads the word for a quantity.
func ParseQuantity(word string) (Quantity, error) {
	for q, w := range quantityWords {
		if w == word {
			return Quantity(q), nil
		}
	}
	return 0, fmt.Errorf("found %q; expected insulation, cover, slope, relief or pocket", word)
}

// OfSegment says whether a quantity is that of a segment.
func (q Quantity) OfSegment() bool { return q <= BySlope }

// rungs are the values that a search may answer with, from the least to the most: steps to which such things are
// built, or finer, over all that is built (common practice, no source).
func (q Quantity) rungs() (values []float64) {
	switch q {
	case ByInsulation:
		return ladder(0, 0.001, 101) // 0 to 100 mm
	case ByCover:
		return ladder(0.10, 0.01, 141) // 10 cm to 1.5 m
	case BySlope:
		return ladder(0, 0.0005, 81) // 0 to 4 %
	case ByRelief:
		return ladder(0.05, 0.005, 101) // 5 to 55 cm
	}
	for i := range 101 {
		values = append(values, math.Round(1000*0.05*math.Pow(1.05, float64(i)))/1000) // 50 L to 6.6 m³
	}
	return values
}

// ladder is n values from low on; rounded so that they read as written.
func ladder(low, step float64, n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = math.Round((low+float64(i)*step)*1e5) / 1e5
	}
	return values
}

// Vary says what is varied, and within what.
type Vary struct {
	Quantity  Quantity
	Segment   int     // whose it is, an index in the layout's segments; −1: the one that shut, or had most ice
	Low, High float64 // values outside are not tried; 0: as far as such things are built
}

// within are the rungs that a search goes over.
func (v Vary) within() (values []float64) {
	for _, x := range v.Quantity.rungs() {
		if x >= v.Low*(1-1e-9) && (v.High == 0 || x <= v.High*(1+1e-9)) {
			values = append(values, x)
		}
	}
	return values
}

// change makes a value of the quantity.
func (m *maker) change(v Vary, value float64) Change {
	switch v.Quantity {
	case ByInsulation:
		return m.insulate(v.Segment, value)
	case ByCover:
		return m.toCover(v.Segment, value)
	case BySlope:
		return m.toSlope(v.Segment, value)
	case ByRelief:
		if len(m.layout.Reliefs) == 0 {
			return m.newOpening(value)
		}
		return m.raiseRelief(value - m.lowestRelief())
	}
	return m.toPocket(value)
}

func (m *maker) lowestRelief() float64 {
	lowest := math.Inf(1)
	for _, r := range m.layout.Reliefs {
		lowest = math.Min(lowest, r.Height)
	}
	return lowest
}

// now is the value of a quantity as the layout has it; NaN where it has none.
func (m *maker) now(v Vary) float64 {
	switch v.Quantity {
	case ByInsulation:
		return 0 // that is added
	case ByCover:
		return m.leastCover(v.Segment)
	case BySlope:
		return m.layout.Segments[v.Segment].Drop / m.layout.Segments[v.Segment].Length
	case ByRelief:
		if len(m.layout.Reliefs) > 0 {
			return m.lowestRelief()
		}
	case ByPocket:
		if m.layout.Pocket != nil {
			return volume(*m.layout.Pocket)
		}
	}
	return math.NaN()
}

// CannotVary says why a quantity cannot be varied in a layout, or not within the range asked for.
type CannotVary struct{ why string }

// Error gives the reason.
func (e *CannotVary) Error() string { return e.why }

func cannotVary(form string, args ...any) error { return &CannotVary{fmt.Sprintf(form, args...)} }

// fault says why a quantity cannot be varied in a layout; nil where it can.
func (m *maker) fault(v Vary) error {
	if !v.Quantity.OfSegment() {
		if v.Quantity == ByPocket && m.layout.Outlet.Kind != pipe.Lid {
			return cannotVary("a rock pit is fed by the slot under a lid, and this line has an open end")
		}
		return nil
	}
	if v.Segment < 0 || v.Segment >= len(m.layout.Segments) {
		return cannotVary("no segment lies outdoors whose %s could be varied", v.Quantity)
	}
	if s := m.layout.Segments[v.Segment]; v.Quantity != ByInsulation && s.Setting != pipe.Buried {
		return cannotVary("the %s of a buried segment can be varied; %q is %s", v.Quantity, s.Name, s.Setting)
	}
	return nil
}

// whose finds the segment that is meant where none was named.
func (e *Engine) whose(ctx context.Context, s Source, v Vary) (Vary, error) {
	if !v.Quantity.OfSegment() || v.Segment >= 0 {
		return v, nil
	}
	base, err := s.Case()
	if err != nil {
		return v, err
	}
	result, err := e.run(ctx, base)
	if err != nil {
		return v, err
	}
	for _, i := range newMaker(s, base, result).targets() {
		if v.Quantity == ByInsulation || base.Layout.Segments[i].Setting == pipe.Buried {
			v.Segment = i
			break
		}
	}
	return v, nil
}
