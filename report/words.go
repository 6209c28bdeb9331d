package report

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"sort"
	"strings"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather"
)

// Options say how a result is put on the screen. The zero value prints US units and
// leaves out what it was not told.
type Options struct {
	System   System
	Window   int                  // width [columns]; 0: not known
	Case     string               // the case as the user named it; "": the result's name
	Weather  string               // weather file
	Bridged  weather.Bridged      // what was missing in that file
	Results  string               // results folder as the user would type it; "": none written
	Next     string               // command to type next
	Findings []pipe.Finding       // of practice, on the layout alone
	Margin   *answers.Margin      // nil: not worked out
	Sure     []answers.GuessTried // the guesses tried at the ends of their ranges; nil: not tried
	SureLeft bool                 // they were not tried: it would have been much work
}

// sheet is an empty one for the window.
func (o *Options) sheet() *sheet { return newSheet(o.Window) }

// Screen prints the verdict, what stands behind it and the caution.
func Screen(w io.Writer, r *sim.Result, o Options) error {
	table := newWaterTable(r, o.System)
	p := o.sheet()
	p.line(headline(r, o.System))
	p.blocks([]block{
		{"House", houseWords(r, o)},
		{"How sure", o.sureWords(r)},
		{"Mind", warningWords(r)},
		{"", []string{""}},
		{"Froze shut", shutWords(r, o)},
		{"Why", paragraph(whyWords(r, o.System))},
		{"Could shut", dendriticWords(r)},
		{"Ice", iceWords(r, o.System)},
		{"Relief ran", reliefRanWords(r, o.System)},
		{"Spilled", spilledWords(r, &table)},
		{"Floor wet", floorWords(r, &table)},
		{"Trapped", trappedWords(r, o.System)},
		{"Air gap", gapWords(r, o.System)},
		{"Ground ice", moundWords(r, o.System)},
		{"Frost heave", movementWords(r, o.System)},
		{"Water", table.lines()},
		{"How close", howCloseWords(r, o.Margin, o.System)},
		{"Practice", practiceWords(r, o)},
		{"Look at", lookAt(r, o.System, &table)},
		{"", []string{""}},
		{"Next", optional(o.Next)},
		{"Results", resultsWords(o.Results)},
		{"Caution", []string{caution}},
	}...)
	return p.print(w)
}

// sureWords says how many inputs are guesses, and which of them decide the verdict.
func (o *Options) sureWords(r *sim.Result) []string {
	lines := sureWords(r.Layout.Guesses, o.Sure, o.System, sureFewest)
	if o.SureLeft {
		lines = append(lines, sureUntried)
	}
	return lines
}

func optional(words string) []string {
	if words == "" {
		return nil
	}
	return []string{words}
}

// resultsWords say where the results are, and what to open there.
func resultsWords(folder string) []string {
	if folder == "" {
		return nil
	}
	return []string{folder, "(to read and to print: " + pageName + " there)"}
}

func houseWords(r *sim.Result, o Options) []string {
	return o.packed(o.caseName(r.Name, r.Title), datesOf(r.Start, r.Hourly.Time), weatherWords(o))
}

// weatherWords names the weather file and what is missing in it; "" when not told.
func weatherWords(o Options) string {
	if o.Weather == "" {
		return ""
	}
	return "Weather: " + o.Weather + " (" + gapsWords(o.Bridged) + ")"
}

// gapsWords says how long what was missing and bridged, each column's hours in all.
func gapsWords(b weather.Bridged) string {
	hours := func(h float64) string { return number(math.Ceil(h), 0) + " h" }
	switch {
	case len(b.Columns) == 0:
		return "no hours missing"
	case len(b.Columns) == 1 && b.Columns[0].Hours == b.Rows:
		return plural(math.Ceil(b.Rows), "missing hour") + " bridged"
	}
	var parts []string
	for _, c := range b.Columns {
		parts = append(parts, c.Name+" "+hours(c.Hours))
	}
	if b.Rows > 0 && b.Others {
		parts = append(parts, "the rest "+hours(b.Rows))
	}
	words := "bridged: " + strings.Join(parts, ", ")
	if b.Rows == 0 && b.Columns[0].Name != "air temperature" {
		words = "no air temperature missing; " + words
	}
	return words
}

// caseName is a case as the user named it, or by its own name, with its title.
func (o *Options) caseName(name, title string) string {
	name = cmp.Or(o.Case, name)
	switch {
	case name == "":
		return title
	case title == "" || title == name:
		return name
	}
	return name + ": " + title
}

// packed puts facts side by side, beside a label, as long as they fit the window.
func (o *Options) packed(facts ...string) []string {
	return packedWithin(columns(o.Window)-labelWidth, facts...)
}

// packedWithin is packed in a given width; empty facts are left out.
func packedWithin(width int, facts ...string) []string {
	const gap = "    "
	var lines []string
	for _, fact := range facts {
		if fact == "" {
			continue
		}
		if n := len(lines); n > 0 && len([]rune(lines[n-1]+gap+fact)) <= width {
			lines[n-1] += gap + fact
			continue
		}
		lines = append(lines, fact)
	}
	return lines
}

// guessCount says how many inputs are guesses, and names some.
func guessCount(guesses []pipe.Guess) []string {
	const named = 4
	if len(guesses) == 0 {
		return []string{"no input was left to a guess"}
	}
	var names []string
	for _, g := range guesses[:min(named, len(guesses))] {
		names = append(names, guessName(g))
	}
	if rest := len(guesses) - named; rest > 0 {
		names = append(names, fmt.Sprintf("%d more", rest))
	}
	verb := " are guesses: "
	if len(guesses) == 1 {
		verb = " is a guess: "
	}
	return []string{plural(float64(len(guesses)), "input") + verb + list(names)}
}

