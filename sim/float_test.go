package sim_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// floatCase is a basin with 30 L between float on and off and a pump of 100 L/min whatever the
// head (its curve falls only above 20 m), under an inflow.
func floatCase(t *testing.T, hours float64, rows ...pipe.InflowRow) []pipe.Cycle {
	t.Helper()
	return floatCaseOf(t, hours, rows...).Cycles
}

// floatCaseOf is the whole case.
func floatCaseOf(t *testing.T, hours float64, rows ...pipe.InflowRow) *sim.Case {
	t.Helper()
	const text = `title = "float"
[basin]
floor_below_ground = "2 m"
bottom_below_floor = "0.6 m"
area = "0.2 m2"
float_on = "0.25 m"
float_off = "0.10 m"
water_temperature = "8 degC"
[[segment]]
name = "riser"
pipe = "2 in sch 40 PVC"
length = "2.7 m"
rise = "2.7 m"
setting = "indoor"
[outlet]
kind = "open"
`
	l, profile := readLayout(t, text)
	const rate = 0.1 / 60 // [m³/s]
	l.Pumps = []pipe.Pump{{Name: "main", Curve: []pipe.CurvePoint{{Head: 0, Flow: rate}, {Head: 20, Flow: rate}, {Head: 21}}}}
	s := &weather.Series{Source: "test", Start: recordStart, Time: []float64{0, hours * 3600}, Air: []float64{5, 5}}
	k, err := sim.NewCase("float", l, profile, s, sim.Supply{Inflow: rows})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// inflow is a row of inflow [L/min] from an hour on.
func inflow(hour, litresPerMinute float64) pipe.InflowRow {
	return pipe.InflowRow{Time: recordStart.Add(time.Duration(hour * 3600e9)), Inflow: litresPerMinute / 60e3}
}

// wantCycles compares starts [s], run times [s] and flows [L/min]; stamps are held to a
// millisecond.
func wantCycles(t *testing.T, got []pipe.Cycle, want ...[3]float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d cycles; want %d: %v", len(got), len(want), got)
	}
	for i, c := range got {
		start := c.Start.Sub(recordStart).Seconds()
		if math.Abs(start-want[i][0]) > 2e-3 || math.Abs(c.Run-want[i][1]) > 1e-3 || math.Abs(c.Flow*60e3-want[i][2]) > 1e-4 {
			t.Errorf("cycle %d: at %.4f s for %.4f s with %.4f L/min; want %v", i, start, c.Run, c.Flow*60e3, want[i])
		}
	}
}

// By hand: at 0.5 L/min the 30 L are there after 60 min; the pump draws 100 while 0.5 comes, for
// 30/99.5 min = 18.0905 s; then the next 60 min begin.
func TestFloatCyclesAtASteadyInflow(t *testing.T) {
	const run = 18.0905
	wantCycles(t, floatCase(t, 3.5, inflow(0, 0.5)),
		[3]float64{3600, run, 100}, [3]float64{7200 + run, run, 100}, [3]float64{10800 + 2*run, run, 100})
}

// By hand: 0.5 L/min for half an hour leaves 15 L; the other 15 L come at 1 L/min within 15 min.
// From hour 1 on nothing comes, so the 15 L less run time that then stand there stay.
func TestFloatKeepsWhatStandsThere(t *testing.T) {
	wantCycles(t, floatCase(t, 6, inflow(0, 0.5), inflow(0.5, 1), inflow(1, 0)), [3]float64{2700, 30. / 99 * 60, 100})
}

// By hand: 150 L/min fill the basin in 12 s; the pump does not keep up and runs to the end of the
// stretch at minute 6. What it is asked to move is what comes.
func TestFloatPumpThatCannotKeepUp(t *testing.T) {
	cycles := floatCase(t, 2, inflow(0, 150), inflow(0.1, 0))
	if len(cycles) == 0 {
		t.Fatal("no cycle")
	}
	wantCycles(t, cycles[:1], [3]float64{12, 348, 150})
}

// Where more comes than the pump lifts, the reader is told for how long and how much; 348 s are 0.1 h, 150 L/min are 40 and
// 100 L/min 26 US gallons a minute. A pump that keeps up, if only just, is no reason for a word.
func TestFloatTellsOfInflowBeyondThePump(t *testing.T) {
	k := floatCaseOf(t, 2, inflow(0, 150), inflow(0.1, 0))
	i := slices.IndexFunc(k.Notes, func(w sim.Warning) bool { return w.Kind == "inflow-beyond-pump" })
	if i < 0 {
		t.Fatalf("no warning among %v", k.Notes)
	}
	for _, want := range []string{"0.1 h", "150 L/min (40 gal/min)", "100 L/min (26 gal/min)", "unsafe side"} {
		if !strings.Contains(k.Notes[i].Sentence, want) {
			t.Errorf("%q does not say %q", k.Notes[i].Sentence, want)
		}
	}
	if k := floatCaseOf(t, 2, inflow(0, 99), inflow(0.1, 0)); len(k.Notes) > 0 {
		t.Errorf("a pump that keeps up: %v", k.Notes)
	}
}

// No water, no cycle.
func TestFloatWithoutInflow(t *testing.T) {
	wantCycles(t, floatCase(t, 48, inflow(0, 0)))
}

// readLayout reads and lays a layout that must stand.
func readLayout(t *testing.T, text string) (*pipe.Layout, *pipe.Profile) {
	t.Helper()
	l, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	profile, problems := l.MakeProfile("layout.toml")
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return l, profile
}

// What the cycles move is what came, but for what stands between the floats at the end and the
// cycle that the record's end cuts: no water is made or lost between one row of inflow and the next.
func TestFloatCyclesKeepTheWater(t *testing.T) {
	const band, rate = 30.0, 100.0 // [L], [L/min]
	rapid.Check(t, func(r *rapid.T) {
		var rows []pipe.InflowRow
		arrived, hours := 0.0, 0.0
		for range rapid.IntRange(1, 12).Draw(r, "rows") {
			flow := rapid.SampledFrom([]float64{0, 0.3, 2, 20, 90, 150}).Draw(r, "L/min")
			span := rapid.Float64Range(0.05, 2).Draw(r, "hours")
			rows = append(rows, inflow(hours, flow))
			hours += math.Round(span*100) / 100
			arrived += flow * 60 * math.Round(span*100) / 100
		}
		moved, last := 0.0, pipe.Cycle{}
		for _, c := range floatCase(t, hours, rows...) {
			if c.Start.Before(last.Start.Add(time.Duration(last.Run * 1e9)).Add(-time.Millisecond)) {
				r.Fatalf("a cycle starts while one runs: %v, %v", last, c)
			}
			moved += c.Flow * 60e3 * c.Run / 60
			last = c
		}
		over := math.Max(0, last.Start.Sub(recordStart).Seconds()+last.Run-hours*3600) / 60 * rate // past the end
		if left := arrived - moved; left < -over-1 || left > band+1 {
			r.Fatalf("%.1f L came, %.1f L were moved", arrived, moved)
		}
	})
}
