package report

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg/draw"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather"
)

// simulated runs a case from its files: a layout, the first rows of a weather file (0: all), and pump cycles ("": the layout tells).
func simulated(t testing.TB, layout, record string, rows int, cycles string) *sim.Result {
	t.Helper()
	text := readFile(t, layout)
	l, problems := pipe.ReadLayout(layout, text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	profile, problems := l.MakeProfile(layout)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	lines := strings.SplitAfter(string(readFile(t, record)), "\n")
	if rows > 0 {
		lines = lines[:rows+1]
	}
	series, problems := weather.Read(record, strings.NewReader(strings.Join(lines, "")))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var supply sim.Supply
	if cycles != "" {
		if supply.Cycles, problems = pipe.ReadCycles(cycles, bytes.NewReader(readFile(t, cycles))); len(problems) > 0 {
			t.Fatal(problems)
		}
	}
	k, err := sim.NewCase("case", l, profile, series, supply)
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(t.Context(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func readFile(t testing.TB, path string) []byte {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func demonstration(t testing.TB) *sim.Result {
	t.Helper()
	dir := filepath.Join("..", "cmd", "winterline", "demo")
	return simulated(t, filepath.Join(dir, "layout.toml"), filepath.Join(dir, "weather.csv"), 0, filepath.Join(dir, "pump.csv"))
}

// bare is a case without all that may be missing: one pipe, no pump, no snow, no wind, no frost.
func bare() *sim.Result {
	r := verificationCell()
	for i := range r.Hourly.Wind {
		r.Hourly.Wind[i] = math.NaN()
	}
	r.Hourly.SnowDepth = nil
	return r
}

// On every chart all words stand on the page, clear of each other and of the hairlines of events, and no axis is too
// short for its data.
func TestChartsAreReadable(t *testing.T) {
	scenarios := filepath.Join("..", "testdata", "scenario")
	cases := map[string]func() *sim.Result{
		"demonstration": func() *sim.Result { return demonstration(t) },
		"bare":          bare,
	}
	for _, name := range []string{"relief-takes-over", "glued-line", "pocket-in-clay"} {
		cases[name+", three days"] = func() *sim.Result {
			return simulated(t, filepath.Join(scenarios, name, "layout.toml"), filepath.Join(scenarios, "weather", "hard-week.csv"), 73, "")
		}
	}
	for _, state := range allStates {
		for _, size := range []struct{ segments, days int }{{3, 3}, {5, 60}, {30, 3}, {30, 182}} {
			if state == sim.Iced && size.days < 60 {
				continue // the sample's ice needs more time
			}
			cases[fmt.Sprintf("%v, %d segments, %d days", state, size.segments, size.days)] = func() *sim.Result {
				return sample(sampleSpec{state, size.segments, size.days})
			}
		}
	}
	for name, make := range cases {
		t.Run(name, func(t *testing.T) {
			for _, c := range chartsOf(make()) {
				for _, fault := range drawnChart(c).faults() {
					t.Errorf("%s: %s", c.name, fault)
				}
			}
		})
	}
}

// So it is on the charts of the ground, of weather records and of sizing.
func TestOtherChartsAreReadable(t *testing.T) {
	check := func(name string, c chart, ok bool) {
		if !ok {
			return
		}
		for _, fault := range drawnChart(c).faults() {
			t.Errorf("%s, %s: %s", name, c.name, fault)
		}
	}
	for name, r := range map[string]*sim.GroundResult{
		"one winter": oneWinter(), "three days": threeDays(), "four years": fourYears(), "mild": mildWinter(),
	} {
		for _, make := range []func(*sim.GroundResult) (chart, bool){groundChart, groundMeasuredChart} {
			c, ok := make(r)
			check(name, c, ok)
		}
	}
	demo := filepath.Join("..", "cmd", "winterline", "demo", "weather.csv")
	series, problems := weather.Read(demo, bytes.NewReader(readFile(t, demo)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	record := &weatherRecord{weather.DigestOf(series), []*weather.Series{series}}
	for _, make := range []func(*weatherRecord) (chart, bool){recordChart, spellsChart, degreeDaysChart} {
		c, ok := make(record)
		check("demonstration", c, ok)
	}
	sized := sizedFor(10, 10, true, map[float64]float64{0: -4, 10: 2, 20: 6, 30: 25})
	for _, q := range []answers.Quantity{answers.ByInsulation, answers.ByCover, answers.BySlope, answers.ByRelief, answers.ByPocket} {
		sized.Sized.Vary.Quantity = q
		check("sized by "+q.String(), chart{"size", figureHeight, func(page draw.Canvas) { drawSize(page, sized) }}, true)
	}
}
