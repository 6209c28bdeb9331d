package sim_test

import (
	"context"
	"math"
	"strings"
	"testing"

	"winterline/sim"
)

// slushEvents are those of a result.
func slushEvents(r *sim.Result) (all []sim.Event) {
	for _, e := range r.Events {
		if e.Kind == sim.EventSlush {
			all = append(all, e)
		}
	}
	return all
}

// Water that supercools to −4 °C turns to c·ΔT/L = 4.2194·4/333.4 = 5.06 % of slush (4.2194 kJ/(kg K) and
// 333.4 kJ/kg are water's at 0 °C), once for the segment and when its first ice forms. Water that does
// not supercool makes none, nor does water that never gets there.
func TestSlushEvent(t *testing.T) {
	end := "setting = \"open-air\"\nstart_temperature = \"4 degC\"\n[outlet]\nkind = \"open\"\n"
	cold := oddCell + "nucleation = \"-4 degC\"\n" + end
	r := mustOdd(t, cold, -8, false)
	got := slushEvents(r)
	if len(got) != 1 || got[0].Where != "run" || got[0].Unit != "%" {
		t.Fatalf("%+v", got)
	}
	near(t, "percent of slush", *got[0].Value, 5.062, 1e-3)
	if math.Abs(got[0].Time-*r.Verdict.FirstIce) > 1e-6 {
		t.Errorf("slush at %g s, first ice at %g s", got[0].Time, *r.Verdict.FirstIce)
	}
	for name, text := range map[string]string{"no supercooling": oddCell + end, "never so cold": strings.Replace(cold, "-4 degC", "-20 degC", 1)} {
		if got := slushEvents(mustOdd(t, text, -8, false)); len(got) != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// A pump run stirs water that stands some degrees below 0 °C: it turns to slush then, long before it would
// have by itself.
func TestSlushWhenStirred(t *testing.T) {
	text := strings.Replace(oddHouse, "CURVE", `"1/3 hp"`, 1)
	text = strings.Replace(text, "drop = \"0.1 m\"\nsetting = \"open-air\"", "drop = \"0 m\"\nsag = \"40 mm\"\nnucleation = \"-15 degC\"\nsetting = \"open-air\"", 1)
	text += "level = \"0.5 m\"\n" // high over the ice on the ground, which so dams nothing up
	got := slushEvents(mustOdd(t, text, -4, true))
	if len(got) == 0 {
		t.Fatal("no slush")
	}
	for _, e := range got {
		hour := e.Time / 3600
		if rest := math.Mod(hour-3, 6); rest > 1e-3 {
			t.Errorf("slush at hour %.4f; the pump runs at hours 3, 9, 15 and so on", hour)
		}
		if *e.Value <= 0 || *e.Value > 8.9 {
			t.Errorf("%.3f %% of slush; a clear sky does not cool a pipe in air of −4 °C below −7 °C", *e.Value)
		}
	}
}

// Slush of 5.06 % shuts a full cell at once where 4 % does, which is the default, and not where it takes 8 %: then the line stays
// open until ice has grown on.
func TestSlushLimit(t *testing.T) {
	k := oddCase(t, oddCell+"nucleation = \"-4 degC\"\nsetting = \"open-air\"\nstart_temperature = \"4 degC\"\n[outlet]\nkind = \"open\"\n", -8, false)
	shut := func(limit float64) (ice, shut float64) {
		t.Helper()
		r, err := sim.Run(context.Background(), k, sim.Settings{SlushLimit: limit})
		if err != nil || r.Verdict.FirstIce == nil || r.Verdict.Closed == nil {
			t.Fatalf("limit %g: %v", limit, err)
		}
		return *r.Verdict.FirstIce, *r.Verdict.Closed
	}
	ice, usual := shut(0)
	if _, at := shut(0.04); at != usual || at > ice+1 {
		t.Errorf("shut at %g s with 4 %%, at %g s by default; slush at %g s", at, usual, ice)
	}
	if _, at := shut(0.08); at < ice+300 {
		t.Errorf("shut at %g s with 8 %%, %g s after the slush", at, at-ice)
	}
}
