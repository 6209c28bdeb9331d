package report

import (
	"math"
	"time"

	"winterline/weather"
)

// weatherRecord is a weather record as its charts take it.
type weatherRecord struct {
	*weather.Digest
	series []*weather.Series // one a span, in order
}

// WeatherCharts gives the pictures of a weather record that has come in one span or several:
// record, all of it; cold-spells, the coldest of them hour by hour; degree-days, the winters
// beside each other. A picture that would have nothing to show is left out.
func WeatherCharts(d *weather.Digest, spans []*weather.Series, o ChartOptions) []File {
	if o.Format == "" {
		o.Format = PNG
	}
	r := &weatherRecord{d, spans}
	var files []File
	for _, make := range []func(*weatherRecord) (chart, bool){recordChart, spellsChart, degreeDaysChart} {
		if c, ok := make(r); ok {
			files = append(files, c.file(o))
		}
	}
	return files
}

// start is the first row's wall clock; charts count their seconds from it.
func (r *weatherRecord) start() time.Time { return r.Spans[0].Start }

// since gives an instant in seconds from the first row.
func (r *weatherRecord) since(at time.Time) float64 { return at.Sub(r.start()).Seconds() }

// end is the last row [s].
func (r *weatherRecord) end() float64 { return r.since(r.Spans[len(r.Spans)-1].End) }

// moment prints a time of the record, "Jan 28, 2010 02:00"; the years of a typical year mean
// nothing.
func (r *weatherRecord) moment(at time.Time) string {
	if r.Typical {
		return at.Format("Jan 2, 15:04")
	}
	return at.Format("Jan 2, 2006 15:04")
}

// facts stand below the title of every chart of the record.
func (r *weatherRecord) facts(notes ...string) []string {
	facts := []string{r.Source, datesOf(r.start(), []float64{0, r.end()})}
	if r.Typical {
		facts[1] = "a typical year, of months of different years: it contains no record cold snap"
	}
	return append(facts, notes...)
}

// windowed is what a series has from t0 to t1 [s since its first row], with times and
// values sharing rows.
func windowed(s *weather.Series, t0, t1 float64) (times, air []float64) {
	for i := s.Row(math.Max(0, t0)); i < len(s.Time) && s.Time[i] <= t1; i++ {
		if s.Time[i] >= t0 {
			times, air = append(times, s.Time[i]), append(air, s.Air[i])
		}
	}
	return times, air
}
