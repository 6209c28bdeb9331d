package weather

import (
	"fmt"
	"slices"

	"winterline/pipe/units"
)

// metarForm is the comma-separated form in which archives of airport reports (METAR)
// give them: station, time of the report, then values in US units. Reports come at
// irregular minutes, and more than once an hour in changing weather. Times are UTC.
// Written after headers and readers of such files; precipitation from memory: it runs
// from the latest routine report, and special reports give what has fallen so far.
var metarForm = format{name: metarName, recognise: isMetar, read: readMetar}

const metarName = "METAR archive CSV"

// metarColumns are those that are read; factors as in columns. A knot is 1852 m an hour
// (NIST SP 811, 2008, appendix B.9).
var metarColumns = []column{
	{"tmpf", airTemperature, 32, 5, 9, limitsFahrenheit},
	{"tmpc", airTemperature, 0, 1, 1, limitsCelsius},
	{"dwpf", dewPoint, 32, 5, 9, limitsFahrenheit},
	{"dwpc", dewPoint, 0, 1, 1, limitsCelsius},
	{"sknt", windSpeed, 0, 1852, 3600, "0 to 194.38 knots"},
	{"sped", windSpeed, 0, 44704, 100_000, "0 to 223.69 mph"},
	{"p01i", rainfall, 0, 254, 10_000, "0 to 78.74 in"},
	{"p01m", rainfall, 0, 1, 1000, limitsRain},
	{"snowdepth", snowOnGround, 0, 254, 10_000, "0 to 787.4 in"},
}

// metarSky are the columns of the layers of cloud.
var metarSky = []string{"skyc1", "skyc2", "skyc3", "skyc4"}

// isMetar recognises the header, which may follow lines of remarks.
func isMetar(head []byte) bool {
	names := headerNames(head)
	return len(names) > 0 && names[0] == "station" && slices.Contains(names, "valid") &&
		(slices.Contains(names, "tmpf") || slices.Contains(names, "tmpc"))
}

func readMetar(src *source) (*record, units.Problems) {
	a := newArchive(src, metarName)
	a.number, a.wanted = metarNumber, "a number, M for missing or T for a trace"
	if fault, ok := a.row(); !ok || fault != nil {
		return nil, a.noHeader(fault)
	}
	a.takeHeader()
	a.bind(metarColumns)
	station, valid := a.field("station"), a.field("valid")
	if valid < 0 || a.record.column(airTemperature) == nil {
		return nil, a.noHeader(nil)
	}
	sky := a.bindSky(metarSky)
	for a.nextRow() {
		if a.ofOneStation(station) && a.addTimed(valid) {
			a.takeValues()
			a.takeSky(sky)
		}
	}
	r, ps := a.result()
	if r == nil {
		return nil, ps
	}
	if rain := r.column(rainfall); rain != nil {
		minute := routineMinute(r.stamp)
		increments(periods(r.stamp, minute), rain.values)
		r.startAmounts(*rain)
		r.note(rainfall.word, "taken as running from the latest routine report",
			fmt.Sprintf("most reports are made %d minutes after the hour", minute))
	}
	r.fromUTC(src.options)
	return r, nil
}

// metarNumber reads a value of a report; the archives write 0.0001 for a trace, too.
func metarNumber(text []byte) (float64, bool) {
	if string(text) == traceWord || string(text) == "0.0001" {
		return 0, true
	}
	return parseArchiveNumber(text)
}
