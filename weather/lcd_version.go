package weather

import (
	"bytes"
	"fmt"
	"math"

	"winterline/pipe/units"
)

// lcdPressures are columns in inches of mercury or in hPa, which no weather confuses.
var lcdPressures = []string{"HourlyStationPressure", "HourlySeaLevelPressure", "HourlyAltimeterSetting"}

// lcdVersion counts what speaks for one unit or the other.
type lcdVersion struct {
	whole, tenths    int // air temperatures
	inches, pascals  int // pressures as in inches of mercury, as in hPa
	tenth, hecto     string
	tenthAt, hectoAt int
}

// weigh looks at what the latest row tells of the version: whole degrees or tenths, and
// pressures that can only be of one unit.
func (v *lcdVersion) weigh(l *lcdReader) {
	text := l.fields[l.air]
	if air, ok := lcdNumber(text); ok && !math.IsNaN(air) {
		if _, tenths, point := bytes.Cut(text, []byte(".")); point && bytes.ContainsAny(tenths, "123456789") {
			v.tenths++
			v.tenth, v.tenthAt = first(v.tenth, v.tenthAt, text, l.start)
		} else {
			v.whole++
		}
	}
	for _, i := range l.pressures {
		text := l.fields[i]
		switch p, ok := lcdNumber(text); {
		case !ok || math.IsNaN(p):
		case p > 15 && p < 33: // 500 to 1120 hPa
			v.inches++
		case p > 500 && p < 1120:
			v.pascals++
			v.hecto, v.hectoAt = first(v.hecto, v.hectoAt, text, l.start)
		}
	}
}

// first keeps the first text told, and its line.
func first(told string, at int, text []byte, line int) (string, int) {
	if told != "" {
		return told, at
	}
	return string(text), line
}

// leastShare is the share of air temperatures with tenths from which a file is taken to
// be in °C; the older version has none.
const leastShare = 0.02

// celsius says whether the file is of the newer version, why, and whether something
// speaks against it, or nothing for it. Tenths of a degree decide; where there are none,
// the pressures do.
func (v *lcdVersion) celsius() (is bool, evidence string, doubtful bool) {
	read := v.whole + v.tenths
	if float64(v.tenths) > leastShare*float64(read) {
		evidence = fmt.Sprintf("%d of %d air temperatures have tenths, as %s on line %d", v.tenths, read, v.tenth, v.tenthAt)
		against := v.inches > v.pascals
		if against {
			evidence += ", though pressures are in inches of mercury"
		}
		return true, evidence, against
	}
	switch {
	case v.pascals > v.inches:
		return true, fmt.Sprintf("%d pressures are in hPa, as %s on line %d", v.pascals, v.hecto, v.hectoAt), false
	case v.inches > 0:
		return false, fmt.Sprintf("air temperatures are whole degrees and %d pressures in inches of mercury", v.inches), false
	}
	return false, "air temperatures are whole degrees; there are no pressures to tell by", true
}

// bothVersions refuses a file that is put together of both; a few pressures are slips.
func (l *lcdReader) bothVersions() {
	v := l.version
	if float64(min(v.inches, v.pascals)) > leastShare*float64(v.inches+v.pascals) {
		l.add(units.Problem{File: l.name, Line: v.hectoAt, Key: "pressure",
			Found:    fmt.Sprintf("%s, in hPa, in a file that has %d pressures in inches of mercury", v.hecto, v.inches),
			Expected: "one version of the data set, in °F or in °C; split the file"})
	}
}

// leaveOut empties a column of which the unit is not known, and says so where it has values.
func (l *lcdReader) leaveOut(c *archiveColumn) {
	values, had := l.record.columns[c.into].values, false
	for i, v := range values {
		had = had || !math.IsNaN(v)
		values[i] = math.NaN()
	}
	if had {
		l.record.warn(c.quantity.word, "left out", c.name+" of the newer version of the data set is in a unit that the file does not state")
	}
}
