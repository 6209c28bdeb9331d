package weather

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"winterline/pipe/units"
)

const (
	maxYears = 200           // from first to last row
	maxStep  = secondsPerDay // usual time between rows [s]
	minStep  = 1             // between any two rows [s]
)

// times reads the time axis and says whether there is one to hang values on.
func (p *plainReader) times() bool {
	t, s := p.table, p.series
	index := t.Column("time")
	if index < 0 {
		return false
	}
	zone := ""
	for row, fields := range t.Rows {
		stamp, err := units.ParseTime(fields[index])
		if err != nil {
			p.problems = append(p.problems, units.At(t.Name, t.Lines[row], "time", err))
			continue
		}
		if z := zoneOf(fields[index]); len(p.kept) == 0 {
			s.Start, zone = stamp, z
		} else if z != zone {
			p.complain(t.Lines[row], "time", named(z)+" after "+named(zone)+" on earlier rows",
				"one clock throughout: local standard time")
			continue
		}
		if at := secondsBetween(s.Start, stamp); p.rising(row, stamp, at) {
			s.Time, p.kept, p.latest = append(s.Time, at), append(p.kept, row), stamp
		}
	}
	return p.axisBounds()
}

// rising refuses a stamp that does not come after all earlier ones.
func (p *plainReader) rising(row int, stamp time.Time, at float64) bool {
	n := len(p.kept)
	if n == 0 || at-p.series.Time[n-1] >= minStep {
		return true
	}
	line, lineOf := p.table.Lines[row], func(i int) int { return p.table.Lines[p.kept[i]] }
	if i, same := slices.BinarySearch(p.series.Time, at); same {
		p.complain(line, "time", fmt.Sprintf("%s again, as on line %d", show(stamp), lineOf(i)), "each time once")
		return false
	}
	p.complain(line, "time", fmt.Sprintf("%s after %s on line %d", show(stamp), show(p.latest), lineOf(n-1)),
		"times that rise by at least a second from row to row")
	return false
}

// axisBounds checks how many rows there are, how far apart and over how long.
func (p *plainReader) axisBounds() bool {
	s, t := p.series, p.table
	if n := len(s.Time); n < 2 {
		if len(t.Rows) < 2 { // otherwise the rows themselves were refused
			p.complain(0, "", []string{"no rows of weather", "a single row of weather"}[n], "at least 2")
		}
		return false
	}
	if s.End() > maxYears*366*secondsPerDay {
		p.complain(t.Lines[p.kept[len(p.kept)-1]], "time", "a record of more than 200 years", "at most 200 years; split the record")
		return false
	}
	if step := usualStep(s.Time); step > maxStep {
		p.complain(0, "time", "rows that are usually "+hours(step)+" apart", "24 h at most")
		return false
	}
	return true
}

// zoneOf returns the offset that a stamp carries, "" for none.
func zoneOf(stamp string) string {
	if len(stamp) <= len("2026-01-17") {
		return ""
	}
	if i := strings.LastIndexAny(stamp[len("2026-01-17"):], "Z+-"); i >= 0 {
		return stamp[len("2026-01-17")+i:]
	}
	return ""
}

func named(zone string) string {
	if zone == "" {
		return "a time without offset"
	}
	return "the offset " + zone
}

// secondsBetween is exact over centuries, where a time.Duration overflows.
func secondsBetween(from, to time.Time) float64 {
	return float64(to.Unix()-from.Unix()) + float64(to.Nanosecond()-from.Nanosecond())*1e-9
}

// show gives a stamp as files write it, with seconds only where there are some.
func show(t time.Time) string {
	if t.Truncate(time.Minute).Equal(t) {
		return t.Format("2006-01-02 15:04")
	}
	return t.Format("2006-01-02 15:04:05.999")
}
