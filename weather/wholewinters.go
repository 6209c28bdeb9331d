package weather

import (
	"sort"
	"time"
)

// Winter is a winter that a record has the whole of, as far as it may freeze.
type Winter struct {
	WinterCold
	LowestAt time.Time // when the air was coldest; the first of several such rows
	Season   Range     // rows of its season: see WholeWinters
}

// Name names the winter by its years, "2025-26".
func (w WinterCold) Name() string { return winterName(w.Ends) }

// seasonLead is how long before the first frost a winter's season begins, and how long after the last it ends: water and
// soil round a buried pipe forget how they began within days (half a metre of soil in a week: the square of 0.5 m over a
// diffusivity of 0.5e-6 m²/s is 6 days), and what froze has that long to thaw. Common practice, no source.
const seasonLead = 30 * 24 * time.Hour

// WholeWinters returns the winters, July to June, of which the record has all from 1 November to 31 March, and those of
// which it has less of that time, but some, both in order.
//
// A winter's season is that part of it in which a line could freeze, so that summers cost no work: from 30 days
// before the first frost of the air, 1 October at the latest, to 30 days after the last one, 30 April at the
// earliest, as far as the record and the winter go. It depends on the air alone, so that lines over the same
// weather have the same seasons.
func (s *Series) WholeWinters() (whole []Winter, less []WinterCold) {
	for _, cold := range s.Winters() {
		from, to := date(cold.Ends-1, time.November, 1), date(cold.Ends, time.April, 1)
		switch {
		case s.covers(from, to):
		case s.Start.Before(to) && s.Stamp(s.End()).After(from):
			less = append(less, cold)
			continue
		default: // days of summer and autumn that belong to no winter worth naming
			continue
		}
		rows := s.rowsFrom(date(cold.Ends-1, time.July, 1), date(cold.Ends, time.July, 1))
		w := Winter{WinterCold: cold, Season: s.season(cold.Ends, rows)}
		low := rows.From
		for i := rows.From; i < rows.To; i++ {
			if s.Air[i] < s.Air[low] {
				low = i
			}
		}
		w.LowestAt = s.Stamp(s.Time[low])
		whole = append(whole, w)
	}
	return whole, less
}

// season are the rows of a winter's season; rows are those of the winter.
func (s *Series) season(ends int, rows Range) Range {
	from, to := date(ends-1, time.October, 1), date(ends, time.May, 1)
	for i := rows.From; i < rows.To; i++ {
		if s.Air[i] < 0 {
			if early := s.Stamp(s.Time[i]).Add(-seasonLead); early.Before(from) {
				from = early
			}
			break
		}
	}
	for i := rows.To - 1; i >= rows.From; i-- {
		if s.Air[i] < 0 {
			if late := s.Stamp(s.Time[i]).Add(seasonLead); late.After(to) {
				to = late
			}
			break
		}
	}
	season := s.rowsFrom(from, to)
	return Range{max(season.From, rows.From), min(season.To, rows.To)}
}

// covers says whether the record has all from one day to another; its last row stands for one usual step.
func (s *Series) covers(from, to time.Time) bool {
	return !s.Start.After(from) && !s.Stamp(s.End()+usualStep(s.Time)).Before(to)
}

// rowsFrom are the rows from one instant up to and with another.
func (s *Series) rowsFrom(from, to time.Time) Range {
	at := func(t time.Time) float64 { return t.Sub(s.Start).Seconds() }
	return Range{sort.SearchFloat64s(s.Time, at(from)), sort.Search(len(s.Time), func(i int) bool { return s.Time[i] > at(to) })}
}

// date is midnight at the beginning of a day.
func date(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}
