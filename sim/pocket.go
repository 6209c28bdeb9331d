package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/flow"
	"winterline/sim/heat"
)

// pocket is the crushed rock under the weep slot: a bucket that the slot fills and the
// soil empties through bottom and wetted sides at its saturated conductivity, faster where it
// is dry.
type pocket struct {
	area, perimeter, depth, void float64
	soil                         float64 // saturated conductivity [m/s]
	first                        firstFilling
	held                         float64     // [kg]
	drunk                        float64     // taken by the soil so far [kg]
	drinks                       float64     // what it took over the last interval [kg/s]
	warmth                       *pocketHeat // nil: nothing is known of the ground
}

// newPocket reads the pocket from a layout; nil when there is none or no slot feeds it. It drains
// nowhere while the water table stands above its floor, which lies `floor` below ground [m].
func newPocket(l *pipe.Layout, floor float64) *pocket {
	p := l.Pocket
	if p == nil || l.Outlet.Weep == nil {
		return nil
	}
	soil := l.Site.SoilAt(p.Depth)
	pocket := &pocket{
		area: p.Length * p.Width, perimeter: 2 * (p.Length + p.Width), depth: p.Depth, void: p.Void,
		soil: soil.SaturatedConductivity, first: newFirstFilling(soil),
	}
	if t := l.Site.WaterTable; t != nil && *t < floor {
		pocket.soil = 0 // it stands in water, which takes none
	}
	return pocket
}

// capacity is what the pocket holds when full [kg].
func (p *pocket) capacity() float64 { return p.area * p.depth * p.void * heat.WaterDensity }

// fill is the share of its void that is full [-].
func (p *pocket) fill() float64 { return p.held / p.capacity() }

// drain lets the soil drink for dt [s] at `slowed` times its conductivity, which suction may
// hasten, and returns what it took [kg]. The wetted depth h follows void·area·dh/dt = −K(area + perimeter·h), which
// is solved exactly; ice stays.
func (p *pocket) drain(dt, slowed float64) float64 {
	h := p.fill() * p.depth
	slowed *= p.first.hastened(slowed*p.soil, h, dt)
	full := (p.area + p.perimeter*h) * math.Exp(-slowed*p.soil*p.perimeter*dt/(p.area*p.void))
	left := math.Max(0, (full-p.area)/p.perimeter)
	took := math.Max(0, p.held-left/p.depth*p.capacity())
	if p.warmth != nil {
		_, ice := p.warmth.state(p.held)
		took = math.Min(took, p.held*(1-ice))
	}
	p.held -= took
	p.drunk += took
	if dt > 0 {
		p.drinks = took / dt
	}
	return took
}

// slotFlow is what an open weep slot lets through with water standing to a height above
// its bottom [m³/s].
func slotFlow(s *pipe.Slot, above float64) float64 {
	return flow.SlotFlow(openingFlow, s.Width, s.Height, above)
}
