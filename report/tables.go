package report

import (
	"encoding/csv"
	"io"
	"math"
	"strings"
	"unicode"

	"winterline/sim"
)

// Column describes one column of a table.
type Column struct {
	Name    string // as in the header; "<segment>" stands for the name of each segment in turn
	Unit    string // "" for words and pure numbers
	Meaning string
}

// Table describes one table of the results folder.
type Table struct {
	File    string
	Columns []Column
}

// TableList describes every table of a results folder, in the order of the files.
func TableList() []Table {
	hourly := append(describe(hourlyColumns), segmentDescriptions()...)
	return []Table{
		{"segments.csv", describe(segmentColumns)},
		{eventsName, describe(eventColumns)},
		{"hourly.csv", append(hourly, describe(hourlyPathColumns)...)},
		{"ledger.csv", describe(ledgerColumns)},
		{groundName, append(describe(groundColumns), soilColumn, measuredColumn)},
		{wintersName, describe(winterColumns)},
		{remediesName, describe(remedyColumns)},
		{compareName, describe(compareColumns)},
	}
}

// Tables gives the CSV files of a result. Their units are SI, their times local
// standard time, their hours counted from the first weather row. ground.csv comes where
// something is buried.
func Tables(r *sim.Result) []File {
	files := []File{
		{"segments.csv", func(w io.Writer) error {
			return writeTable(w, segmentColumns, len(r.Segments), func(i int) segmentRow { return segmentRow{r.Segments[i]} })
		}},
		EventsTable(r),
		{"hourly.csv", func(w io.Writer) error { return writeHourly(w, r) }},
		{"ledger.csv", func(w io.Writer) error {
			rows := ledgerRows(r.Ledger)
			return writeTable(w, ledgerColumns, len(rows), func(i int) ledgerRow { return rows[i] })
		}},
	}
	if r.Ground != nil {
		files = append(files, GroundTable(r.Ground))
	}
	return files
}

const eventsName = "events.csv"

// EventsTable gives events.csv: what happened, in order of time.
func EventsTable(r *sim.Result) File {
	return File{eventsName, func(w io.Writer) error {
		return writeTable(w, eventColumns, len(r.Events), func(i int) eventRow { return eventRow{r, r.Events[i]} })
	}}
}

// column declares a column once: what it is called, what it means and how a row of
// type R gives its text.
type column[R any] struct {
	Column
	text func(R) string
}

func describe[R any](columns []column[R]) []Column {
	out := make([]Column, len(columns))
	for i, c := range columns {
		out[i] = c.Column
	}
	return out
}

