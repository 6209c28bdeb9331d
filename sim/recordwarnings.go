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
	if len(s.Design) > 0 {
		out = append(out, Warning{"design-snap", "The weather is a design cold snap, not a winter that was: " + s.Design[0] + ". The head of its file says how it was made."})
	}
	for _, g := range weather.GroupNotes(s.Notes, true) {
		g.File = filepath.Base(g.File) // results name no place on the disk
		out = append(out, Warning{"weather-doubt", "Weather: " + g.Words(filepath.Base(s.Source)) + "."})
	}
	return out
}

// Warnings are what the reader of any answer on a case must know before it is run.
func (k *Case) Warnings() []Warning { return append(recordWarnings(k.Weather), k.Notes...) }
