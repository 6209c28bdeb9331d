package report

import (
	"testing"

	"winterline/pipe"
)

// Whatever can be measured has a plain name as well, and the other way round.
func TestEveryGuessHasAPlainName(t *testing.T) {
	for key := range measureWords {
		if guessNames[key] == "" {
			t.Errorf("%s has no plain name", key)
		}
	}
	for key := range guessNames {
		if measureWords[key] == "" {
			t.Errorf("%s has a name, but nothing says how it is measured", key)
		}
	}
	for key, want := range map[string]string{
		"site.soil_moisture":           "how wet the soil is (site.soil_moisture)",
		"relief[1].spread_area":        "how far relief water spreads (relief[1].spread_area)",
		"back yard.cover":              "soil on top of the back yard (back yard.cover)",
		"yard.insulation[0].density":   "yard.insulation[0].density",
		"yard.insulation[0].thickness": "how thick the foam is (yard.insulation[0].thickness)",
		"title":                        "title",
	} {
		if got := guessName(pipe.Guess{Key: key}); got != want {
			t.Errorf("%s: %q; want %q", key, got, want)
		}
	}
}