func writeTable[R any](w io.Writer, columns []column[R], n int, row func(int) R) error {
	out := csv.NewWriter(w)
	record := make([]string, len(columns))
	for i, c := range columns {
		record[i] = c.Name
	}
	if err := out.Write(record); err != nil {
		return err
	}
	for i := range n {
		r := row(i)
		for j, c := range columns {
			record[j] = c.text(r)
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// hours prints a time [s] in hours to 1e-4 h; nil, which means never, is empty.
func hours(t *float64) string {
	if t == nil {
		return ""
	}
	return fixed(*t/3600, 4)
}

// litres prints a volume [m³] in litres, to the millilitre.
func litres(m3 float64) string { return fixed(m3*litresPerM3, 3) }

type segmentRow struct{ sim.SegmentResult }

var segmentColumns = []column[segmentRow]{
	{Column{"segment", "", "name of the segment, in flow order"},
		func(r segmentRow) string { return r.Name }},
	{Column{"setting", "", "where it lies: indoor, through-wall, sheltered, open-air or buried"},
		func(r segmentRow) string { return r.Setting.String() }},
	{Column{"standing_l", "L", "greatest volume of water and ice that stood in it"},
		func(r segmentRow) string { return litres(r.Standing) }},
	{Column{"lowest_water_c", "°C", "lowest temperature of its water or ice; empty: never held any"},
		func(r segmentRow) string { return fixed(r.LowestWater, 3) }},
	{Column{"first_ice_h", "h", "when ice first formed; empty: never"},
		func(r segmentRow) string { return hours(r.FirstIce) }},
	{Column{"ice10_h", "h", "when 10 % of the standing water was first ice; empty: never"},
		func(r segmentRow) string { return hours(r.Ice10) }},
	{Column{"ice50_h", "h", "when 50 % of the standing water was first ice; empty: never"},
		func(r segmentRow) string { return hours(r.Ice50) }},
	{Column{"ice90_h", "h", "when 90 % of the standing water was first ice; empty: never"},
		func(r segmentRow) string { return hours(r.Ice90) }},
	{Column{"closed_h", "h", "when it first froze shut; empty: never"},
		func(r segmentRow) string { return hours(r.Closed) }},
	{Column{"hours_with_ice", "h", "total time with ice in it"},
		func(r segmentRow) string { return fixed(r.HoursWithIce, 4) }},
	{Column{"hours_closed", "h", "total time frozen shut"},
		func(r segmentRow) string { return fixed(r.HoursClosed, 4) }},
	{Column{"largest_ice_fraction", "", "largest share of the standing water that was ice, 0 to 1"},
		func(r segmentRow) string { return fixed(r.LargestIce, 6) }},
}

type eventRow struct {
	r *sim.Result
	sim.Event
}

var eventColumns = []column[eventRow]{
	{Column{"time", "", "local standard time, to the nearest minute"},
		func(r eventRow) string { return tableTime(r.r.Start, r.Time) }},
	{Column{"hour", "h", "hours since the first weather row"},
		func(r eventRow) string { return hours(&r.Time) }},
	{Column{"where", "", "segment, standpipe, pocket (the rock pit), basin, pump, downspout, or the ground at the outlet or a relief opening"},
		func(r eventRow) string { return r.Where }},
	{Column{"event", "", "what happened, one word of a fixed list"},
		func(r eventRow) string { return string(r.Kind) }},
	{Column{"value", "", "a number that belongs to it, in the unit of the next column; empty: none"},
		func(r eventRow) string {
			if r.Value == nil {
				return ""
			}
			return fixed(*r.Value, 4)
		}},
	{Column{"unit", "", "unit of value"},
		func(r eventRow) string { return r.Unit }},
	{Column{"meaning", "", "the same in words, with its number in both units"},
		func(r eventRow) string { return eventMeaning(r.r, r.Event, SI) }},
}

type ledgerRow struct {
	path   string
	litres string
}

var ledgerColumns = []column[ledgerRow]{
	{Column{"path", "", "where the water went: what came in first, then every way out and what is held"},
		func(r ledgerRow) string { return r.path }},
	{Column{"litres", "L", "total over the whole record; for what is held, the change from first row to last"},
		func(r ledgerRow) string { return r.litres }},
}

func ledgerRows(l sim.Ledger) []ledgerRow {
	return []ledgerRow{
		{"arrived", litres(l.Arrived)},
		{"pumped", litres(l.Pumped)},
		{"extra inflow", litres(l.Extra)},
		{"came back", litres(l.Returned)},
		{"backup line", litres(l.Backup)},
		{"outlet", litres(l.Outlet)},
		{"relief", litres(l.Relief)},
		{"rim", litres(l.Rim)},
		{"pocket to soil", litres(l.PocketToSoil)},
		{"held line", litres(l.HeldLine)},
		{"held pocket", litres(l.HeldPocket)},
		{"held basin", litres(l.HeldBasin)},
		{"floor", litres(l.Floor)},
		{"closing error", fixed(l.Error*litresPerM3, 9)},
	}
}

// columnName turns a segment's name into the stem of its columns: lower case, every
// run of other characters than letters and digits one "_".
func columnName(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(c rune) bool {
		return !unicode.IsLetter(c) && !unicode.IsDigit(c)
	})
	if len(words) == 0 {
		return "segment"
	}
	return strings.Join(words, "_")
}

// at gives row i of a series that the record may not have.
func at(series []float64, i int) float64 {
	if i >= len(series) {
		return math.NaN()
	}
	return series[i]
}
