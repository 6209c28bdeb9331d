package sim

import (
	"math"

	"winterline/sim/heat"
)

// makeRoom makes room for all rows and cycles that the result will show.
func (r *recorder) makeRoom() {
	w := r.w
	r.cycles = make([]CycleRecord, 0, len(w.k.Cycles))
	r.instants = make([]float64, 0, trackRoom*len(w.line.cells))
	rows := func(shown bool) []float64 {
		if !shown {
			return nil
		}
		return make([]float64, 0, len(w.sky.time))
	}
	r.hourly = Hourly{
		Time: rows(true), Air: rows(true), Wind: rows(true), Frost: rows(true), SnowDepth: rows(w.sky.snow != nil),
		Basin: rows(w.basin != nil), Standpipe: rows(w.line.house > 0), Pocket: rows(w.pocket != nil), Draught: rows(w.draught != nil),
		MoundOutlet: rows(w.mounds.outlet != nil), MoundRelief: rows(len(w.mounds.reliefs) > 0),
		Outlet: rows(true), Relief: rows(true), Rim: rows(true), ToSoil: rows(true), Floor: rows(true),
		Segments: r.hourly.Segments,
	}
	for i := range r.segments {
		r.hourly.Segments[i] = SegmentHourly{Water: rows(true), Ice: rows(true), Fill: rows(true)}
	}
}

// row keeps what the result shows of a weather row.
func (r *recorder) row(i int) {
	w, h := r.w, &r.hourly
	t := w.sky.time[i]
	h.Time = append(h.Time, t)
	h.Air = append(h.Air, w.sky.air[i])
	h.Wind = append(h.Wind, w.sky.wind[i])
	snow := 0.0
	if w.sky.snow != nil {
		snow = w.sky.snow[i]
		h.SnowDepth = append(h.SnowDepth, snow*w.k.Layout.Site.SnowOnLine)
		r.reliefs(t, snow)
	}
	frost := 0.0
	if f := w.ground.own().frost; f != nil && f[i].thickness > 0 {
		frost = f[i].bottom
	}
	h.Frost = append(h.Frost, frost)
	if w.basin != nil {
		h.Basin = append(h.Basin, w.basin.level())
	}
	if w.line.house > 0 {
		level := r.standpipeLevel()
		h.Standpipe = append(h.Standpipe, level)
		r.waterAt(t, level)
		r.lipAt(snow)
	}
	if w.pocket != nil {
		h.Pocket = append(h.Pocket, w.pocket.fill())
		r.pocketFull(t)
	}
	if w.draught != nil {
		h.Draught = append(h.Draught, w.draught.speed)
	}
	w.mounds.row(h)
	r.paths()
	r.verdict.Narrowest = math.Max(r.verdict.Narrowest, w.narrowed())
	r.segmentRow()
	snow *= w.k.Layout.Site.SnowOnLine
	r.snapshot(t, frost, snow)
	r.moment(i, frost, snow)
}

// standpipeLevel is the highest level in the standpipe since the last row [m]: of the
// cycles, or of the water at rest.
func (r *recorder) standpipeLevel() float64 {
	l := r.w.line
	at := r.w.rest()
	level := l.bound(at).at(l.standFrom, at.sill)
	level = math.Max(level, l.cells[l.standTo-1].z0)
	if r.highest > level {
		level = r.highest
	}
	r.highest = math.NaN()
	return level
}

// reliefs follows the snow beside the relief openings.
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

// pocketFrozen follows the ice in the rock pit: from nine tenths of its water on it counts as
// frozen, and as thawed below half.
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

// paths keeps the running totals [m³].
func (r *recorder) paths() {
	h, b := &r.hourly, &r.w.water
	volume := func(s *sum) float64 { return s.value() / heat.WaterDensity }
	h.Outlet = append(h.Outlet, volume(&b.outlet))
	h.Relief = append(h.Relief, volume(&b.relief))
	h.Rim = append(h.Rim, volume(&b.rim))
	drunk, floor := 0.0, 0.0
	if r.w.pocket != nil {
		drunk = r.w.pocket.drunk / heat.WaterDensity
	}
	if r.w.basin != nil {
		floor = r.w.basin.floor / heat.WaterDensity
	}
	h.ToSoil = append(h.ToSoil, drunk)
	h.Floor = append(h.Floor, floor)
}

// segmentRow keeps each segment's coldest water, ice and fill.
func (r *recorder) segmentRow() {
	for i := range r.segments {
		low, ice, mass := math.NaN(), 0.0, 0.0
		for _, c := range r.segments[i].cells {
			if v := c.lowestWater(); !(v >= low) && !math.IsNaN(v) {
				low = v
			}
			if !c.film() {
				ice += c.iceMass()
				mass += c.mass * c.length
			}
		}
		h := &r.hourly.Segments[i]
		share, fill := 0.0, 0.0
		if mass > 0 {
			share, fill = ice/mass, mass/r.segments[i].room
		}
		h.Water = append(h.Water, low)
		h.Ice = append(h.Ice, share)
		h.Fill = append(h.Fill, fill)
	}
}

// snapshot keeps the moment with most ice; before there is any, the first.
func (r *recorder) snapshot(t, frost, snow float64) {
	ice := 0.0
	for _, c := range r.w.line.cells {
		ice += c.iceMass()
	}
	if ice <= r.mostIce && r.worst.Cells != nil {
		return
	}
	r.mostIce = ice
	r.worst = r.picture(t, frost, snow, r.worst.Cells)
}

// picture is the line as it is now, in the room of cells that are no longer needed.
func (r *recorder) picture(t, frost, snow float64, room []CellState) Snapshot {
	s := Snapshot{Time: t, Frost: frost, Snow: snow, Cells: room[:0]}
	for i, c := range r.w.line.cells {
		state := CellState{
			Segment: c.segment, X0: c.x0, X1: c.x1, Z0: c.z0, Z1: c.z1, Bore: c.bore,
			Temperature: c.lowestWater(), Closed: r.w.shut[i], Vertical: c.upright,
		}
		if !c.film() {
			state.Fill, state.Ice = c.fill(), c.iceShare()
		}
		s.Cells = append(s.Cells, state)
	}
	return s
}
