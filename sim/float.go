package sim

import (
	"fmt"
	"math"
	"time"

	"winterline/pipe"
	"winterline/weather"
)

// everyCycles lays out the plan "every … for …" over the record. The first cycle starts half a
// period after the record does.
func everyCycles(plan pipe.WaterPlan, s *weather.Series) []pipe.Cycle {
	var out []pipe.Cycle
	for t := plan.Every / 2; t+plan.For < s.End() && len(out) <= maxCycles; t += plan.Every {
		out = append(out, pipe.Cycle{Start: s.Stamp(t), Run: plan.For})
	}
	return out
}

// usualBand is the water between float off and float on where the layout has no basin [m³]: some 13 cm in a basin
// 45 cm across (common practice, no source).
const usualBand = 0.02

// floatCycles turns water reaching the basin into the cycles that the float makes of it:
// the basin fills from float off to float on at the inflow, then the pump draws it down
// while more comes. Rows hold from their stamp to the next; the last to the record's end. Where more comes than the pump
// lifts, it is taken to keep up all the same, and the notes say so.
func floatCycles(l *pipe.Layout, p *pipe.Profile, s *weather.Series, rows []pipe.InflowRow) ([]pipe.Cycle, []Warning) {
	f := floatSwitch{band: usualBand, rate: floatRate(l, p)}
	if l.Basin != nil {
		f.band = l.Basin.Area * (l.Basin.FloatOn - l.Basin.FloatOff)
	}
	for i, row := range rows {
		from := math.Max(0, row.Time.Sub(s.Start).Seconds())
		to := s.End()
		if i+1 < len(rows) {
			to = math.Min(to, rows[i+1].Time.Sub(s.Start).Seconds())
		}
		f.run(from, to, row.Inflow, s.Stamp)
	}
	return f.out, f.notes()
}

// notes warn of inflow beyond what the pump lifts.
func (f *floatSwitch) notes() []Warning {
	if f.most == 0 {
		return nil
	}
	const perMinute, gallon = 60e3, 3.785411784 // of m³/s in L/min; US gallon [L]
	lifts, most := f.rate*perMinute, f.most*perMinute
	return []Warning{{"inflow-beyond-pump", fmt.Sprintf("For %.1f h more water came than the pump lifts: up to %.0f L/min (%.0f gal/min), and it lifts %.0f L/min (%.0f gal/min). It is simulated as if it kept up, so that a basin which overflows then is not told of (unsafe side).",
		f.short/3600, most, most/gallon, lifts, lifts/gallon)}}
}

// floatRate is what the main pump lifts with an open line [m³/s].
func floatRate(l *pipe.Layout, p *pipe.Profile) float64 {
	to := len(l.Segments)
	if l.Standpipe != nil {
		to = l.Standpipe.After + 1
	}
	up := &lift{curve: mainCurve(l), duct: equivalent(l.Segments[:to]), from: p.Segments[0].Z0}
	if b := newBasin(l.Basin); b != nil {
		up.from = b.bottom + b.idle
	}
	crest := math.Inf(-1)
	for _, r := range p.Segments[:to] {
		crest = math.Max(crest, math.Max(r.Z0, r.Z1))
	}
	return up.to(crest)
}

// floatSwitch follows the water above the float's off level.
type floatSwitch struct {
	band float64 // volume between float off and on [m³]
	rate float64 // the pump's flow [m³/s]
	held float64 // volume above float off [m³]
	busy float64 // until when the pump runs [s]
	out  []pipe.Cycle

	short, most float64 // for how long more came than the pump lifts [s], and how much at most then [m³/s]
}

// run adds the cycles of a stretch of steady inflow [m³/s]. A pump that cannot keep up
// runs to the stretch's end.
func (f *floatSwitch) run(from, to, inflow float64, stamp func(float64) time.Time) {
	t := math.Max(from, f.busy)
	for inflow > 0 && len(f.out) <= maxCycles {
		on := t + math.Max(0, f.band-f.held)/inflow
		if on >= to {
			f.held += inflow * math.Max(0, to-t)
			return
		}
		run := to - on
		if f.rate > inflow {
			run = math.Min(run, f.band/(f.rate-inflow))
		} else if inflow > f.rate {
			f.short, f.most = f.short+run, math.Max(f.most, inflow)
		}
		f.out = append(f.out, pipe.Cycle{Start: stamp(on), Run: run, Flow: math.Max(f.rate, inflow)})
		t, f.held = on+run, math.Max(0, f.band-math.Max(0, f.rate-inflow)*run)
		f.busy = t
	}
}
