package sim

import (
	"math"
	"sort"

	"winterline/sim/heat"
)

// met is what the place of a cell faces at t [s].
func (w *winter) met(c *cell, t float64) Met {
	s := w.sky
	air := s.at(t)
	m := Met{Air: air.temp, Wind: air.wind, Ground: math.NaN(), Depth: math.NaN(), Frost: math.NaN(), Snow: math.NaN()}
	_, m.Outside = c.outside.atSurface(s, t, c.surfaceTemperature())
	m.LowestSince, m.MeanSince = s.airBetween(min(c.last.end, t), t)
	if m.Spell = s.frostSince(t); !math.IsNaN(m.Spell) {
		m.LowestSpell, m.MeanSpell = s.airBetween(m.Spell, t)
	} else {
		m.LowestSpell, m.MeanSpell = math.NaN(), math.NaN()
	}
	g, share := w.ground.own(), w.k.Layout.Site.SnowOnLine
	if c.outside.ground != nil {
		m.Ground, m.Depth = c.outside.ground.temperature(t), c.outside.ground.depth
		g = w.surfaceOf(c)
		share = g.key.snowOn
	}
	if g.frost != nil {
		m.Frost = 0
		if f := g.frost[s.row]; f.thickness > 0 {
			m.Frost = f.bottom
		}
	}
	if s.snow != nil {
		m.Snow = s.snowAt(t) * share
	}
	return m
}

// airAt is the air at any time of the record [°C], joined straight between rows.
func (k *sky) airAt(t float64) float64 {
	i := sort.SearchFloat64s(k.time, t)
	switch {
	case i == 0:
		return k.air[0]
	case i == len(k.time):
		return k.air[i-1]
	}
	x := (t - k.time[i-1]) / (k.time[i] - k.time[i-1])
	return k.air[i-1] + x*(k.air[i]-k.air[i-1])
}

// airBetween is the lowest and the mean air between two times [°C].
func (k *sky) airBetween(from, to float64) (lowest, mean float64) {
	at, air := from, k.airAt(from)
	lowest = air
	sum := 0.0
	step := func(t, next float64) {
		lowest = math.Min(lowest, next)
		sum += 0.5 * (air + next) * (t - at)
		at, air = t, next
	}
	for i := sort.SearchFloat64s(k.time, from); i < len(k.time) && k.time[i] < to; i++ {
		step(k.time[i], k.air[i])
	}
	step(to, k.airAt(to))
	if to <= from {
		return lowest, air
	}
	return lowest, sum / (to - from)
}

// frostSince is when the spell of frost began that lasts at t [s]: from then on the mean air of the last 24 hours has been
// below 0 °C at every row. It counts from the start of the first such 24 hours, or of the record. NaN: none lasts at t.
func (k *sky) frostSince(t float64) float64 {
	const day = 86400.0
	frosty := func(t float64) bool {
		_, mean := k.airBetween(math.Max(k.time[0], t-day), t)
		return mean < 0
	}
	since := math.NaN()
	if !frosty(t) {
		return since
	}
	since = t
	for i := sort.SearchFloat64s(k.time, t) - 1; i >= 0 && frosty(k.time[i]); i-- {
		since = k.time[i]
	}
	return math.Max(k.time[0], since-day)
}

// reliefThen is what the relief openings do at t [s]; nil: there are none.
func (w *winter) reliefThen(t float64) *ReliefThen {
	j := w.joint
	if len(j.reliefs) == 0 {
		return nil
	}
	out := &ReliefThen{Running: w.record.flags["relief"], Snow: math.NaN(), Blocked: true}
	snow := w.sky.snowAt(t)
	out.Clear = j.reliefMargin(snow)
	for _, o := range j.reliefs {
		if w.sky.snow != nil {
			out.Snow = math.Max(snow*o.snowFactor, nanLow(out.Snow))
		}
		out.Iced = math.Max(out.Iced, o.ice)
		out.Blocked = out.Blocked && o.clear(snow) >= o.top
	}
	return out
}

// pocketThen is the rock pit at the cell's closure, which is now; nil: there is none.
func (w *winter) pocketThen() *PocketThen {
	p := w.pocket
	if p == nil {
		return nil
	}
	out := &PocketThen{Full: p.fill(), Temperature: math.NaN(), Drinking: p.drinks / heat.WaterDensity}
	if p.warmth != nil {
		out.Temperature, out.Ice = p.warmth.state(p.held)
	}
	return out
}
