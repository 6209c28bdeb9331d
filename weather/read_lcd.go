package weather

import (
	"math"
	"slices"

	"winterline/pipe/units"
)

// lcdForm is the hourly file of the data set "Local Climatological Data" of the US
// National Centers for Environmental Information: several reports an hour in local
// standard time, with rows of daily and monthly summaries among them, of which nothing is
// read but the depth of snow. Written after its documentation ("Local Climatological Data
// (LCD) Dataset Documentation", from memory) and public headers.
//
// The older version gives whole °F, mph and inches, the newer one °C, m/s and mm under
// the same names: the values have to tell which it is.
var lcdForm = format{name: lcdName, recognise: isLCD, read: readLCD}

const lcdName = "Local Climatological Data"

const (
	lcdAir    = "HourlyDryBulbTemperature"
	lcdDew    = "HourlyDewPointTemperature"
	lcdWind   = "HourlyWindSpeed"
	lcdRain   = "HourlyPrecipitation"
	lcdLayers = "HourlySkyConditions"
	lcdSnow   = "DailySnowDepth" // in the summaries; in the newer version of a unit not known here
)

// The columns of the two versions that are read.
var (
	lcdUSColumns = []column{
		{lcdAir, airTemperature, 32, 5, 9, limitsFahrenheit},
		{lcdDew, dewPoint, 32, 5, 9, limitsFahrenheit},
		{lcdWind, windSpeed, 0, 44704, 100_000, "0 to 223.69 mph"},
		{lcdRain, rainfall, 0, 254, 10_000, "0 to 78.74 in"},
		{lcdSnow, snowOnGround, 0, 254, 10_000, "0 to 787.4 in"},
	}
	lcdSIColumns = []column{
		{lcdAir, airTemperature, 0, 1, 1, limitsCelsius},
		{lcdDew, dewPoint, 0, 1, 1, limitsCelsius},
		{lcdWind, windSpeed, 0, 1, 1, limitsWind},
		{lcdRain, rainfall, 0, 1, 1000, limitsRain},
	}
)

func isLCD(head []byte) bool {
	names := headerNames(head)
	return slices.Contains(names, "DATE") && slices.Contains(names, lcdAir)
}

// lcdReader takes the rows of a file and what they tell of its version.
type lcdReader struct {
	*archive
	kind      int // field of the kind of report
	pressures []int
	air       int // field of the air temperature
	layers    int // field of the layers of cloud; negative: none
	cloud     int // column of the record
	version   lcdVersion
	suspect   int     // values with a letter of doubt
	routine   int64   // routine reports so far
	periods   []int64 // of each row, for precipitation
	snow      int     // field of the depth of snow in summaries of a day; negative: none
	longitude int     // field; negative: none
}

func readLCD(src *source) (*record, units.Problems) {
	a := newArchive(src, lcdName)
	if fault, ok := a.row(); !ok || fault != nil {
		return nil, a.noHeader(fault)
	}
	a.takeHeader()
	l := &lcdReader{archive: a, kind: a.field("REPORT_TYPE"), air: a.field(lcdAir), layers: a.field(lcdLayers),
		snow: a.field(lcdSnow), longitude: a.field("LONGITUDE")}
	a.number, a.wanted = l.parse, "a number such as 28 or 28s, or * or nothing where none was recorded"
	station, date := a.field("STATION"), a.field("DATE")
	if date < 0 || l.air < 0 {
		return nil, a.noHeader(nil)
	}
	a.bind(lcdUSColumns) // the unit is put right at the end
	for _, name := range lcdPressures {
		if i := a.field(name); i >= 0 {
			l.pressures = append(l.pressures, i)
		}
	}
	if l.layers >= 0 {
		l.cloud = a.record.addColumn(cloudCover, lcdLayers)
	}
	for a.nextRow() {
		switch {
		case !a.ofOneStation(station):
		case l.summary():
			l.takeSnow(date)
		case a.addTimed(date):
			l.takeReport()
		}
	}
	return l.finish()
}

// reportType returns the kind of the latest report, such as FM-15; nothing where the file
// does not tell.
func (l *lcdReader) reportType() []byte {
	if l.kind < 0 {
		return nil
	}
	return l.fields[l.kind]
}

// summary says whether the latest row sums up a day (SOD) or a month (SOM).
func (l *lcdReader) summary() bool {
	kind := string(l.reportType())
	return kind == "SOD" || kind == "SOM"
}

// takeReport reads the values of the latest row. Precipitation runs from one routine
// report to the next: special reports (FM-16, SAOSP) give what has fallen so far, and the
// synoptic ones (FM-12) between them repeat what others have told.
func (l *lcdReader) takeReport() {
	l.takeValues()
	if l.layers >= 0 {
		l.takeLayers(l.cloud, l.fields[l.layers])
	}
	l.version.weigh(l)
	l.periods = append(l.periods, l.routine)
	switch string(l.reportType()) {
	case "FM-12":
		if rain := l.record.column(rainfall); rain != nil {
			rain.values[len(rain.values)-1] = math.NaN()
		}
	case "FM-16", "SAOSP":
	default:
		l.routine++
	}
}

// parse reads a value and counts those marked as suspect, which are taken.
func (l *lcdReader) parse(text []byte) (float64, bool) {
	v, ok := lcdNumber(text)
	if ok && text[len(text)-1] == 's' {
		l.suspect++
	}
	return v, ok
}

// lcdNumber reads a value: 28, 28s (suspect), 0.02, T (a trace), * or M (missing).
func lcdNumber(text []byte) (float64, bool) {
	switch string(text) {
	case "*", "M":
		return math.NaN(), true
	case traceWord, traceWord + "s":
		return 0, true
	}
	if n := len(text) - 1; n > 0 && isLetter(text[n]) {
		if text[n] == 'M' {
			return math.NaN(), true
		}
		text = text[:n]
	}
	return parseDecimal(text)
}

func isLetter(b byte) bool { return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' }

// finish takes the values to SI in the units of the version that was found.
func (l *lcdReader) finish() (*record, units.Problems) {
	celsius, evidence, doubtful := l.version.celsius()
	text := "taken as °F, mph and inches, the older version of the data set"
	if celsius {
		text = "taken as °C, m/s and mm, the newer version of the data set"
		for i := range l.columns {
			c := &l.columns[i]
			if at := slices.IndexFunc(lcdSIColumns, func(si column) bool { return si.name == c.name }); at >= 0 {
				c.column = lcdSIColumns[at]
			} else {
				l.leaveOut(c)
			}
		}
	}
	if rain := l.record.column(rainfall); rain != nil {
		increments(l.periods, rain.values)
	}
	l.bothVersions()
	r, ps := l.result()
	if r == nil {
		return nil, ps
	}
	if doubtful {
		r.warn("unit", text, evidence)
	} else {
		r.note("unit", text, evidence)
	}
	r.note("clock", "times taken as local standard time, as the data set's documentation says", "")
	if l.suspect > 0 {
		r.note("quality", units.Plural(l.suspect, "value")+" marked as suspect taken all the same", "")
	}
	if rain := r.column(rainfall); rain != nil {
		r.startAmounts(*rain)
	}
	return r, nil
}
