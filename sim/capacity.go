package sim

import (
	"math"

	"winterline/sim/flow"
)

// When a cell counts as shut, and what iced bores lose.
const (
	shutFlow     = 0.05 // share of the pump's flow that a cell which counts as shut passes at most [-] (model definition)
	openFlow     = 0.10 // share from which on it counts as open again [-] (model definition)
	icedLosses   = 1.5  // entry and exit of the narrowed bore [-] (handbook values 0.5 and 1.0)
	icedFriction = 0.03 // Darcy friction factor of an iced bore [-] (common practice, no source)
)

// driveHead is what drives water through a cell that is icing up: the greatest head there [m] and the flow that the
// pump delivers where nothing is in the way [m³/s].
type driveHead struct{ head, flow float64 }

// passes is the largest flow [m³/s] that a cell passes at a head when the share f of its standing water is
// ice: Torricelli with the losses of entry, exit and friction in a round bore of the area left free. What the rest of
// the line loses is left out (unsafe side; little beside a bore that is nearly shut).
func (c *cell) passes(f float64, d driveHead) float64 {
	open := c.openAt(f)
	if open <= 0 {
		return 0
	}
	across := math.Sqrt(4 * open / math.Pi)
	return open * flow.Torricelli(d.head) / math.Sqrt(icedLosses+icedFriction*c.length/across)
}

// openAt is the cross-section free of ice [m²] when the share f of the standing water is ice.
func (c *cell) openAt(f float64) float64 {
	full := c.boreArea()
	if c.skin(false) {
		return full
	}
	return full - c.iceAreaAt(f)
}

// blocks tells whether ice at share f shuts the cell. A cell that is shut already opens at twice the flow, or half the
// slush, so that it does not flicker.
func (c *cell) blocks(f float64, d driveHead, already bool) bool {
	if !c.wet() || f <= 0 {
		return false
	}
	if c.skin(already) {
		return false
	}
	limit, slush := shutFlow, c.slushLimit
	if already {
		limit, slush = openFlow, c.slushLimit/2
	}
	if c.slushy && c.fill() > 0.999 && f >= slush {
		return true
	}
	return c.passes(f, d) <= limit*d.flow
}

// skin reports that what stands in a slice of upright pipe is less deep than the pipe is
// wide, so that its ice is a skin that the next water lifts and melts, not a plug. What is a plug already
// stays one down to half that depth.
func (c *cell) skin(plug bool) bool {
	least := c.bore
	if plug {
		least /= 2
	}
	return c.upright && c.share < 1 && c.share*c.length < least
}

// blockingShare is the ice share at which the cell shuts [-], between two shares that lie
// on either side of it.
func (c *cell) blockingShare(open, shut float64, d driveHead) float64 {
	for range 40 {
		mid := 0.5 * (open + shut)
		if c.blocks(mid, d, false) {
			shut = mid
		} else {
			open = mid
		}
	}
	return shut
}
