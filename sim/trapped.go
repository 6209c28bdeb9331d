package sim

import (
	"fmt"
	"math"

	"winterline/sim/heat"
)

// Trapped is water shut in on both sides in a length of pipe that stands full: between an ice plug and
// a closed check valve, or between two plugs. What freezes on in it, and in the plugs, squeezes it.
type Trapped struct {
	Since  float64  // [s]
	Until  *float64 // [s]; nil: still shut in at the end
	Where  string   // segment of the plug, of two the one downstream
	Valve  bool     // the other end is the check valve; else a plug too
	Volume float64  // liquid when it was first shut in [m³]
	// Pressure above the air's that cannot have been passed [Pa]: the smaller of what the water frozen
	// since would do in a rigid pipe, and what ice bears at the coldest before it melts. That the
	// pipe stretches and a plug may slip is left out: it is an upper bound.
	Pressure float64
	Coldest  float64 // of the ice around it when that was reached [°C]
	Rigid    bool    // the rigid pipe's figure was the smaller
}

// trap follows the trapped water of a run.
type trap struct {
	closed  []*spell // shut in now
	all     []*spell // in the order in which they began
	before  []*spell // room for those shut in when it was last looked
	vents   []bool   // by cell; see vents
	lengths []closedLength
}

// spell is one length from when it was shut in to when it was not.
type spell struct {
	Trapped
	closedLength
	reach  closedLength // with the plugs at its ends
	ice    float64      // in that reach when it was last looked at [kg]
	frozen float64      // since it was shut in [kg]
}

const (
	// waterCompression is the compressibility of water at 0 °C [1/Pa] (handbook value, from memory).
	waterCompression = 5.1e-10
	normalAir        = 101_325.0 // [Pa]
	// leastTrapped is how many bores long the liquid between two ends must stand to be told of;
	// what is shorter is the plug's own core (model definition).
	leastTrapped = 10.0
)

// trapped follows what is shut in at t [s].
func (w *winter) trapped(t float64) {
	old := w.trap.closed
	w.trap.closed, w.trap.before = w.trap.before[:0], old
	for _, s := range w.closedLengths() {
		x := claim(old, s)
		if x == nil {
			if x = w.shutIn(s, t); x == nil {
				continue
			}
			w.trap.all = append(w.trap.all, x)
		}
		w.squeeze(x, s)
		w.trap.closed = append(w.trap.closed, x)
	}
	for _, x := range old {
		if x != nil {
			x.Until = at(t)
		}
	}
}

// shutIn begins the spell of a closed length; nil where it holds too little to be told of.
func (w *winter) shutIn(s closedLength, t float64) *spell {
	plug := w.line.cells[s.to]
	liquid, _ := w.waterIn(s)
	if liquid < leastTrapped*plug.bore*plug.boreArea()*heat.WaterDensity {
		return nil
	}
	return &spell{Trapped: Trapped{Since: t, Valve: s.valve, Where: w.record.segments[plug.part].result.Name, Volume: liquid / heat.WaterDensity}}
}

// claim takes the spell that a closed length continues out of those of before; nil: it is a new one.
func claim(old []*spell, s closedLength) *spell {
	for i, x := range old {
		if x != nil && x.from < s.to && s.from < x.to {
			old[i] = nil
			return x
		}
	}
	return nil
}

// squeeze goes on with a spell, whose ends may have moved, and keeps the highest pressure that the
// water in it can have had.
func (w *winter) squeeze(x *spell, s closedLength) {
	if _, ice := w.waterIn(x.reach); x.reach.to > 0 {
		x.frozen = math.Max(0, x.frozen+ice-x.ice)
	}
	x.closedLength, x.reach = s, w.withPlugs(s)
	var left float64
	left, x.ice = w.waterIn(x.reach)
	cold := w.coldestIce(s)
	if p, rigid := trappedBound(x.frozen/(x.frozen+left), cold); p > x.Pressure {
		x.Pressure, x.Coldest, x.Rigid = p, cold, rigid
	}
}

// trappedBound is the pressure above the air's [Pa] that water shut in cannot pass once the share frozen
// [-] of it has turned to ice, with ice no colder than a temperature [°C] around it; and whether the
// rigid length sets it.
func trappedBound(frozen, coldest float64) (pressure float64, rigid bool) {
	ice := math.Max(0, heat.MeltingPressure(math.Max(coldest, coldestMelt))-normalAir)
	full := heat.TrappedPressure(frozen, waterCompression)
	return math.Min(full, ice), full < ice
}

// coldestMelt is where the melting curve of common ice ends, at some 209 MPa [°C].
const coldestMelt = -21.985

// plasticRating is the pressure that 1-1/2 in schedule 40 PVC pipe is rated for at 23 °C, 330 psi
// [Pa] (ASTM D1785, from memory); drain pipe is rated for none.
const plasticRating = 2.28e6

// OverRating reports that the pressure can pass what plastic pipe of a sump pump's line is rated for.
func (x Trapped) OverRating() bool { return x.Pressure > plasticRating }

// hardly is a pressure that is not worth a figure [Pa].
const hardly = 1e4

// Pressed reports that the water can have come under a pressure worth a figure.
func (x Trapped) Pressed() bool { return x.Pressure >= hardly }

// sentence says what was shut in, and what bounds its pressure.
func (x Trapped) sentence() string {
	between := "two plugs of ice, one in the " + x.Where
	if x.Valve {
		between = "the closed check valve and ice in the " + x.Where
	}
	bound := fmt.Sprintf("at most %.2g MPa, what ice at %.1f °C bears before it melts", x.Pressure/1e6, x.Coldest)
	switch {
	case !x.Pressed():
		bound = "hardly under pressure, since nothing froze on there"
	case x.Rigid:
		bound = fmt.Sprintf("at most %.2g MPa, what the ice that grew since would do in a rigid pipe", x.Pressure/1e6)
	}
	if x.OverRating() {
		bound += ", more than plastic pipe holds"
	}
	return fmt.Sprintf("water was shut in between %s: %s; a plugged line may be under pressure, do not cut or unscrew it", between, bound)
}

// trappedWater are the run's spells, and the event of each.
func (w *winter) trappedWater() (all []Trapped, events []Event) {
	for _, x := range w.trap.all {
		litres := x.Volume * 1000
		all = append(all, x.Trapped)
		events = append(events, Event{Time: x.Since, Kind: EventTrappedWater, Where: x.Where, Value: &litres, Unit: "L", Meaning: x.sentence()})
	}
	return all, events
}
