package report

import (
	"io"
	"path/filepath"
	"strings"

	"winterline/weather"
)

// WeatherSummaryFile gives the summary.json of a folder on a weather record.
func WeatherSummaryFile(d *weather.Digest, p Provenance) File {
	return File{SummaryName, func(w io.Writer) error { return SummarizeWeather(d, p).Encode(w) }}
}

// WithoutFolders gives a digest that names its files without the folders in which they lie,
// as results folders do. names are the files as the digest names them.
func WithoutFolders(d *weather.Digest, names []string) *weather.Digest {
	var pairs []string
	for _, name := range names {
		pairs = append(pairs, name, filepath.Base(name))
	}
	bare := strings.NewReplacer(pairs...).Replace
	out := *d
	out.Source = bare(d.Source)
	out.Notes, out.Ledger = nil, nil
	for _, n := range d.Notes {
		n.File, n.Text, n.Evidence = bare(n.File), bare(n.Text), bare(n.Evidence)
		out.Notes = append(out.Notes, n)
	}
	for _, e := range d.Ledger {
		e.File, e.Evidence = bare(e.File), bare(e.Evidence)
		out.Ledger = append(out.Ledger, e)
	}
	return &out
}
