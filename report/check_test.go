package report

import (
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
)

// Guesses print in the reader's units: value, range, source.
func TestGuesses(t *testing.T) {
	guesses := []pipe.Guess{
		{Key: "yard run.cover", Dimension: units.Length, Value: 8 * 0.0254, Low: 4 * 0.0254, High: 18 * 0.0254, Source: "a"},
		{Key: "site.soil_moisture", Dimension: units.Fraction, Value: 0.24, Low: 0.18, High: 0.31, Source: "b"},
		{Key: "riser.fittings", Dimension: units.Fraction, Value: 4.5, Low: 2.5, High: 8, Source: "c"},
		{Key: "basin.water_temperature", Dimension: units.Temperature, Text: "from the ground", LowText: "3 degC", HighText: "10 degC", Low: 3, High: 10, Source: "d"},
		{Key: "site.soil", Text: "loam", LowText: "clay", HighText: "sand", Source: "e"},
		{Key: "site.return_delay", Dimension: units.Duration, Value: 12 * 3600, Low: 3 * 3600, High: 48 * 3600, Source: "f"},
		{Key: "yard run.slope", Dimension: units.Slope, Value: 1. / 96, Low: 1. / 192, High: 1. / 48, Source: "g"},
	}
	for system, want := range map[System][]string{
		US: {"soil on top of the yard run (yard run.cover) taken as 8 in (20 cm), usually 4 in (10 cm) to 18 in (46 cm)", "(basin.water_temperature) taken as from the ground, usually 37 °F (3 °C) to 50 °F (10 °C)"},
		SI: {"soil on top of the yard run (yard run.cover) taken as 20 cm (8 in), usually 10 cm (4 in) to 46 cm (18 in)", "(basin.water_temperature) taken as from the ground, usually 3 °C (37 °F) to 10 °C (50 °F)"},
	} {
		var out strings.Builder
		if err := CheckScreen(&out, &Checked{Guesses: guesses}, Options{System: system, Window: 100}); err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(out.String()), " ")
		want = append(want, "GUESSES: 7 inputs", "how wet the soil is (site.soil_moisture) taken as 24 %, usually 18 % to 31 %", "elbows and valves in the riser (riser.fittings) taken as 4.5, usually 2.5 to 8",
			"what soil it is (site.soil) taken as loam, usually clay to sand", "(site.return_delay) taken as 12 hours, usually 3 hours to 2 days",
			"(yard run.slope) taken as 1.04 %, usually 0.521 % to 2.08 %", "source: g")
		for _, words := range want {
			if !strings.Contains(text, words) {
				t.Errorf("missing %q in\n%s", words, out.String())
			}
		}
	}
}

// Each schedule is shown with its verdict, and the warning says which one the rest is for.
func TestAlternatives(t *testing.T) {
	shut := plain(sim.ShutRelieved)
	all := []Alternative{{"seldom", "every 24 h for 45 s", shut}, {"usual", "every 8 h for 45 s", shut}}
	var out strings.Builder
	if err := Alternatives(&out, all, Options{}); err != nil {
		t.Fatal(err)
	}
	for _, words := range []string{"HOW OFTEN THE PUMP RUNS IS NOT KNOWN", "Seldom       every 24 h for 45 s\n", "Usual        every 8 h for 45 s\n"} {
		if !strings.Contains(out.String(), words) {
			t.Errorf("missing %q in\n%s", words, out.String())
		}
	}
	got := UnknownCycles(all, 1)
	state := shut.Verdict.State.String()
	want := sim.Warning{Kind: "unknown-cycles", Sentence: "Nothing says how often the pump runs. Three schedules were supposed: seldom (every 24 h for 45 s): " +
		state + "; usual (every 8 h for 45 s): " + state + ". These results are for the usual one."}
	if got != want {
		t.Errorf("got %v, want %v", got, want)
	}
}
