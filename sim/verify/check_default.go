package verify

import (
	"context"
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
)

// defaultChecks read a layout in which nothing is known and look at what is taken instead.
var defaultChecks = map[string]evaluator{
	"default": func(_ context.Context, r *record) (float64, error) { return defaultOf(r, 0, 1) },
	"default-below-rim": func(_ context.Context, r *record) (float64, error) {
		rim, err := guessed("standpipe.rim")
		if err != nil {
			return 0, err
		}
		return defaultOf(r, rim.Value, -1)
	},
	"default-cycle-volume": ofUnknown(func(l *pipe.Layout, _ *record) float64 {
		return l.Basin.Area * (l.Basin.FloatOn - l.Basin.FloatOff) / gallon
	}),
	"default-pump-flow": ofUnknown(func(l *pipe.Layout, r *record) float64 {
		pump := sim.NewPumpLine(l.Pumps[0].Curve, nil, math.NaN())
		return pump.FlowTo(r.number("head_ft")*foot) / gallonPerMin
	}),
	"default-shut-off": ofUnknown(func(l *pipe.Layout, _ *record) float64 {
		curve := l.Pumps[0].Curve
		return curve[len(curve)-1].Head / foot
	}),
	"default-riser-bore":  ofUnknown(func(l *pipe.Layout, _ *record) float64 { return l.Segments[0].Size.Bore() / millimetre }),
	"default-weep-height": ofUnknown(func(l *pipe.Layout, _ *record) float64 { return l.Outlet.Weep.Height / millimetre }),
	"default-weep-width":  ofUnknown(func(l *pipe.Layout, _ *record) float64 { return l.Outlet.Weep.Width / millimetre }),
}

// ofUnknown makes an evaluator of what stands in the layout in place of what is not known.
func ofUnknown(f func(l *pipe.Layout, r *record) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) {
		l, err := readLayout(unknownText)
		if err != nil {
			return 0, err
		}
		return f(l, r), nil
	}
}

// guessed returns the guess for a key.
func guessed(key string) (pipe.Guess, error) {
	l, err := readLayout(unknownText)
	if err != nil {
		return pipe.Guess{}, err
	}
	for _, g := range l.Guesses {
		if g.Key == key {
			return g, nil
		}
	}
	return pipe.Guess{}, fmt.Errorf("no guess for %q", key)
}

// defaultOf returns the guess for the row's key, or an end of its range, in the row's unit: how far it lies
// from a level [SI] in the direction of sign.
func defaultOf(r *record, from, sign float64) (float64, error) {
	g, err := guessed(r.text("key"))
	if err != nil {
		return 0, err
	}
	value := g.Value
	switch r.text("end") {
	case "low":
		value = g.Low
	case "high":
		value = g.High
	}
	unit := 1.0
	if name := r.text("unit"); name != "-" {
		if unit, err = units.Parse(g.Dimension, "1 "+name); err != nil {
			return 0, err
		}
	}
	return (from + sign*value) / unit, nil
}
