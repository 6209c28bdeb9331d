package weather

import (
	"bytes"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// canadaForm is the hourly file of the Canadian climate archive ("Hourly Data Report" of
// Environment and Climate Change Canada): a month a file, local standard time. Older ones
// have a block of lines on the station before the header. Written after public headers;
// that precipitation is that of the hour before the stamp is from memory.
var canadaForm = format{name: canadaName, recognise: isCanada, read: readCanada}

const canadaName = "Canadian hourly climate CSV"

// canadaColumns are those that are read, by their names without what is not ASCII: files
// come in more than one encoding of the degree sign.
var canadaColumns = []column{
	{"Temp (C)", airTemperature, 0, 1, 1, limitsCelsius},
	{"Dew Point Temp (C)", dewPoint, 0, 1, 1, limitsCelsius},
	{"Wind Spd (km/h)", windSpeed, 0, 1, 3.6, "0 to 360 km/h"},
	{"Precip. Amount (mm)", rainfall, 0, 1, 1000, limitsRain},
}

// canadaStamps are the names of the column of times, newer and older.
var canadaStamps = []string{"Date/Time (LST)", "Date/Time"}

// canadaBlock is how many rows the block on the station may have before the header.
const canadaBlock = 60

// isCanada looks for the header among the first rows.
func isCanada(head []byte) bool {
	a := newArchive(newSource("", bytes.NewReader(head), Options{}), "")
	return a.findCanadaHeader()
}

// findCanadaHeader reads up to the header; false where there is none.
func (a *archive) findCanadaHeader() bool {
	for range canadaBlock {
		if _, ok := a.row(); !ok {
			return false
		}
		if a.takeHeader(); a.anyField(canadaStamps) >= 0 && a.field("Temp (C)") >= 0 {
			return true
		}
	}
	return false
}

// anyField returns the index of the first of some names that the header has, or -1.
func (a *archive) anyField(names []string) int {
	return slices.IndexFunc(a.header, func(h string) bool { return slices.Contains(names, h) })
}

func readCanada(src *source) (*record, units.Problems) {
	a := newArchive(src, canadaName)
	if !a.findCanadaHeader() {
		return nil, a.noHeader(nil)
	}
	a.bind(canadaColumns)
	flags := a.canadaFlags()
	station, stamp := a.field("Climate ID"), a.anyField(canadaStamps)
	estimated := 0
	for a.nextRow() {
		if !a.ofOneStation(station) || !a.addTimed(stamp) {
			continue
		}
		estimated += a.heedFlags(flags)
		a.takeValues()
	}
	r, ps := a.result()
	if r == nil {
		return nil, ps
	}
	evidence := ""
	if a.timeName == canadaStamps[0] {
		evidence = "the column is named " + a.timeName
	}
	r.note("clock", "times taken as local standard time", evidence)
	if estimated > 0 {
		r.note("quality", units.Plural(estimated, "value")+" that the publisher estimated taken like others", "flag E")
	}
	if rain := r.column(rainfall); rain != nil {
		r.startAmounts(*rain)
	}
	return r, nil
}

// canadaFlags returns the field of the flag of each column that is read, -1 for none:
// "Temp (°C)" has its flag in "Temp Flag".
func (a *archive) canadaFlags() []int {
	var flags []int
	for _, c := range a.columns {
		name, _, _ := strings.Cut(c.name, " (")
		flags = append(flags, a.field(name+" Flag"))
	}
	return flags
}

// heedFlags empties the fields of the latest row that are flagged as missing (M), and
// counts those flagged as estimated (E).
func (a *archive) heedFlags(flags []int) (estimated int) {
	for i, flag := range flags {
		if flag < 0 {
			continue
		}
		switch value := &a.fields[a.columns[i].index]; {
		case string(a.fields[flag]) == "M" && len(*value) > 0:
			a.columns[i].emptied.flagged.add(len(a.record.stamp)-1, *value)
			*value = nil
		case string(a.fields[flag]) == "E" && len(*value) > 0:
			estimated++
		}
	}
	return estimated
}
