package sim_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"winterline/sim"
)

// hoursUntilNone is a record whose air is no number from an hour on: no reader lets it pass, and no step can converge.
const hoursUntilNone = 20

func stuckRun(t *testing.T, setting string) error {
	t.Helper()
	s := airSeries(2, func(float64) float64 { return -12 })
	for i := hoursUntilNone; i < len(s.Air); i++ {
		s.Air[i] = math.NaN()
	}
	text := oddCell + setting + "[outlet]\nkind = \"open\"\n"
	k := caseOf(t, text, s, sim.Supply{Given: true})
	_, err := sim.Run(context.Background(), k, sim.Settings{})
	return err
}

// A step that does not converge however short gives the run up, and says in which cell, when and in which state.
func TestStuckCell(t *testing.T) {
	err := stuckRun(t, "setting = \"open-air\"\nstart_temperature = \"1 degC\"\n")
	var stuck *sim.StepError
	if !errors.As(err, &stuck) {
		t.Fatalf("got %v", err)
	}
	// Air of a number up to the hour before, between the two rows none.
	if hour := stuck.Time / 3600; !(hour >= hoursUntilNone-1 && hour < hoursUntilNone) {
		t.Errorf("gave up at hour %g", hour)
	}
	if stuck.Segment != "run" || !(stuck.Distance >= 0 && stuck.Distance < 1) || !(stuck.Step > 0 && stuck.Step < 1e-3) {
		t.Errorf("gave up in %q, %g m from the wall, at a step of %g s", stuck.Segment, stuck.Distance, stuck.Step)
	}
	// Bare plastic pipe of water at 1 °C in air of −12 °C for a day: full of ice as cold as the air, or by some kelvins
	// colder under a clear night sky.
	if !(stuck.Ice > 0.5 && stuck.Ice <= 1 && stuck.Water <= -8 && stuck.Water >= -20 && stuck.Surface < -8 && stuck.Surface >= -20) {
		t.Errorf("in it %g of ice, from %g °C up, %g °C outside", stuck.Ice, stuck.Water, stuck.Surface)
	}
	for _, want := range []string{`segment "run"`, "m from the wall, hour 19.", "does not converge; water from -", "% of it ice", "°C at its outside"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("no %q in: %v", want, err)
		}
	}
}

// Of the ground it says how deep and in which state.
func TestStuckGround(t *testing.T) {
	err := stuckRun(t, "setting = \"buried\"\ncover = \"0.5 m\"\n[site]\nsoil = \"loam\"\n")
	var stuck *sim.GroundStepError
	if !errors.As(err, &stuck) {
		t.Fatalf("got %v", err)
	}
	if hour := stuck.Time / 3600; !(hour >= hoursUntilNone-1 && hour < hoursUntilNone) || !(stuck.Step > 0 && stuck.Step < 1e-3) {
		t.Errorf("gave up at hour %g, at a step of %g s", hour, stuck.Step)
	}
	if !(stuck.Depth >= 0 && stuck.Depth <= 10 && stuck.Temperature > -12 && stuck.Temperature < 30 && stuck.Surface > -20 && stuck.Surface < 30) {
		t.Errorf("%g m down, %g °C there, %g °C at the surface", stuck.Depth, stuck.Temperature, stuck.Surface)
	}
	if !strings.Contains(err.Error(), "hour 19.") || !strings.Contains(err.Error(), "m down") {
		t.Error(err)
	}
}

// A step that misses the tolerance is made shorter, and the run goes on.
func TestStepsShrink(t *testing.T) {
	k := caseOf(t, oddCell+"setting = \"open-air\"\nstart_temperature = \"1 degC\"\n[outlet]\nkind = \"open\"\n", airSeries(2, func(float64) float64 { return -12 }), sim.Supply{Given: true})
	counts := map[float64]sim.Stats{}
	for _, tolerance := range []float64{1, 1e-3} {
		r, err := sim.Run(context.Background(), k, sim.Settings{WithoutDendritic: true, Stepping: sim.Stepping{Tolerance: tolerance, First: 3600}})
		if err != nil {
			t.Fatal(err)
		}
		counts[tolerance] = r.Stats
	}
	if loose, strict := counts[1], counts[1e-3]; strict.Rejected == 0 || strict.Steps <= 2*loose.Steps {
		t.Errorf("loose %+v, strict %+v", loose, strict)
	}
}
