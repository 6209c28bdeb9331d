package sim_test

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"winterline/sim"
)

func outcome(t *testing.T, k *sim.Case, until sim.Until) *sim.Outcome {
	t.Helper()
	o, err := sim.RunUntil(context.Background(), k, sim.Settings{}, until)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// A winter that is left when it fails fails when it does in the whole record, and is left by the next weather row.
func TestRunUntilFails(t *testing.T) {
	shut, wet := 0, 0
	for _, name := range []string{"downspout-joins", "backup-same-line", "drift-over-relief", "sag", "straight-grade"} {
		k := scenarioCase(t, name).Warmer(-6)
		r := mustRun(t, k)
		whole := outcome(t, k, sim.Until{})
		want := *sim.OutcomeOf(r)
		if !reflect.DeepEqual(*whole, want) {
			t.Errorf("%s: %+v; a run has %+v", name, *whole, want)
		}
		for _, c := range []struct {
			until sim.Until
			at    *float64
			found func(*sim.Outcome) *float64
			n     *int
		}{
			{sim.Until{Shut: true}, r.Verdict.Closed, func(o *sim.Outcome) *float64 { return o.Shut }, &shut},
			{sim.Until{Wet: true}, want.Wet, func(o *sim.Outcome) *float64 { return o.Wet }, &wet},
		} {
			o := outcome(t, k, c.until)
			if !reflect.DeepEqual(c.found(o), c.at) {
				t.Errorf("%s, %+v: %v; want %v", name, c.until, c.found(o), c.at)
			}
			switch {
			case c.at == nil && !o.Whole:
				t.Errorf("%s, %+v: left at %g s though nothing happened", name, c.until, o.End)
			case c.at != nil:
				*c.n++
				// A pump run that crosses a row belongs to the row before it, and one that fails may do so a little after.
				if o.End < *c.at-3600 || o.End > *c.at+2*3600 || o.Whole {
					t.Errorf("%s, %+v: happened at %g s, left at %g s", name, c.until, *c.at, o.End)
				}
			}
		}
	}
	if shut < 2 || wet < 1 {
		t.Errorf("%d shut and %d wet, which shows too little", shut, wet)
	}
}

// A winter that is left when the line shuts, and taken up again, comes to what it comes to in one go, books and all.
func TestFollowedOn(t *testing.T) {
	left := 0
	for _, name := range []string{"backup-same-line", "downspout-joins", "drift-over-relief", "sag"} {
		k := scenarioCase(t, name).Warmer(-6)
		f, err := sim.Follow(context.Background(), k, sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for _, until := range []sim.Until{{Shut: true}, {Wet: true}, {}} {
			got, err := f.Until(context.Background(), until)
			if err != nil {
				t.Fatalf("%s, %+v: %v", name, until, err)
			}
			if want := outcome(t, k, until); !reflect.DeepEqual(got, want) {
				t.Errorf("%s, %+v: %+v; in one go %+v", name, until, *got, *want)
			}
			if !got.Whole {
				left++
			}
		}
	}
	if left < 2 {
		t.Errorf("left %d times, which shows too little", left)
	}
}

// The ice that narrows the line counts from nothing to shut.
func TestNarrowest(t *testing.T) {
	k := scenarioCase(t, "sag")
	last := -1.0
	for _, warmer := range []float64{20, 4, 3, 2.5} {
		o := outcome(t, k.Warmer(warmer), sim.Until{})
		if o.Shut != nil || o.Narrowest < last || o.Narrowest >= 1 {
			t.Errorf("%g K warmer: shut at %v, narrowed to %g after %g", warmer, o.Shut, o.Narrowest, last)
		}
		last = o.Narrowest
	}
	if last < 0.1 {
		t.Errorf("narrowed to %g near where it shuts", last)
	}
	if o := outcome(t, k.Warmer(-6), sim.Until{Shut: true}); o.Shut == nil || o.Narrowest < 0.9 {
		t.Errorf("shut at %v, narrowed to %g", o.Shut, o.Narrowest)
	}
}

// Leaving the second simulation out leaves out what it says, and changes nothing else.
func TestWithoutDendritic(t *testing.T) {
	k := scenarioCase(t, "downspout-joins")
	with := mustRun(t, k)
	without, err := sim.Run(context.Background(), k, sim.Settings{WithoutDendritic: true})
	if err != nil {
		t.Fatal(err)
	}
	if with.Verdict.ClosedDendritic == nil || without.Verdict.ClosedDendritic != nil {
		t.Errorf("dendritic at %v and %v; want some and none", with.Verdict.ClosedDendritic, without.Verdict.ClosedDendritic)
	}
	with.Verdict.ClosedDendritic = nil
	if where := difference(reflect.ValueOf(*with), reflect.ValueOf(*without), "Result"); where != "" {
		t.Errorf("differs in %s", where)
	}
}

// A run that is cancelled says so.
func TestRunUntilCancelled(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := sim.RunUntil(ctx, scenarioCase(t, "sag"), sim.Settings{}, sim.Until{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}
