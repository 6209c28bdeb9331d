package report

import "time"

// timeTick is one mark on a time axis.
type timeTick struct {
	t     float64 // [s] since the first weather row
	label string  // one or two lines
}

// tickStep is a distance between ticks that people know from calendars and clocks.
type tickStep struct {
	hours, days, months int
	rough               float64 // its length [s]
}

var tickSteps = []tickStep{
	{hours: 1, rough: 3600}, {hours: 2, rough: 2 * 3600}, {hours: 3, rough: 3 * 3600},
	{hours: 6, rough: 6 * 3600}, {hours: 12, rough: 12 * 3600},
	{days: 1, rough: 86400}, {days: 2, rough: 2 * 86400}, {days: 7, rough: 7 * 86400},
	{days: 14, rough: 14 * 86400},
	{months: 1, rough: 30.4 * 86400}, {months: 2, rough: 61 * 86400}, {months: 3, rough: 91 * 86400},
	{months: 6, rough: 182 * 86400}, {months: 12, rough: 365 * 86400},
	{months: 24, rough: 730 * 86400}, {months: 60, rough: 1826 * 86400},
	{months: 120, rough: 3652 * 86400}, {months: 240, rough: 7305 * 86400}, {months: 600, rough: 18262 * 86400},
}

// timeTicks gives at most most ticks from t0 to t1: the finest step that keeps to it,
// on round clock hours, days, Mondays or firsts of months. The year stands below the
// first tick and below the first of each new year.
func timeTicks(start time.Time, t0, t1 float64, most int) []timeTick {
	step := tickSteps[len(tickSteps)-1]
	for _, s := range tickSteps {
		if (t1-t0)/s.rough <= float64(most-1) {
			step = s
			break
		}
	}
	var ticks []timeTick
	year := 0
	for at := step.floor(stamp(start, t0)); ; at = step.next(at) {
		t := at.Sub(start).Seconds()
		if t > t1 {
			return ticks
		}
		if t < t0 {
			continue
		}
		label := at.Format("Jan 2")
		switch {
		case step.hours > 0 && len(ticks) > 0 && at.Hour() != 0:
			label = at.Format("15:04")
		case step.hours > 0:
			label = at.Format("15:04") + "\n" + label
		case step.months >= 12:
			label = at.Format("2006")
		case at.Year() != year:
			label += at.Format("\n2006")
		}
		year = at.Year()
		ticks = append(ticks, timeTick{t, label})
	}
}

// floor gives the last round time of the step at or before t.
func (s tickStep) floor(t time.Time) time.Time {
	y, m, d := t.Date()
	switch {
	case s.hours > 0:
		return time.Date(y, m, d, t.Hour()/s.hours*s.hours, 0, 0, 0, t.Location())
	case s.days >= 7: // weeks begin on Mondays
		return time.Date(y, m, d-(int(t.Weekday())+6)%7, 0, 0, 0, 0, t.Location())
	case s.days > 0:
		return time.Date(y, m, d, 0, 0, 0, 0, t.Location())
	}
	// Months are counted from the year 0, so that steps of years fall on January.
	months := (y*12 + int(m) - 1) / s.months * s.months
	return time.Date(months/12, time.Month(months%12+1), 1, 0, 0, 0, 0, t.Location())
}

func (s tickStep) next(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m+time.Month(s.months), d+s.days, t.Hour()+s.hours, 0, 0, 0, t.Location())
}
