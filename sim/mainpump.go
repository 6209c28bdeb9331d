package sim

import (
	"fmt"
	"math"

	"winterline/pipe"
)

// pump works out what the pump lifts with an open line, and through what.
func (w *winter) pump() {
	before := w.k.Layout.Segments[:w.line.jointSegment]
	w.lift = &lift{curve: mainCurve(w.k.Layout), duct: equivalent(before), from: w.k.Profile.Segments[0].Z0}
	if w.basin != nil {
		w.lift.from = w.basin.bottom + w.basin.idle
	}
	p := w.parting(0, w.lift.to(w.line.crest))
	w.pumping = p.line + p.relief + p.rim
	if flow, n := meanFlow(w.k.Cycles); n > 0 {
		w.pumping = flow
	}
}

// mainCurve is the main pump's curve, or a typical one where the layout has no pump.
func mainCurve(l *pipe.Layout) []pipe.CurvePoint {
	for _, p := range l.Pumps {
		if p.Role == pipe.MainPump {
			return p.Curve
		}
	}
	curve, _ := pipe.TypicalCurve(typicalPower)
	return curve
}

// typicalPower names the pump that is assumed where the layout has none.
const typicalPower = "1/3 hp"

// meanFlow is the mean of the flows that the cycles state [m³/s], and how many do.
func meanFlow(cycles []pipe.Cycle) (flow float64, n int) {
	for _, c := range cycles {
		if c.Flow > 0 {
			flow += c.Flow
			n++
		}
	}
	return flow / math.Max(1, float64(n)), n
}

// PumpError says that the main pump of a case's layout lifts no water over the highest point of its line.
type PumpError struct {
	Case    string
	ShutOff float64 // head at which the pump shuts off [m]
	Needed  float64 // from the water in the basin to the line's highest point [m]
}

// Error names the layout and the key, what was found and what was expected, in both units.
func (e *PumpError) Error() string {
	const foot = 0.3048 // [m]
	return fmt.Sprintf("layout of %s: pump.curve: found a pump that shuts off at %.1f ft (%.2f m) of head, and so lifts nothing; expected more than %.1f ft (%.2f m), from the water in the basin to the line's highest point",
		e.Case, e.ShutOff/foot, e.ShutOff, e.Needed/foot, e.Needed)
}
