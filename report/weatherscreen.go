package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"time"

	"winterline/weather"
)

// weatherWidth is the most that the weather's screen is wide [columns].
const weatherWidth = 80

// WeatherOptions are what the screen of a weather record is printed with.
type WeatherOptions struct {
	System  System
	Window  int      // width [columns]; 0: not known
	All     bool     // every entry of the ledger, not the first few
	Written []string // files that hold the record in the plain form; nil: none
	Results string   // the folder of charts and summary, or why there is none; "": nothing
}

// WeatherScreen prints what a weather record holds, how cold it was, and what was assumed
// and mended on reading.
func WeatherScreen(w io.Writer, d *weather.Digest, o WeatherOptions) error {
	s := o.System
	blocks := []block{
		{"Files", []string{d.Source + " (" + d.Format + ")"}},
		{"Rows", rowWords(d)},
		{"Columns", rowsOf(columnTable(d, s))},
		{"", []string{""}},
		{"Coldest hour", []string{s.bothTemperatures(d.Coldest.Value) + ", " + recordTime(d.Coldest.Time)}},
		{"Coldest day", coldestDayWords(d, s)},
		{"Longest", rowsOf(belowTable(d, s))},
		{"Winters", winterWords(d, s)},
		{"Cold spells", spellWords(d, s)},
		{"", []string{""}},
		{"Typical", typicalWords(d)},
		{"Design", designWords(d)},
		{"Assumed", noteWords(d, false)},
		{"Mind", noteWords(d, true)},
		{"Ledger", ledgerWords(d, o.All)},
		{"Written", writtenWords(o.Written)},
		{"Next", nextWithWeather(o.Written)},
		{"Results", optional(o.Results)},
	}
	return writeWeather(w, d, o, append([]block{{"", []string{""}}}, blocks...))
}

// WeatherBrief prints the sentence on a weather record, what kind of record it is where it is
// no winter that was, and what was written.
func WeatherBrief(w io.Writer, d *weather.Digest, o WeatherOptions) error {
	return writeWeather(w, d, o, []block{
		{"Typical", typicalWords(d)}, {"Design", designWords(d)}, {"Written", writtenWords(o.Written)}, {"Next", nextWithWeather(o.Written)}, {"Results", optional(o.Results)},
	})
}

// writeWeather prints the sentence on a record above blocks.
func writeWeather(w io.Writer, d *weather.Digest, o WeatherOptions, blocks []block) error {
	p := &sheet{width: min(columns(o.Window), weatherWidth)}
	p.line(weatherHeadline(d))
	p.blocks(blocks...)
	return p.print(w)
}

// weatherHeadline says in a sentence what the record is.
func weatherHeadline(d *weather.Digest) string {
	first, last := d.Spans[0].Start, d.Spans[len(d.Spans)-1].End
	text := fmt.Sprintf("Weather from %s to %s, %s", first.Format("Jan 2, 2006"), last.Format("Jan 2, 2006"), stepWords(d.Step))
	switch n := len(d.Spans); {
	case n > 1:
		text += ", in " + plural(float64(n), "span")
	case d.Present() == 1:
		text += ", nothing missing"
	default:
		text += ", " + coverage(d.Present()) + " of it there"
	}
	return text + "."
}

func stepWords(step float64) string {
	if step == 3600 {
		return "every hour"
	}
	return "every " + spokenDuration(step)
}

// coverage prints a share to a tenth of a percent, never rounded up to all.
func coverage(share float64) string {
	return strconv.FormatFloat(math.Floor(max(0, share)*1000)/10, 'f', -1, 64) + " %"
}

func rowWords(d *weather.Digest) []string {
	total, missing := plural(float64(d.Rows), "row"), ""
	if d.RowsMissing > 0 {
		missing = "; " + bridgedWords(d.RowsMissing) + " missing, bridged"
	}
	if len(d.Spans) == 1 {
		e := d.Spans[0]
		return []string{fmt.Sprintf("%s to %s (%s), %s", recordTime(e.Start), recordTime(e.End), spokenDuration(3600*d.Hours), total+missing)}
	}
	table := [][]string{{"span", "from", "to", "days"}}
	for i, e := range d.Spans {
		table = append(table, []string{strconv.Itoa(i + 1), recordTime(e.Start), recordTime(e.End), padLeft(number(e.End.Sub(e.Start).Hours()/24, 1), 4)})
	}
	return append(rowsOf(table), total+" in all"+missing)
}

