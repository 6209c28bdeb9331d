package report

import (
	"math"
	"time"

	"gonum.org/v1/plot/vg"

	"winterline/sim"
)

// night is the night in which the outdoor air was coldest.
type night struct {
	from, to float64 // [s]: 18:00 to 08:00, as far as the record has it
	low      float64 // air temperature [°C]
	at       float64 // when that was [s]
}

// coldestNight finds it; false where the record has no air temperature.
func coldestNight(r *sim.Result) (night, bool) {
	low, row := lowest(r.Hourly.Air)
	if row < 0 || math.IsInf(low, 0) {
		return night{}, false
	}
	at := r.Hourly.Time[row]
	evening := nightBefore(r.Start, at)
	t0, t1 := recordSpan(r)
	return night{math.Max(t0, evening), math.Min(t1, evening+nightLength), low, at}, true
}

// nightLength is from 18:00 to 08:00 [s].
const nightLength = 14 * 3600

// nightBefore is the evening of the night that holds a time, or lies nearest to it [s]: noon divides nights.
func nightBefore(start time.Time, t float64) float64 {
	day := start.Add(time.Duration((t - 12*3600) * float64(time.Second)))
	y, m, d := day.Date()
	return time.Date(y, m, d, 18, 0, 0, 0, day.Location()).Sub(start).Seconds()
}

// darken shades a night behind what a panel shows, at least wide enough to be seen.
func (p *panel) darken(n night) {
	from, to := p.X(math.Max(n.from, p.x0)), p.X(math.Min(n.to, p.dataEnd))
	if wide := vg.Length(3); to-from < wide {
		middle := max(p.Min.X+wide/2, min((from+to)/2, p.X(p.dataEnd)-wide/2))
		from, to = middle-wide/2, middle+wide/2
	}
	p.FillPolygon(nightTone, corners(box(from, p.Min.Y, to, p.Max.Y)))
}
