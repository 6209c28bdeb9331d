package weather

import (
	"fmt"
	"time"
)

// clockRule is a usual rule for the change between standard and summer time in the
// northern half of the world, and the years in which it held.
type clockRule struct {
	from, to     int // years
	spring, fall monthSunday
}

// monthSunday is a Sunday of a month: the nth, or the last for n = 0.
type monthSunday struct {
	month time.Month
	n     int
}

// clockRules are those of North America and of Europe (from memory of the time zone
// database's tables for both; years of exception are left out, and then found by no rule).
var clockRules = []clockRule{
	{2007, 2500, monthSunday{time.March, 2}, monthSunday{time.November, 1}},
	{1987, 2006, monthSunday{time.April, 1}, monthSunday{time.October, 0}},
	{1967, 1986, monthSunday{time.April, 0}, monthSunday{time.October, 0}},
	{1996, 2500, monthSunday{time.March, 0}, monthSunday{time.October, 0}},
	{1981, 1995, monthSunday{time.March, 0}, monthSunday{time.September, 0}},
}

// in returns the midnight with which the day begins in a year, as a stamp.
func (m monthSunday) in(year int) int64 {
	first := time.Date(year, m.month, 1, 0, 0, 0, 0, time.UTC)
	if m.n == 0 {
		last := first.AddDate(0, 1, -1)
		return last.AddDate(0, 0, -int(last.Weekday())).Unix()
	}
	return first.AddDate(0, 0, (7-int(first.Weekday()))%7+7*(m.n-1)).Unix()
}

// clockChange is a place in a record where its clock seems to have been changed: the row
// that comes after the change.
type clockChange struct {
	row    int
	spring bool
}

// setSummerTimeBack finds out whether the record's clock kept summer time, by what happens
// on the dates of the usual rules: in spring an hour is missing, in autumn one stands
// twice. Rows on summer time are then set back by an hour. A spring hour missing alone can
// be an ordinary gap, and is told rather than mended. Rows are in the order of the file.
func (r *record) setSummerTimeBack() {
	changes := r.clockChanges()
	autumns := 0
	for _, c := range changes {
		if !c.spring {
			autumns++
		}
	}
	switch {
	case autumns > 0:
		r.setBack(changes)
	case len(changes) > 0:
		r.tellSpring(changes)
	}
}

// clockChanges finds the places where the clock seems to have been changed.
func (r *record) clockChanges() (changes []clockChange) {
	step := int64(usualStep(r.stamp))
	if step <= 0 || step > secondsPerHour {
		return nil
	}
	for i := 1; i < len(r.stamp); i++ {
		switch jump := r.stamp[i] - r.stamp[i-1]; {
		case jump == step:
		case jump == step+secondsPerHour && onChangeDay(r.stamp[i], true):
			changes = append(changes, clockChange{i, true})
		case jump == step-secondsPerHour && onChangeDay(r.stamp[i], false) && r.steady(i, step):
			changes = append(changes, clockChange{i, false})
		}
	}
	return changes
}

// steady says whether no other row near this one leaves the usual step: a file that has
// many rows twice says nothing about its clock.
func (r *record) steady(row int, step int64) bool {
	const near = 6
	for i := max(row-near, 1); i <= min(row+near, len(r.stamp)-1); i++ {
		if i != row && r.stamp[i]-r.stamp[i-1] != step {
			return false
		}
	}
	return true
}

// onChangeDay says whether a stamp lies in the first four hours of a day on which a rule
// changes the clock, to summer time or from it.
func onChangeDay(stamp int64, spring bool) bool {
	year := wall(stamp).Year()
	for _, rule := range clockRules {
		day := rule.fall
		if spring {
			day = rule.spring
		}
		if midnight := day.in(year); year >= rule.from && year <= rule.to && stamp >= midnight && stamp <= midnight+4*secondsPerHour {
			return true
		}
	}
	return false
}

// setBack sets the rows between a change in spring and the next in autumn back by an
// hour. A change in spring that the record does not show, because rows are missing there,
// is where the rule has it.
func (r *record) setBack(changes []clockChange) {
	from := 0
	for i, c := range changes {
		if c.spring {
			from = c.row
			continue
		}
		evidence := showTime(wall(r.stamp[c.row])) + " stands twice"
		if i > 0 && changes[i-1].spring {
			evidence = fmt.Sprintf("%s comes after %s, and %s", showTime(wall(r.stamp[from])), showTime(wall(r.stamp[from-1])), evidence)
		} else {
			for spring := springOf(r.stamp[c.row]); from < c.row && r.stamp[from] < spring; {
				from++
			}
		}
		if from < c.row {
			r.setRowsBack(from, c.row, evidence)
		}
		from = c.row
	}
	if last := changes[len(changes)-1]; last.spring {
		r.setRowsBack(last.row, len(r.stamp), fmt.Sprintf("%s comes after %s, as in other years",
			showTime(wall(r.stamp[last.row])), showTime(wall(r.stamp[last.row-1]))))
	}
}

func (r *record) setRowsBack(from, to int, evidence string) {
	r.repaired(from, Repair{Kind: SummerTime, Column: "time", Count: to - from, Evidence: evidence})
	for i := from; i < to; i++ {
		r.stamp[i] -= secondsPerHour
	}
}

// springOf returns the first stamp on summer time in the year of a change in autumn.
func springOf(autumn int64) int64 {
	year := wall(autumn).Year()
	for _, rule := range clockRules {
		if midnight := rule.fall.in(year); year >= rule.from && year <= rule.to && autumn >= midnight && autumn <= midnight+4*secondsPerHour {
			return rule.spring.in(year) + 3*secondsPerHour
		}
	}
	return autumn
}

// tellSpring notes hours that are missing where clocks go forward.
func (r *record) tellSpring(changes []clockChange) {
	for _, c := range changes {
		r.notes = append(r.notes, Note{File: r.fileOf(c.row), Line: int(r.line[c.row]), About: "clock",
			Text:     "an hour is missing where clocks go forward: rows after it may be on summer time; left as they are",
			Evidence: fmt.Sprintf("%s comes after %s", showTime(wall(r.stamp[c.row])), showTime(wall(r.stamp[c.row-1]))), Warning: true})
	}
}
