package weather

import (
	"math"
	"strconv"

	"winterline/pipe/units"
)

// takeSnow gives the depth of snow of a day's summary, which no hourly report has, to the
// report of that day nearest to 12:00 UTC, when it is measured (the data set's
// documentation, from memory); by local standard time that is 12 h and a fifteenth of the
// longitude. Dates with slashes are not days yet while they are read, and go without.
func (l *lcdReader) takeSnow(date int) {
	if l.snow < 0 || len(l.fields[l.snow]) == 0 {
		return
	}
	depth, ok := lcdNumber(l.fields[l.snow])
	if !ok {
		l.complain(lcdSnow, strconv.Quote(units.Shorten(string(l.fields[l.snow]))), l.wanted)
		return
	}
	stamp, _, err := parseStamp(l.fields[date])
	row := l.rowNear(stamp, l.noonUTC())
	if err == nil && row >= 0 && !math.IsNaN(depth) {
		l.record.column(snowOnGround).values[row] = depth
	}
}

// noonUTC returns 12:00 UTC by the latest row's local standard time [s since midnight];
// without a longitude, as on the meridian of 90° west.
func (l *lcdReader) noonUTC() int64 {
	longitude := -90.0
	if l.longitude >= 0 {
		if v, ok := parseDecimal(l.fields[l.longitude]); ok && v >= -180 && v <= 180 {
			longitude = v
		}
	}
	return int64(12+math.Round(longitude/15)) * secondsPerHour
}

// rowNear returns the row of the day of a stamp that is nearest to a time of that day [s];
// -1 where the latest rows are none of that day.
func (l *lcdReader) rowNear(stamp, second int64) int {
	midnight := floorDiv(stamp, secondsPerDay) * secondsPerDay
	at, near := midnight+second, -1
	away := func(row int) int64 { return max(l.record.stamp[row]-at, at-l.record.stamp[row]) }
	for row := len(l.record.stamp) - 1; row >= 0; row-- {
		if s := l.record.stamp[row]; s < midnight || s >= midnight+secondsPerDay {
			break
		}
		if near < 0 || away(row) < away(near) {
			near = row
		}
	}
	return near
}
