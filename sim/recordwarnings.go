package sim

import (
	"path/filepath"

	"winterline/weather"
)

// recordWarnings are what the reader must know of the weather record itself: that it is no
// real winter, and what its readers doubted.
func recordWarnings(s *weather.Series) (out []Warning) {
	if s.Typical {
		out = append(out, Warning{"typical-year", "The weather is a typical year: it contains no record cold snap; surviving it is not proof of protection."})
	}
	for _, g := range weather.GroupNotes(s.Notes, true) {
		g.File = filepath.Base(g.File) // results name no place on the disk
		out = append(out, Warning{"weather-doubt", "Weather: " + g.Words(filepath.Base(s.Source)) + "."})
	}
	return out
}