func warningWords(r *sim.Result) []string { return warningSentences(r.Warnings) }

func warningSentences(warnings []sim.Warning) []string {
	var lines []string
	for _, w := range warnings {
		lines = append(lines, w.Sentence)
	}
	return lines
}

func shutWords(r *sim.Result, o Options) []string {
	v := r.Verdict
	if v.Closed == nil {
		return nil
	}
	end := "still shut at the end of the record"
	if v.Reopened != nil {
		end = "opened for good " + spokenTime(r.Start, *v.Reopened)
	}
	where := strings.TrimPrefix(shutFirst(r), "the ")
	if v.ClosedByMound {
		where += ", under ice on the ground"
	}
	if v.ClosedDistance > 0 {
		where += ", " + o.System.bothLengths(v.ClosedDistance) + " from the wall"
	}
	lines := o.packed(spokenTime(r.Start, *v.Closed), where, end)
	return append(lines, alsoShut(r)...)
}

// alsoShutMore ends the list of parts that shut.
const alsoShutMore = "and %d more (segments.csv)"

// mostAlsoShut is how many other parts that shut are named.
const mostAlsoShut = 4

// alsoShut lists the other parts that ice shut, in the order in which it did.
func alsoShut(r *sim.Result) []string {
	var others []sim.SegmentResult
	for i, s := range r.Segments {
		if s.Closed != nil && (i != r.Verdict.ClosedWhere || r.Verdict.ClosedByMound) {
			others = append(others, s)
		}
	}
	sort.SliceStable(others, func(i, j int) bool { return *others[i].Closed < *others[j].Closed })
	if len(others) == 0 {
		return nil
	}
	var words []string
	for _, s := range others[:min(mostAlsoShut, len(others))] {
		words = append(words, "the "+s.Name+" "+spokenTime(r.Start, *s.Closed))
	}
	if rest := len(others) - mostAlsoShut; rest > 0 {
		words = append(words, fmt.Sprintf(alsoShutMore, rest))
	}
	return []string{"then also " + strings.Join(words, ", ")}
}

// couldShut tells of the earlier time.
const couldShut = "as early as %s, if the water stayed liquid below freezing first and then turned to slush all at once, as still water often does"

// dendriticWords says how much earlier the line can shut when still water stays
// liquid below freezing and then fills the bore with slush at once.
func dendriticWords(r *sim.Result) []string {
	v := r.Verdict
	if v.ClosedDendritic == nil || (v.Closed != nil && *v.ClosedDendritic > *v.Closed-3600) { // an hour is no difference
		return nil
	}
	return []string{fmt.Sprintf(couldShut, spokenTime(r.Start, *v.ClosedDendritic))}
}

// puddle is a standing volume too small to name a figure [m³].
const puddle = 2e-4

func iceWords(r *sim.Result, s System) []string {
	v := r.Verdict
	if v.Closed != nil || v.FirstIce == nil {
		return nil
	}
	line := "first " + spokenTime(r.Start, *v.FirstIce)
	worst, share := mostIce(r)
	if worst < 0 {
		return []string{line}
	}
	standing := "up to " + s.bothVolumes(r.Segments[worst].Standing) + " standing there"
	if r.Segments[worst].Standing < puddle {
		standing = "the little that stood there"
	}
	return []string{line + "; most in " + segmentWords(r, worst) + ", " + percent(share) +
		" of " + standing + "; ice in it for " +
		spokenDuration(r.Segments[worst].HoursWithIce*3600) + " in all"}
}

func reliefRanWords(r *sim.Result, s System) []string {
	v := r.Verdict
	if v.Relief == nil {
		return nil
	}
	line := plural(float64(v.ReliefRuns), "time") + ", first " + spokenTime(r.Start, *v.Relief)
	if v.HighestSnow == nil || v.ReliefMargin == nil {
		return []string{line + "; no snow record: taken as free of snow, which is the unsafe side"}
	}
	line += "; snow there up to " + s.bothLengths(*v.HighestSnow)
	if height, ok := lowestRelief(r); ok {
		line += ", opening at " + s.bothLengths(height)
	}
	if *v.ReliefMargin < 0 {
		return []string{line + ": under snow by " + s.bothLengths(-*v.ReliefMargin)}
	}
	return []string{line + ": " + s.bothLengths(*v.ReliefMargin) + " to spare"}
}

// lowestRelief is the height of the lowest relief opening above ground [m].
func lowestRelief(r *sim.Result) (height float64, ok bool) {
	height = math.Inf(1)
	for _, opening := range r.Layout.Reliefs {
		height = math.Min(height, opening.Height)
	}
	return height, len(r.Layout.Reliefs) > 0
}

func spilledWords(r *sim.Result, table *waterTable) []string {
	v := r.Verdict
	if v.Spill == nil {
		return nil
	}
	line := "first " + spokenTime(r.Start, *v.Spill) + ", beside the house"
	if v.SpillRuns > 0 {
		line = plural(float64(v.SpillRuns), "time") + ", " + line
	}
	if r.Ledger.Rim > 0 {
		line += "; " + table.amount(pathRim) + " out of the top of the standpipe"
	}
	return []string{line}
}

func floorWords(r *sim.Result, table *waterTable) []string {
	if r.Verdict.Floor == nil {
		return nil
	}
	return []string{"first " + spokenTime(r.Start, *r.Verdict.Floor) + "; " + table.amount(pathFloor) + " by the end"}
}
