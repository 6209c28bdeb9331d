package weather

import (
	"fmt"
	"math"
)

const (
	hoursPerDay  = 24
	farthestZone = 14 // local standard time and UTC never differ by more [h]
)

// The mean day is usually warmest at these hours of local standard time: two to four hours
// after the sun is highest (common practice, no source).
const warmestFrom, warmestTo = 14, 16

// fromUTC takes stamps in UTC to local standard time by the zone that the user stated.
// Without one they stay as they are, with a warning: hours are then those of Greenwich.
// The hour at which the record is warmest is given as evidence.
func (r *record) fromUTC(o Options) {
	if o.Zone == nil {
		evidence := ""
		if hour, ok := r.warmestHour(); ok {
			zone := warmestFrom - hour
			if zone > farthestZone-2 {
				zone -= hoursPerDay
			}
			evidence = fmt.Sprintf("warmest at %02d:00 on average, as in a zone from %s to %s", hour,
				utcOffset(float64(zone)), utcOffset(float64(zone+warmestTo-warmestFrom)))
		}
		r.warn("clock", "times are UTC and stay so, as no zone is stated: days begin at midnight in Greenwich", evidence)
		return
	}
	r.shift(int64(math.Round(*o.Zone * secondsPerHour)))
	evidence := ""
	if hour, ok := r.warmestHour(); ok {
		evidence = fmt.Sprintf("then warmest at %02d:00 on average, where %d:00 to %d:00 is usual", hour, warmestFrom, warmestTo)
	}
	r.note("clock", "times in UTC, taken to local standard time by "+utcOffset(*o.Zone)+" as stated", evidence)
}

// shift moves all stamps [s].
func (r *record) shift(seconds int64) {
	for i := range r.stamp {
		r.stamp[i] += seconds
	}
}

// warmestHour returns the hour of the day at which the record is warmest on average; ok is
// false where some hour has fewer than ten values.
func (r *record) warmestHour() (hour int, ok bool) {
	var sum, n [hoursPerDay]float64
	if air := r.column(airTemperature); air != nil {
		for i, v := range air.values {
			if isValue(v) {
				hour := wall(r.stamp[i]).Hour()
				sum[hour] += v
				n[hour]++
			}
		}
	}
	for h := range sum {
		if n[h] < shortestSunny/secondsPerDay {
			return 0, false
		}
		if sum[h]/n[h] > sum[hour]/n[hour] {
			hour = h
		}
	}
	return hour, true
}

// utcOffset writes a zone as UTC-6 or UTC+5:30.
func utcOffset(hours float64) string {
	minutes := int(math.Round(math.Abs(hours) * 60))
	sign := "+"
	if hours < 0 {
		sign = "-"
	}
	if minutes%60 == 0 {
		return fmt.Sprintf("UTC%s%d", sign, minutes/60)
	}
	return fmt.Sprintf("UTC%s%d:%02d", sign, minutes/60, minutes%60)
}