// recordTime prints a time of the record, "2026-01-17 05:00".
func recordTime(at time.Time) string { return at.Round(time.Minute).Format("2006-01-02 15:04") }

// columnTable gives lowest, mean and highest value of each quantity.
func columnTable(d *weather.Digest, s System) [][]string {
	table := [][]string{{"", "lowest", "mean", "highest", "bridged"}}
	for _, c := range d.Columns {
		show := columnUnit(c, s)
		row := []string{c.Name, show(c.Low), show(c.Mean), show(c.High), bridgedWords(c.Missing)}
		switch {
		case c.Amount:
			row[1], row[2] = "", show(c.Mean)+" a day"
		case c.Depth > 0:
			row[0] = "soil at " + s.depth(c.Depth)
		}
		table = append(table, row)
	}
	return table
}

func bridgedWords(hours float64) string {
	if hours == 0 {
		return "-"
	}
	return number(math.Ceil(hours), 0) + " h"
}

// columnUnit returns how a column's values are printed.
func columnUnit(c weather.ColumnDigest, s System) func(float64) string {
	switch c.Name {
	case "air temperature", "dew point", "soil temperature":
		return s.tenths
	case "wind":
		return s.speed
	case "cloud cover":
		return percent
	case "snow depth":
		return s.length
	case "rain", "snowfall":
		return s.rain
	}
	return func(v float64) string { return number(v, 0) + " W/m²" }
}

func coldestDayWords(d *weather.Digest, s System) []string {
	if d.ColdestDay == nil {
		return []string{"the record is shorter than a day"}
	}
	return []string{"mean " + s.bothTemperatures(d.ColdestDay.Value) + ", the 24 h from " + recordTime(d.ColdestDay.Time)}
}

// belowTable gives the longest times below some limits.
func belowTable(d *weather.Digest, s System) [][]string {
	var table [][]string
	for _, b := range d.Below {
		row := []string{"below " + s.bothTemperatures(b.Limit), "never"}
		if b.Length > 0 {
			row = []string{row[0], lengthWords(b.Length), "from " + recordTime(b.Start)}
		}
		table = append(table, row)
	}
	return table
}

// lengthWords prints a length of time [s] in hours, and in days beyond two.
func lengthWords(seconds float64) string {
	if seconds < 48*3600 {
		return number(seconds/3600, 1) + " h"
	}
	return number(seconds/86400, 1) + " days"
}

// winterWords is the table of winters with what its degree-days are.
func winterWords(d *weather.Digest, s System) []string {
	return append(rowsOf(winterTable(d, s)), "degree-days: each day's mean below freezing, all days added up")
}

// winterTable gives freezing degree-days and the lowest temperature winter by winter.
func winterTable(d *weather.Digest, s System) [][]string {
	table := [][]string{{"", "freezing degree-days", "lowest", "days in the record"}}
	for _, w := range d.Winters {
		table = append(table, []string{recordWinter(d, w), s.degreeDays(w.DegreeDays), s.tenths(w.Lowest), number(w.Days, 0)})
	}
	return table
}

// typicalWinter stands for the name of a winter in a typical year.
const typicalWinter = "typical"

// recordWinter names a winter of the record.
func recordWinter(d *weather.Digest, w weather.WinterCold) string {
	if d.Typical {
		return typicalWinter
	}
	return winterName(w.Ends)
}

