package sim

import (
	"math"

	"winterline/sim/heat"
)

// reliefs follows the snow beside the relief openings; snow is its depth in the open [m].
func (r *recorder) reliefs(t, snow float64) {
	j := r.w.joint
	if len(j.reliefs) == 0 {
		return
	}
	factor := 0.0
	buried := true
	for _, o := range j.reliefs {
		factor = math.Max(factor, o.snowFactor)
		buried = buried && o.buried(snow)
	}
	if deep := snow * factor; r.verdict.HighestSnow == nil || deep > *r.verdict.HighestSnow {
		put(&r.verdict.HighestSnow, deep)
	}
	if margin := j.reliefMargin(snow); r.verdict.ReliefMargin == nil || margin < *r.verdict.ReliefMargin {
		put(&r.verdict.ReliefMargin, margin)
	}
	if r.once("buried", buried) && buried {
		r.event(t, EventReliefBuried, r.jointName(), snow*factor, "m", "snow stood over every relief opening; depth beside it")
	}
}

// pocketFull follows the rock pit; it counts as full from 99 % on, and as emptying
// again below 90 %.
func (r *recorder) pocketFull(t float64) {
	fill := r.w.pocket.fill()
	if fill >= 0.99 && r.once("pocket", true) {
		r.event(t, EventPocketFull, "pocket", r.w.pocket.held/heat.WaterDensity*1000, "L", "the rock pit was full: the line stays full behind it")
	}
	if fill < 0.90 {
		r.once("pocket", false)
	}
	r.pocketFrozen(t)
}

// pocketFrozen follows the ice in the rock pit: it counts as frozen once nine tenths of its water are ice, and as thawed
// once less than half is.
func (r *recorder) pocketFrozen(t float64) {
	p := r.w.pocket
	if p.warmth == nil || p.fill() < 0.05 {
		return
	}
	_, ice := p.warmth.state(p.held)
	if ice >= 0.9 && r.once("pocket-frozen", true) {
		r.event(t, EventPocketFrozen, "pocket", p.held/heat.WaterDensity*1000, "L", "the water in the rock pit froze: it takes in and drains no more")
	}
	if ice < 0.5 {
		r.once("pocket-frozen", false)
	}
}
