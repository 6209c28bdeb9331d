package weather

import (
	"fmt"
	"strings"
	"time"
)

// typicalStart is the year by which a typical year is dated. It has no 29 February, as
// typical years have none.
const typicalStart = 2001

// monthRun is a run of rows of one month.
type monthRun struct {
	first, until int // rows
	year         int
	month        time.Month
	later        int  // how many times a year has ended before it
	leap         bool // it has a 29 February
}

// monthRuns takes a record apart by months; rows are stamped with the end of their time.
func (r *record) monthRuns() []monthRun {
	var runs []monthRun
	for i, stamp := range r.stamp {
		year, month, day := wall(stamp - 1).Date()
		n := len(runs)
		if n == 0 || runs[n-1].year != year || runs[n-1].month != month {
			run := monthRun{first: i, year: year, month: month}
			if n > 0 {
				if run.later = runs[n-1].later; month <= runs[n-1].month {
					run.later++
				}
			}
			runs, n = append(runs, run), n+1
		}
		last := &runs[n-1]
		last.until = i + 1
		last.leap = last.leap || month == time.February && day == 29
	}
	return runs
}

// seam says whether a run is the month after another in name but not in its year,
// which is where a typical year is sewn together.
func (m monthRun) seam(before monthRun) bool {
	year := before.year
	if before.month == time.December {
		year++
	}
	return m.month == before.month%12+1 && m.year != year
}

// joinMonths dates a typical year as one continuous year from 2001 on, whatever years its
// months come from, and says so. A record is typical when it says so itself (labelled) or
// when a month is followed by the next one of another year; others stay as they are.
// Where it has a 29 February, it is dated so that this day falls into 2000.
func (r *record) joinMonths(labelled bool) {
	runs := r.monthRuns()
	seams, start := 0, typicalStart
	for i, run := range runs {
		if i > 0 && run.seam(runs[i-1]) {
			seams++
		}
		if run.leap && start == typicalStart {
			start = typicalStart - 1 - run.later
		}
	}
	if r.typical = labelled || seams > 0; !r.typical {
		return
	}
	for _, run := range runs {
		shift := firstOf(start+run.later, run.month) - firstOf(run.year, run.month)
		for i := run.first; i < run.until; i++ {
			r.stamp[i] += shift
		}
	}
	if len(runs) > 0 {
		r.note("clock", fmt.Sprintf("a typical year, dated as from %d on", start), "made of "+namesOfRuns(runs))
	}
}

// firstOf returns the stamp of the beginning of a month.
func firstOf(year int, month time.Month) int64 {
	return time.Date(year, month, 1, 0, 0, 0, 0, time.UTC).Unix()
}

// namesOfRuns lists months of a year for a message.
func namesOfRuns(runs []monthRun) string {
	const most = 24
	var names []string
	for _, run := range runs[:min(most, len(runs))] {
		names = append(names, fmt.Sprintf("%s %d", run.month, run.year))
	}
	if len(runs) > most {
		names = append(names, "…")
	}
	return strings.Join(names, ", ")
}