// spellWords is the table of cold spells with what it counts as one.
func spellWords(d *weather.Digest, s System) []string {
	if len(d.Spells) == 0 {
		if !slices.ContainsFunc(d.Spans, func(e weather.Extent) bool { return e.End.Sub(e.Start).Seconds() >= weather.SpellLength }) {
			return []string{"none: the record is shorter than three days"}
		}
		return []string{"none: no three days were below freezing on average"}
	}
	header := []string{"", "three days from", "mean", "lowest"}
	hasWind, hasSnow := false, false
	for _, p := range d.Spells {
		hasWind = hasWind || !math.IsNaN(p.Wind)
		hasSnow = hasSnow || !math.IsNaN(p.Snow)
	}
	if hasWind {
		header = append(header, "wind")
	}
	if hasSnow {
		header = append(header, "snow")
	}
	table := [][]string{header}
	for i, p := range d.Spells {
		row := []string{padLeft(strconv.Itoa(i+1), 2), recordTime(p.Start), s.tenths(p.Mean), s.tenths(p.Lowest)}
		if hasWind {
			row = append(row, known(p.Wind, s.speed))
		}
		if hasSnow {
			row = append(row, known(p.Snow, s.length))
		}
		table = append(table, row)
	}
	return append(rowsOf(table), "first the three days that were coldest on average, then the coldest that share no time with them, and so on")
}

// known prints a value that may be missing.
func known(v float64, show func(float64) string) string {
	if math.IsNaN(v) {
		return "-"
	}
	return show(v)
}

func typicalWords(d *weather.Digest) []string {
	if !d.Typical {
		return nil
	}
	return []string{"a typical year, of months of different years: it contains no record cold snap; surviving it is not proof of protection"}
}

// designWords say how a design cold snap was made; nil for a record.
func designWords(d *weather.Digest) []string {
	if d.Design == nil {
		return nil
	}
	return append([]string{"a design cold snap, not a winter that was"}, d.Design...)
}

// noteWords are what was assumed, or what may be wrong; what holds for several files is
// said once.
func noteWords(d *weather.Digest, warnings bool) []string {
	const most = 12
	var lines []string
	for i, g := range weather.GroupNotes(d.Notes, warnings) {
		if i == most {
			return append(lines, "and more of this kind; --json has them all")
		}
		lines = append(lines, g.Words(d.Source))
	}
	return lines
}

// ledgerWords are the entries of the ledger; unless all are asked for, one line for all
// entries of a kind in a column.
func ledgerWords(d *weather.Digest, all bool) []string {
	if len(d.Ledger) == 0 {
		return []string{"nothing to mend: every row is used as it stands"}
	}
	var lines []string
	if all {
		for _, e := range d.Ledger {
			lines = append(lines, e.String())
		}
		return lines
	}
	groups := groupsOf(d.Ledger)
	for _, g := range groups {
		lines = append(lines, g.words())
	}
	if len(groups) < len(d.Ledger) {
		lines = append(lines, fmt.Sprintf("%s in all; --all shows each", number(float64(len(d.Ledger)), 0)))
	}
	return lines
}

// ledgerGroup is the entries of one kind in one column.
type ledgerGroup struct {
	first          weather.Repair
	entries, count int
	total, longest float64 // of gaps [h]
}

func groupsOf(ledger []weather.Repair) (groups []ledgerGroup) {
	type key struct {
		kind   weather.RepairKind
		column string
	}
	at := map[key]int{}
	for _, e := range ledger {
		k := key{e.Kind, e.Column}
		i, known := at[k]
		if !known {
			i = len(groups)
			at[k] = i
			groups = append(groups, ledgerGroup{first: e})
		}
		g := &groups[i]
		g.entries++
		g.count += e.Count
		g.total += e.Hours
		g.longest = max(g.longest, e.Hours)
	}
	return groups
}

// words says what the group holds, and where it begins.
func (g ledgerGroup) words() string {
	switch {
	case g.entries == 1:
		return g.first.String()
	case g.first.Kind.Gap():
		return fmt.Sprintf("%s: %s, %s, %s h in all, the longest %s h; first at %s:%d, %s", g.first.Column, g.first.Kind,
			plural(float64(g.entries), "gap"), number(g.total, 0), number(g.longest, 1), g.first.File, g.first.Line, recordTime(g.first.Time))
	}
	return fmt.Sprintf("%s: %s, %s, %s; first at %s:%d, %s", g.first.Column, g.first.Kind, plural(float64(g.entries), "time"),
		plural(float64(g.count), "row"), g.first.File, g.first.Line, recordTime(g.first.Time))
}
