package sim_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// Odd but legal installations, each of which once gave a wrong answer or none. What is
// expected follows from the definitions of the layout's keys.

const oddCell = `title = "odd"
[[segment]]
name = "run"
pipe = "1-1/2 in sch 40 PVC"
length = "1 m"
drop = "0 m"
standing = "full"
`

const oddHouse = `title = "odd"
[basin]
floor_below_ground = "8 ft"
bottom_below_floor = "24 in"
diameter = "18 in"
float_on = "12 in"
float_off = "5 in"
[[pump]]
name = "main"
curve = CURVE
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "10 ft"
rise = "10 ft"
setting = "indoor"
[[segment]]
name = "out"
pipe = "1-1/2 in sch 40 PVC"
length = "2 m"
drop = "0.1 m"
setting = "open-air"
[outlet]
kind = "open"
`

// oddRun simulates a layout through days of steady air [°C] with a pump cycle every six hours, or none.
func oddRun(t *testing.T, text string, air float64, pumping bool) (*sim.Result, error) {
	t.Helper()
	return sim.Run(context.Background(), oddCase(t, text, air, pumping), sim.Settings{})
}

// oddCase is the case that oddRun simulates.
func oddCase(t *testing.T, text string, air float64, pumping bool) *sim.Case {
	t.Helper()
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	for i := range 49 {
		s.Time = append(s.Time, float64(i)*3600)
		s.Air = append(s.Air, air)
	}
	w := sim.Supply{Given: true}
	for h := 3.0; pumping && h < 48; h += 6 {
		w.Cycles = append(w.Cycles, pipe.Cycle{Start: s.Stamp(h * 3600), Run: 30})
	}
	return caseOf(t, text, s, w)
}

func mustOdd(t *testing.T, text string, air float64, pumping bool) *sim.Result {
	t.Helper()
	r, err := oddRun(t, text, air, pumping)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Water that starts at exactly 0 °C stands on the edge of its plateau: the heat book closes.
func TestWaterStartingAtZero(t *testing.T) {
	text := strings.Replace(oddCell, `"full"`, `"40 %"`, 1) + "setting = \"open-air\"\nliquid = \"still\"\nstart_temperature = \"0 degC\"\n[outlet]\nkind = \"open\"\n"
	if r := mustOdd(t, text, -8, false); r.Balance.HeatRelative > 1e-9 || r.Segments[0].LargestIce < 0.5 {
		t.Errorf("heat book %g, ice %g", r.Balance.HeatRelative, r.Segments[0].LargestIce)
	}
}

// Water that may supercool to −4 °C holds no ice in air of −1 °C, and nucleates in air of −8 °C later
// than it would have frozen.
func TestSupercooledWaterIsNoIce(t *testing.T) {
	end := "setting = \"open-air\"\nstart_temperature = \"4 degC\"\n[outlet]\nkind = \"open\"\n"
	cold := "nucleation = \"-4 degC\"\n" + end
	if r := mustOdd(t, oddCell+cold, -1, false); r.Verdict.FirstIce != nil || r.Verdict.State != sim.Clear {
		t.Errorf("in -1 °C: %v, first ice %v", r.Verdict.State, r.Verdict.FirstIce)
	}
	late, plain := mustOdd(t, oddCell+cold, -8, false), mustOdd(t, oddCell+end, -8, false)
	if late.Verdict.FirstIce == nil || plain.Verdict.FirstIce == nil || *late.Verdict.FirstIce < *plain.Verdict.FirstIce+600 {
		t.Errorf("first ice %v with supercooling, %v without", late.Verdict.FirstIce, plain.Verdict.FirstIce)
	}
}

// A pump whose shut-off head lies under the line's crest lifts nothing, and that is said.
func TestPumpTooWeak(t *testing.T) {
	_, err := oddRun(t, strings.Replace(oddHouse, "CURVE", `[["0 ft", "40 gal/min"], ["4 ft", "0 gal/min"]]`, 1), 5, true)
	var weak *sim.PumpError
	if !errors.As(err, &weak) || math.Abs(weak.ShutOff-4*0.3048) > 1e-9 || weak.Needed <= weak.ShutOff {
		t.Errorf("error %v", err)
	}
}

// With nothing buried no soil is asked for, and the basin's water is still given a temperature.
func TestBasinWithoutSoil(t *testing.T) {
	r := mustOdd(t, strings.Replace(oddHouse, "CURVE", `"1/3 hp"`, 1), 5, true)
	if l := r.Ledger; l.Pumped <= 0 || math.Abs(l.Outlet+l.HeldLine-l.Pumped) > 1e-9*l.Pumped {
		t.Errorf("%+v", l)
	}
}

// A sheltered pipe is as cold as outdoors unless the layout says otherwise; half way to the
// room only where that is written.
func TestShelterIsOutdoorsUnlessWritten(t *testing.T) {
	text := func(site string) string {
		return "title = \"odd\"\n[site]\nroom_temperature = \"15 degC\"\n" + site +
			strings.TrimPrefix(oddCell, "title = \"odd\"\n") + "setting = \"sheltered\"\nstart_temperature = \"5 degC\"\n[outlet]\nkind = \"open\"\n"
	}
	if low := mustOdd(t, text(""), -10, false).Segments[0].LowestWater; math.Abs(low+10) > 0.3 {
		t.Errorf("left out: lowest %.2f °C after two days at -10", low)
	}
	if low := mustOdd(t, text("sheltered_temperature = \"halfway\"\n"), -10, false).Segments[0].LowestWater; math.Abs(low-2.5) > 0.3 {
		t.Errorf("halfway: lowest %.2f °C between -10 and 15", low)
	}
}

// What the layout holds and the simulation leaves out is said.
func TestLeftOutInputsAreNamed(t *testing.T) {
	kinds := map[string]bool{}
	for _, w := range mustOdd(t, strings.Replace(oddHouse, "CURVE", `"1/3 hp"`, 1), 5, true).Warnings {
		kinds[w.Kind] = true
	}
	if !kinds["no-wind-record"] || !kinds["no-snow-record"] || kinds["backup-line-open"] {
		t.Errorf("warnings %v", kinds)
	}
}

// Two layers of soil at one temperature read that temperature at every depth.
func TestLayersReadTheirOwnSoil(t *testing.T) {
	for _, depth := range sim.LayerEdgeTemperatures(-2) {
		if math.Abs(depth.Temperature+2) > 1e-9 {
			t.Errorf("%.2f m: %.2f °C in ground of -2 °C", depth.Depth, depth.Temperature)
		}
	}
}
