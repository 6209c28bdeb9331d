package report

import (
	"math"

	"winterline/weather"
)

// period is what a record has of one or more whole days.
type period struct {
	from, to        float64 // [s since the first row of the record]
	low, mean, high float64 // air temperature [°C]
}

// middle is where a period stands in a line.
func (p period) middle() float64 { return (p.from + p.to) / 2 }

// periodDays is how many days a period has: as few as leave each the least width that can
// be seen.
func (r *weatherRecord) periodDays() int {
	const most = 1700 // periods across a chart
	for _, days := range []int{1, 7, 30} {
		if r.end() <= float64(days)*most*86400 {
			return days
		}
	}
	return 365
}

// periodName names periods of so many days.
func periodName(days int) string {
	switch days {
	case 1:
		return "day"
	case 7:
		return "week"
	}
	return number(float64(days), 0) + " days"
}

// periods sums up a span by so many days each, counted from the midnight before the
// record's first row. The mean is that of the rows. A last row on the midnight itself
// counts with the days before.
func (r *weatherRecord) periods(s *weather.Series, days int) (out []period) {
	begun := r.since(s.Start)
	h, m, sec := r.start().Clock()
	midnight := float64(-(3600*h + 60*m + sec))
	length := float64(days) * 86400
	index := func(i int) float64 { return math.Floor((begun + s.Time[i] - midnight) / length) }
	n := len(s.Time)
	last := index(n - 1)
	if n > 1 && index(n-2) < last {
		last--
	}
	for i := 0; i < n; {
		k := math.Min(index(i), last)
		p := period{from: math.Max(begun, midnight+k*length), to: math.Min(begun+s.End(), midnight+(k+1)*length),
			low: math.Inf(1), high: math.Inf(-1)}
		first, sum := i, 0.0
		for ; i < n && math.Min(index(i), last) == k; i++ {
			p.low, p.high = math.Min(p.low, s.Air[i]), math.Max(p.high, s.Air[i])
			sum += s.Air[i]
		}
		p.mean = sum / float64(i-first)
		out = append(out, p)
	}
	return out
}
