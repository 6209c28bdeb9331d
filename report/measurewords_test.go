package report

import (
	"os"
	"strings"
	"testing"

	"winterline/pipe"
)

// Whatever a layout leaves open has words on how to measure it: a house of which little is known, and keys that it does not have.
func TestEveryGuessCanBeMeasured(t *testing.T) {
	const file = "../pipe/testdata/sparse.toml"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	layout, problems := pipe.ReadLayout(file, text)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	guesses := layout.Guesses
	for _, key := range []string{"water.cycles", "water.water_temperature", "site.ground_mean", "site.ground_swing", "site.sheltered_temperature", "site.topsoil",
		"pump[0].curve", "pump[1].start", "relief[1].spread_area", "relief[0].snow_factor", "outlet.weep", "outlet.lid_opening_head", "outlet.spread_area", "pocket.length",
		"extra_inflow[0].area", "back yard.snow_on_line", "back yard.insulation[1].thickness", "segment[2].cover", "standpipe.slip_travel"} {
		guesses = append(guesses, pipe.Guess{Key: key})
	}
	for _, g := range guesses {
		if howToMeasure(g) == "" {
			t.Errorf("no words on how to measure %s", g.Key)
		}
	}
	if got := howToMeasure(pipe.Guess{Key: "water.cycles"}); !strings.HasPrefix(got, "pump timing: time three cycles") {
		t.Errorf("%q", got)
	}
	if howToMeasure(pipe.Guess{Key: "title"}) != "" || howToMeasure(pipe.Guess{Key: "yard run.colour"}) != "" {
		t.Error("words on what nobody measures")
	}
}
