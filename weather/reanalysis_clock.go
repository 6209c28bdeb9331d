package weather

import (
	"fmt"
	"math"
	"time"
	_ "time/tzdata" // so that time zones are known on every system
)

// place is what the block before the table says of the place and its clock.
type place struct {
	stated    bool
	longitude float64 // [°], east positive; NaN: not stated
	offset    float64 // of the clock from UTC [s]
	zone      string  // name of the time zone, such as Etc/GMT+5
	short     string  // its abbreviation
}

// read takes the second line of the block.
func (p *place) read(a *archive) {
	for i, name := range a.header {
		v, ok := parseDecimal(a.fields[i])
		switch {
		case name == "timezone":
			p.zone = string(a.fields[i])
		case name == "timezone_abbreviation":
			p.short = string(a.fields[i])
		case name == "longitude" && ok:
			p.longitude = v
		case name == "utc_offset_seconds" && ok && math.Abs(v) <= farthestZone*secondsPerHour:
			p.offset = v
		}
	}
}

// setClock takes the stamps to local standard time, as far as the place or the user say
// where it lies, and tells how they were taken.
func (r *record) setClock(where place, o Options) {
	offset := where.offset / secondsPerHour // [h], the same in all rows, summer or winter
	standard, known := where.standard(r)
	switch {
	case offset == 0 && (o.Zone != nil || where.stated && math.Abs(where.longitude) > 15):
		r.fromUTC(o)
	case !where.stated:
		r.warn("clock", "times taken as local standard time", "no block before the table says what clock they keep")
	case o.Zone != nil:
		r.shift(int64(math.Round(*o.Zone*secondsPerHour - where.offset)))
		r.note("clock", "times of "+utcOffset(offset)+" taken to "+utcOffset(*o.Zone)+" as stated", "utc_offset_seconds")
	case known && standard != offset:
		r.shift(int64(math.Round(standard*secondsPerHour - where.offset)))
		r.warn("clock", "times of "+utcOffset(offset)+" taken to "+utcOffset(standard), "that is the standard time of "+where.zone)
	case known:
		r.note("clock", "times taken as local standard time", "utc_offset_seconds is that of "+where.zone+", "+utcOffset(offset))
	case summerZone(where.short):
		r.shift(-secondsPerHour)
		r.warn("clock", "times of summer time set back by an hour", "timezone_abbreviation "+where.short)
	case offset-where.longitude/15 > earliestSun:
		r.warn("clock", "times taken as local standard time; they may be summer time, an hour ahead of it", fmt.Sprintf(
			"at longitude %.1f the sun is %.1f h behind the clock, %s", where.longitude, offset-where.longitude/15, utcOffset(offset)))
	default:
		r.note("clock", "times taken as local standard time", "utc_offset_seconds says "+utcOffset(offset))
	}
}

// standard returns how far the standard time of the place's zone is from UTC [h]: the
// lesser of those in January and July. ok is false for a zone that is not in the time
// zone database.
func (p *place) standard(r *record) (hours float64, ok bool) {
	if p.zone == "" || p.zone == time.Local.String() || len(r.stamp) == 0 {
		return 0, false
	}
	zone, err := time.LoadLocation(p.zone)
	if err != nil {
		return 0, false
	}
	year := wall(r.stamp[0]).Year()
	_, january := time.Date(year, time.January, 1, 0, 0, 0, 0, zone).Zone()
	_, july := time.Date(year, time.July, 1, 0, 0, 0, 0, zone).Zone()
	return float64(min(january, july)) / secondsPerHour, true
}

// earliestSun is how far a clock of standard time is ahead of the sun in few places [h].
const earliestSun = 1.1

// summerZone says whether the abbreviation of a time zone is one of summer time in North
// America or Europe.
func summerZone(abbreviation string) bool {
	switch abbreviation {
	case "ADT", "AKDT", "CDT", "EDT", "HDT", "MDT", "NDT", "PDT", "BST", "CEST", "EEST", "WEST":
		return true
	}
	return false
}
