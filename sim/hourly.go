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

// row keeps what the result shows of weather row i, and looks for events at it.
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

// standpipeLevel is the highest level in the standpipe since the last row [m], while the pump ran or at rest.
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

// paths keeps how much water has gone each way since the record's start [m³].
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
