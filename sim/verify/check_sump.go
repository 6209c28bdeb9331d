package verify

import (
	"context"
	"fmt"
	"math"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// sumpChecks read a basin from a layout and let the float run the pump, as a run does.
var sumpChecks = map[string]evaluator{
	"basin-volume": func(_ context.Context, r *record) (float64, error) { // [gal/in]
		l, err := sumpLayout(fmt.Sprintf("%g in", r.number("basin_in")), 0.15)
		if err != nil {
			return 0, err
		}
		return l.Basin.Area * inch / gallon, nil
	},
	"cycle-volume": func(_ context.Context, r *record) (float64, error) {
		l, err := sumpLayout(fmt.Sprintf("%g m", r.number("basin_m")), r.number("band_m"))
		if err != nil {
			return 0, err
		}
		return l.Basin.Area * (l.Basin.FloatOn - l.Basin.FloatOff), nil
	},
	"pump-on-time":     ofFloat(func(first, _ pipe.Cycle) float64 { return first.Run }),
	"pump-off-time":    ofFloat(func(first, second pipe.Cycle) float64 { return between(first, second) - first.Run }),
	"cycles-per-hour":  ofFloat(func(first, second pipe.Cycle) float64 { return 1 / perHour / between(first, second) }),
	"pumped-per-cycle": ofFloat(func(first, _ pipe.Cycle) float64 { return first.Run * first.Flow }),
	"air-gap": closed(func(r *record) float64 {
		return pipe.RequiredAirGap(r.number("opening_in")*inch) / inch
	}),
}

// ofFloat makes an evaluator of the first two cycles that the float makes of a steady inflow. The pump
// delivers the row's flow at any head up to 20 m.
func ofFloat(f func(first, second pipe.Cycle) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) {
		l, err := sumpLayout(fmt.Sprintf("%g m", r.number("basin_m")), r.number("band_m"))
		if err != nil {
			return 0, err
		}
		pump := r.number("pump_m3_s")
		l.Pumps = []pipe.Pump{{Name: "main", Curve: []pipe.CurvePoint{{Flow: pump}, {Head: 20, Flow: pump}, {Head: 21}}}}
		profile, problems := l.MakeProfile("layout.toml")
		if len(problems) > 0 {
			return 0, problems[0]
		}
		start := time.Date(2001, time.January, 1, 0, 0, 0, 0, time.UTC)
		record := &weather.Series{Start: start, Time: []float64{0, 1 / perHour}, Air: []float64{5, 5}}
		inflow := []pipe.InflowRow{{Time: start, Inflow: r.number("inflow_m3_s")}}
		k, err := sim.NewCase("sump", l, profile, record, sim.Supply{Inflow: inflow})
		switch {
		case err != nil:
			return 0, err
		case len(k.Cycles) < 2:
			return math.NaN(), nil
		}
		return f(k.Cycles[0], k.Cycles[1]), nil
	}
}

// between is the time from the start of one cycle to that of the next [s].
func between(first, second pipe.Cycle) float64 { return second.Start.Sub(first.Start).Seconds() }
