package sim

import (
	"math"

	"winterline/sim/heat"
)

// openCycle notes the start of a pump cycle that brings a mass of water [kg].
func (r *recorder) openCycle(t, mass float64) {
	r.cycles = append(r.cycles, CycleRecord{Time: t, Volume: mass / heat.WaterDensity, Level: math.NaN()})
}

// now is the cycle in progress.
func (r *recorder) now() *CycleRecord { return &r.cycles[len(r.cycles)-1] }

// refused notes water that was not pumped in this cycle [kg]. held: ice or a power cut held it back; otherwise the
// next cycle came too soon.
func (r *recorder) refused(t, mass float64, held bool) {
	r.now().Refused += mass / heat.WaterDensity
	r.refusedAny = r.refusedAny || mass > 0
	if held && mass > 0 && r.once("no-flow", true) {
		r.event(t, EventPumpNoFlow, "pump", mass/heat.WaterDensity*1000, "L", "the pump pushed against ice, or had no power: this water stayed in the basin")
	}
}

// backedUp notes water that the backup pump lifted in this cycle [kg].
func (r *recorder) backedUp(t, mass float64) {
	if r.once("backup", true) {
		r.event(t, EventBackupRunning, "pump", mass/heat.WaterDensity*1000, "L", "the backup pump took over; what it lifted first")
	}
}

// lot notes one lot of water that went through the joint.
func (r *recorder) lot(t, run float64, p parting) {
	c := r.now()
	c.Run += run
	if r.w.line.house > 0 {
		c.Level = math.Max(p.level, nanLow(c.Level))
		r.highest = math.Max(p.level, nanLow(r.highest))
		r.waterAt(t, p.level)
	}
	r.once("no-flow", false)
}

// nanLow is v, or −Inf where it is NaN, so that anything is higher.
func nanLow(v float64) float64 {
	if math.IsNaN(v) {
		return math.Inf(-1)
	}
	return v
}

// roofOver notes roof water that the line did not take [kg].
func (r *recorder) roofOver(t, mass float64) {
	if r.once("roof", true) {
		r.event(t, EventRoofOver, "downspout", mass/heat.WaterDensity*1000, "L", "roof water found the line shut and ran over at the foot of the downspout")
	}
}

// aside notes water that left at the joint [kg].
func (r *recorder) aside(t, relief, rim float64, p parting) {
	r.waterAt(t, p.level)
	if len(r.cycles) > 0 {
		c := r.now()
		c.Relief += relief / heat.WaterDensity
		c.Rim += rim / heat.WaterDensity
	}
	if relief > 0 {
		if r.verdict.Relief == nil {
			r.verdict.Relief = at(t)
		}
		if r.once("relief", true) {
			r.event(t, EventReliefRunning, r.jointName(), p.level, "m", "the relief opening took over; water level in the "+r.jointName())
		}
	}
	beside := rim > 0 || r.w.joint.beside(p.level, r.w.sky.snowAt(t)) > 0 && relief > 0
	if beside && r.verdict.Spill == nil {
		r.verdict.Spill = at(t)
	}
	if rim > 0 && r.once("rim", true) {
		r.event(t, EventRimSpill, "standpipe", p.level, "m", "water came out of the top, beside the house; level in the standpipe")
	}
}

// jointName is where the relief openings are: at the standpipe, or in a segment of a glued line.
func (r *recorder) jointName() string {
	l := r.w.k.Layout
	if l.Standpipe == nil && len(l.Reliefs) > 0 {
		return l.Segments[l.Reliefs[0].Segment].Name
	}
	return "standpipe"
}

// atOutlet notes water that left at the far end [kg].
func (r *recorder) atOutlet(mass float64) {
	if len(r.cycles) > 0 {
		r.now().Outlet += mass / heat.WaterDensity
	}
}

// floorWet notes water on the basement floor.
func (r *recorder) floorWet(t float64) {
	if r.verdict.Floor == nil {
		r.verdict.Floor = at(t)
		r.event(t, EventFloorWet, "basin", r.w.basin.floor/heat.WaterDensity*1000, "L", "the basin overflowed onto the basement floor")
	}
}

// closeCycle counts the cycle in progress among those with relief or spill, and ends events that did not go on in it.
func (r *recorder) closeCycle(t float64) {
	c := r.now()
	if c.Run > 0 && !r.w.outage(t) {
		r.once("backup", false)
	}
	if c.Relief > 0 {
		r.verdict.ReliefRuns++
	} else if c.Rim == 0 && c.Refused == 0 && r.once("relief", false) {
		r.event(t, EventReliefStopped, r.jointName(), math.NaN(), "", "the line took the water again; the relief opening stayed dry")
	}
	if c.Rim > 0 {
		r.verdict.SpillRuns++
	} else {
		r.once("rim", false)
	}
}
