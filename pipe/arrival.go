package pipe

import (
	"math"
	"regexp"
	"strings"
	"time"

	"winterline/pipe/units"
)

// Arrival is a plan of water reaching the basin: a steady flow, or one that falls by half
// again and again, as the ground drains after a thaw.
type Arrival struct {
	Flow    float64   // steady, or at the start of its fall [m³/s]; 0: no plan
	Halving float64   // time in which it falls by half [s]; 0: steady
	DownTo  float64   // what it falls to, and what reaches the basin before From [m³/s]
	From    time.Time // when Flow begins; zero: with the record
}

const arrivalForm = `a flow such as "2 gal/h", or a recession such as "8 gal/h falling by half every 2 days", and after it, if wanted, "down to 1 gal/h" and "from 2026-01-10 06:00"`

var arrivalPattern = regexp.MustCompile(`^(.+?)(?:\s+falling\s+by\s+half\s+every\s+(.+?)(?:\s+down\s+to\s+(.+?))?)?(?:\s+from\s+(.+))?$`)

// arrivalLimit is what a basin can be asked to take. No water at all is no plan.
var arrivalLimit = limit{math.SmallestNonzeroFloat64, 0.1, "above 0 and at most 0.1 m3/s (1585 gal/min)"}

// ParseArrival reads a plan of inflow such as "2 gal/h", or "8 gal/h falling by half every
// 2 days down to 1 gal/h from 2026-01-10 06:00". The error is a *units.Error.
func ParseArrival(text string) (Arrival, error) {
	bad := &units.Error{Found: `"` + units.Shorten(text) + `"`, Expected: arrivalForm}
	m := arrivalPattern.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return Arrival{}, bad
	}
	var a Arrival
	var err error
	if a.Flow, err = units.Parse(units.Flow, m[1]); err != nil {
		return Arrival{}, err
	}
	if m[2] != "" {
		a.Halving, err = units.Parse(units.Duration, m[2])
		if err != nil || a.Halving < 3600 || a.Halving > 366*86400 {
			bad.Expected = "a time in which the flow falls by half from 1 h to 366 days"
			return Arrival{}, bad
		}
	}
	if m[3] != "" {
		if a.DownTo, err = units.Parse(units.Flow, m[3]); err != nil || a.DownTo < 0 || a.DownTo > a.Flow {
			bad.Expected = "down to a flow with its unit that is no more than the first"
			return Arrival{}, bad
		}
	}
	if m[4] != "" {
		if a.From, err = units.ParseTime(m[4]); err != nil {
			return Arrival{}, err
		}
	}
	if !arrivalLimit.holds(a.Flow) {
		bad.Expected = "a flow " + arrivalLimit.words
		return Arrival{}, bad
	}
	return a, nil
}

// Rows lays the plan out over a record that starts at start and is length [s] long: a row
// wherever the flow changes; for a recession one an hour with the hour's mean, so that no
// water is lost, until it has fallen to its least.
func (a Arrival) Rows(start time.Time, length float64) (rows []InflowRow) {
	began := 0.0 // seconds since Flow began, at the first row of it
	from := 0.0  // of that row since the record's start [s]
	if !a.From.IsZero() {
		if from = a.From.Sub(start).Seconds(); from > 0 {
			rows = append(rows, InflowRow{Time: start, Inflow: a.DownTo})
		} else {
			began, from = -from, 0
		}
	}
	add := func(t, flow float64) {
		rows = append(rows, InflowRow{Time: start.Add(time.Duration(t * float64(time.Second))), Inflow: flow})
	}
	if a.Halving == 0 {
		add(from, a.Flow)
		return rows
	}
	const hour = 3600.0
	for t := from; t < length; t += hour {
		at := began + t - from
		if at >= a.falls() {
			add(t, a.DownTo)
			break
		}
		add(t, (a.volume(at+hour)-a.volume(at))/hour)
	}
	return rows
}

// falls is how long a recession takes to its least flow [s]; +Inf where that is none.
func (a Arrival) falls() float64 { return a.Halving * math.Log2(a.Flow/a.DownTo) }

// volume is what a recession has brought t seconds after it began [m³]: the integral of
// Flow·2^(−t/Halving), and of DownTo from where that is less.
func (a Arrival) volume(t float64) float64 {
	falling := math.Min(t, a.falls())
	return a.Flow*a.Halving/math.Ln2*-math.Expm1(-falling/a.Halving*math.Ln2) + a.DownTo*(t-falling)
}
