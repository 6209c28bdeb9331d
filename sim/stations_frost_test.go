package sim_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"winterline/sim"
	"winterline/sim/verify"
	"winterline/weather"
)

// frostWinter is what thermometers in a row show of one winter's frost, July to June, by
// their daily means: at depth single readings swing by up to 0.4 K within a day, which no
// ground does there. Two rows at the same depths, one measured and one computed, are read by the same rule.
type frostWinter struct {
	deepest   float64   // deepest point below 0 °C, joined linearly between thermometers [m]
	deepestAt time.Time // day when it was reached but for flatTop
	frozenAt  time.Time // first day below 0 °C at 50 cm
	thawedAt  time.Time // last day of frost at 20 cm or deeper
}

const (
	frostMark = 0.50 // where the date of freezing is taken [m]
	thawMark  = 0.20 // frost that comes and goes above it does not put off the thaw [m]
	flatTop   = 0.02 // the deepest counts as reached this much above it: for weeks it hardly moves [m]
)

// dailyMeans are those of tracks, one row a day; NaN where a reading of the day is missing.
func dailyMeans(s *weather.Series, tracks [][]float64) (days []time.Time, means [][]float64) {
	means = make([][]float64, len(tracks))
	n := 0.0
	for i, seconds := range s.Time {
		day := s.Stamp(seconds).Truncate(24 * time.Hour)
		if len(days) == 0 || day != days[len(days)-1] {
			days, n = append(days, day), 0
			for k := range means {
				means[k] = append(means[k], 0)
			}
		}
		n++
		for k, track := range tracks {
			last := &means[k][len(days)-1]
			*last += (track[i] - *last) / n
		}
	}
	return days, means
}

// readFrost reads the frost of the winter that ends in a year from daily means in order of depth [m].
func readFrost(days []time.Time, depths []float64, means [][]float64, winter int) frostWinter {
	from, to := time.Date(winter-1, time.July, 1, 0, 0, 0, 0, time.UTC), time.Date(winter, time.July, 1, 0, 0, 0, 0, time.UTC)
	var w frostWinter
	each := func(see func(day time.Time, depth float64)) {
		for i, day := range days {
			if !day.Before(from) && day.Before(to) {
				see(day, deepestBelowZero(depths, means, i))
			}
		}
	}
	each(func(day time.Time, depth float64) {
		w.deepest = math.Max(w.deepest, depth)
		if depth >= frostMark && w.frozenAt.IsZero() {
			w.frozenAt = day
		}
		if depth >= thawMark {
			w.thawedAt = day
		}
	})
	each(func(day time.Time, depth float64) {
		if depth >= w.deepest-flatTop && w.deepestAt.IsZero() {
			w.deepestAt = day
		}
	})
	return w
}

// deepestBelowZero is the deepest point below 0 °C in one row [m]; 0: none.
func deepestBelowZero(depths []float64, tracks [][]float64, row int) float64 {
	last := len(depths) - 1
	for k := last; k >= 0; k-- {
		t := tracks[k][row]
		switch {
		case !(t < 0):
		case k == last:
			return depths[k]
		default:
			return depths[k] + (depths[k+1]-depths[k])*t/(t-tracks[k+1][row])
		}
	}
	return 0
}

// Two thermometers of −1 and +3 °C at 20 and 40 cm: 0 °C lies a quarter of the way, at 25 cm.
func TestDeepestBelowZero(t *testing.T) {
	got := deepestBelowZero([]float64{.1, .2, .4}, [][]float64{{2}, {-1}, {3}}, 0)
	if math.Abs(got-.25) > 1e-12 {
		t.Errorf("%g m, expected 0.25", got)
	}
}

// frostTable sets computed beside measured frost for the given winters and fails where
// the deepest freezing or its date is further apart than the limits. It gives the rows that the embedded table has of it.
func frostTable(t *testing.T, held *limits, b *strings.Builder, s *weather.Series, r *sim.GroundResult, winters []int) (rows []verify.MeasuredRow) {
	const deepLimit, dayLimit = 0.15, 7.0 // [m], [d]
	var depths []float64
	var measured, computed [][]float64
	for _, m := range s.Soil {
		depths = append(depths, m.Depth)
		measured = append(measured, m.Temp)
		computed = append(computed, groundTrack(t, r, m.Depth))
	}
	days, measured := dailyMeans(s, measured)
	_, computed = dailyMeans(s, computed)
	for i, winter := range winters {
		m, c := readFrost(days, depths, measured, winter), readFrost(days, depths, computed, winter)
		off := 100 * (c.deepest - m.deepest)
		fmt.Fprintf(b, "  %d  deepest freezing %5.1f cm, measured %5.1f (%+.1f cm)", winter, 100*c.deepest, 100*m.deepest, off)
		held.atMost(fmt.Sprintf("Fargo below 5 cm, winter %d, deepest freezing off [cm]", winter), off, 100*deepLimit)
		rows = append(rows, frostRow("deepest frost", i+1, 100*m.deepest, 100*c.deepest, off, "cm", 100*deepLimit))
		for _, d := range []struct {
			what, figure       string
			computed, measured time.Time
			limited            bool
		}{
			{"reached", "day of the deepest frost", c.deepestAt, m.deepestAt, true},
			{"50 cm frozen", "day when 50 cm froze", c.frozenAt, m.frozenAt, false},
			{"last frost at 20 cm or deeper", "last day of frost at 20 cm or deeper", c.thawedAt, m.thawedAt, false},
		} {
			days := d.computed.Sub(d.measured).Hours() / 24
			fmt.Fprintf(b, "; %s %s, measured %s (%+.1f d)", d.what, d.computed.Format(time.DateOnly), d.measured.Format(time.DateOnly), days)
			most := math.NaN()
			if d.limited {
				most = dayLimit
				held.atMost(fmt.Sprintf("Fargo below 5 cm, winter %d, date of the deepest freezing off [d]", winter), days, dayLimit)
			}
			rows = append(rows, frostRow(d.figure, i+1, math.NaN(), math.NaN(), days, "d", most))
		}
		fmt.Fprintln(b)
	}
	return rows
}

// groundTrack is what was computed at a depth [m].
func groundTrack(t *testing.T, r *sim.GroundResult, depth float64) []float64 {
	t.Helper()
	for _, k := range r.Tracks {
		if math.Abs(k.Depth-depth) < 1e-9 {
			return k.Temp
		}
	}
	t.Fatalf("nothing computed at %g m", depth)
	return nil
}
