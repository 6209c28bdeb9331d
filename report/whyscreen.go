package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"winterline/sim/answers"
)

// WhyAnswer is why a winter went as it did, for the screen and the files.
type WhyAnswer struct{ *answers.Why }

// farApart says whether something that the owner saw lies over two days from the simulation.
func (a *WhyAnswer) farApart() bool {
	return slices.ContainsFunc(a.Seen, func(m answers.SeenSet) bool { return m.Far() })
}

// How much the screen shows where not all is asked for.
const (
	mostClosures = 3
	mostRemedies = 8
	mostPairs    = 3
)

// whyPage gathers what is printed.
type whyPage struct {
	*sheet
	a   *WhyAnswer
	o   Options
	all bool
}

// WhyScreen prints what the owner saw, why it froze, which changes would have helped, and the caution. all: every closure
// and every change.
func WhyScreen(w io.Writer, a *WhyAnswer, o Options, all bool) error {
	p := &whyPage{o.sheet(), a, o, all}
	near := p.far()
	p.headline()
	r := a.Result
	most := sureFewer
	if all {
		most = sureMostEver
	}
	p.blocks(
		block{"House", houseWords(r, o)},
		block{"How sure", sureWordsRest(r.Layout.Guesses, a.Sure, o.System, most, sureInFull)},
		block{"Mind", warningWords(r)},
		block{"You saw", near},
	)
	p.closures()
	p.remedies()
	p.blocks(
		block{"", []string{""}},
		block{"Next", optional(o.Next)}, block{"Results", resultsWords(o.Results)}, block{"Caution", []string{caution}},
	)
	return p.print(w)
}

// WhyBrief prints the answer, where the results are and the caution.
func WhyBrief(w io.Writer, a *WhyAnswer, o Options) error {
	p := &whyPage{sheet: o.sheet(), a: a, o: o}
	if a.farApart() {
		p.first(whyFar)
	}
	p.headline()
	if best, words := bestWords(a.Remedies); best != nil {
		p.blocks(block{words, []string{changeRowOf(*best, a.Result.Layout, o.System).Change}})
	}
	p.blocks(block{"Results", resultsWords(o.Results)}, block{"Caution", []string{caution}})
	return p.print(w)
}

// bestWords gives the change, or the pair, that is enough, and its label on the screen; nil: none is.
func bestWords(r *answers.Remedies) (*answers.Remedy, string) {
	for _, list := range [][]answers.Remedy{r.Singles, r.Pairs} {
		if len(list) > 0 && list[0].Effect <= answers.KeepsDry {
			return &list[0], map[answers.Effect]string{answers.Prevents: "Would do", answers.KeepsDry: "Keeps dry"}[list[0].Effect]
		}
	}
	return nil, ""
}

// first prints a line that may be the page's first, which says of an invented house that it is one.
func (p *whyPage) first(words string) {
	if p.out.Len() == 0 && p.a.Result.Invented {
		words = "An invented house: " + words
	}
	p.line(words)
}

// far prints first of all what the owner saw and the simulation has two days apart or not at all, and gives what is told
// of the rest.
func (p *whyPage) far() (near []string) {
	var far []string
	for _, m := range p.a.Seen {
		words := seenWords(p.a.Why, m, p.o.System)
		if m.Far() {
			far = append(far, words...)
		} else {
			near = append(near, words...)
		}
	}
	if len(far) > 0 {
		p.first(whyFar)
		p.blocks(block{"You saw", far}, block{"", []string{""}})
	}
	return near
}

// headline says why it froze, and what became of line and basement.
func (p *whyPage) headline() {
	p.first(whyHeadline(p.a.Why, p.o.System))
	table := newWaterTable(p.a.Result, p.o.System)
	p.line(basementWords(p.a.Result, &table) + " " + lineWords(p.a.Result, &table))
}

// closures tell what brought about each time that it froze shut, one sentence a line.
func (p *whyPage) closures() {
	r := p.a.Result
	shown := len(r.Closures)
	if !p.all {
		shown = min(shown, mostClosures)
	}
	for i := range shown {
		p.blocks(block{"", []string{""}}, block{"Shut " + number(float64(i+1), 0), causeWords(r, i, p.o.System)})
	}
	if rest := len(r.Closures) - shown; rest > 0 {
		p.blocks(block{"", []string{fmt.Sprintf(whyMoreShut, plural(float64(rest), "time"))}})
	}
}

// remedies tell what changes would have done; where nothing froze, what else to look at.
func (p *whyPage) remedies() {
	if showsBlindSpots(p.a.Why) {
		p.gap()
		label := "Look at"
		for _, x := range blindSpots {
			p.blocks(block{label, []string{x.Cause + ": " + x.Look}})
			label = ""
		}
	}
	m := p.a.Remedies
	if !m.Froze {
		return
	}
	p.ranked(m.Singles)
	p.told(whyNothing, answers.Nothing)
	p.told(whyHarms, answers.Harms)
	p.barred()
	p.pairs()
	if words := reverseWords(p.a.Why, p.o.System); words != nil {
		p.blocks(block{"", []string{""}}, block{"Reverse", words})
	}
	if best, _ := bestWords(m); best != nil {
		p.blocks(block{"Write it", writeWords(best.Changes)})
	}
}

// ranked prints the table of single changes that do something, the best first.
func (p *whyPage) ranked(singles []answers.Remedy) {
	good := goodOf(singles)
	shown := len(good)
	if !p.all {
		shown = min(shown, mostRemedies)
	}
	p.gap()
	if heldAnyway(p.a.Remedies) {
		p.line(whyHeld)
	}
	p.table(whySingles, good[:shown])
	if rest := len(good) - shown; rest > 0 {
		p.indented(fmt.Sprintf(whyMoreRows, plural(float64(rest), "more change")), 2, 2)
	}
}

// heldAnyway says that the line never shut and the house stayed dry, without any change.
func heldAnyway(m *answers.Remedies) bool { return m.Base.Toll.Open() && m.Base.Toll.Dry() }

// goodOf are those that help; they stand first.
func goodOf(ranked []answers.Remedy) []answers.Remedy {
	n := 0
	for n < len(ranked) && ranked[n].Effect < answers.Nothing {
		n++
	}
	return ranked[:n]
}

// pairs prints those of two changes, where no single one is enough.
func (p *whyPage) pairs() {
	m := p.a.Remedies
	if len(m.Singles) == 0 || m.Singles[0].Effect == answers.Prevents || heldAnyway(p.a.Remedies) {
		return
	}
	good := goodOf(m.Pairs)
	p.gap()
	p.line(pairsHead(m))
	if !p.all {
		good = good[:min(mostPairs, len(good))]
	}
	if len(good) > 0 {
		p.table(whyPairs, good)
	}
}

// pairsHead says what comes of two changes together where no single one is enough.
func pairsHead(m *answers.Remedies) string {
	switch good := goodOf(m.Pairs); {
	case len(m.Pairs) == 0:
		return whyNoSingle
	case len(good) > 0 && good[0].Effect == answers.Prevents:
		return whyTwo
	}
	return whyNoPair
}

// told prints the single changes that have one effect: none, or harm.
func (p *whyPage) told(head string, effect answers.Effect) {
	p.listed(head, toldRemedies(p.a, effect, p.o.System))
}

// toldRemedies are the single changes that have one effect, none or harm, in the order of the ranking.
func toldRemedies(a *WhyAnswer, effect answers.Effect, s System) (lines []string) {
	for _, x := range a.Remedies.Singles {
		if x.Effect != effect {
			continue
		}
		row := changeRowOf(x, a.Result.Layout, s)
		words := row.Change
		if effect == answers.Harms {
			words += " (line " + row.Line + "; " + besideWords(x.Toll, s.bothVolumes)
			if x.Margin != nil {
				words += "; " + row.Close
			}
			words += ")"
		}
		lines = append(lines, words)
	}
	return lines
}

// barred prints the changes that are not possible here, with the reason.
func (p *whyPage) barred() {
	var lines []string
	for _, c := range p.a.Remedies.Barred {
		lines = append(lines, changeWords(c, p.a.Result.Layout, p.o.System)+": "+barWords(c))
	}
	p.listed(whyBarred, lines)
}

// listed prints lines under a head, indented.
func (p *whyPage) listed(head string, lines []string) {
	if len(lines) == 0 {
		return
	}
	p.line(head)
	for _, words := range lines {
		p.indented(words, 2, 4)
	}
}

// The columns of the table of changes behind the first, in the narrowest window and where there is room; what is longer
// goes on in the next line.
var (
	remedyNarrow = [...]int{11, 11, 14}
	remedyWide   = [...]int{13, 16, 25}
)

const (
	remedyGap  = "  " // between columns
	remedyRoom = 88   // window in which all columns but the first have the room that they want
)

// remedyWidths are the columns of the table in the page's window; the first has what the others leave.
func (p *whyPage) remedyWidths() []int {
	share := min(float64(p.width-narrowest)/(remedyRoom-narrowest), 1)
	widths := []int{p.width}
	for i, narrow := range remedyNarrow {
		width := narrow + int(share*float64(remedyWide[i]-narrow))
		widths = append(widths, width)
		widths[0] -= width + len(remedyGap)
	}
	return widths
}

// table prints remedies under a head, with the winter as it was for comparison.
func (p *whyPage) table(head string, remedies []answers.Remedy) {
	p.row(head, "line", "water elsewhere", "how close (line)")
	base := changeRowOf(p.a.Remedies.Base, p.a.Result.Layout, p.o.System)
	p.row("  "+whyAsItWas, base.Line, base.Beside, base.Close)
	for _, x := range remedies {
		row := changeRowOf(x, p.a.Result.Layout, p.o.System)
		p.row("  "+row.Change, row.Line, row.Beside, row.Close)
		if heldAnyway(p.a.Remedies) && x.Effect == answers.Helps {
			row.Effect = whyRoom
		}
		words := row.Effect + "; " + fmt.Sprintf(whyTakes, row.Takes)
		if risks := riskWords(x, p.o.System); len(risks) > 0 {
			words += ". " + strings.Join(risks, " ")
		}
		p.indented(words, 6, 6)
	}
}

// row prints one row of the table.
func (p *whyPage) row(cells ...string) {
	var wrapped [][]string
	height := 0
	widths := p.remedyWidths()
	for i, cell := range cells {
		indent := ""
		if i == 0 && strings.HasPrefix(cell, " ") {
			indent = "  "
		}
		lines := wrap(strings.TrimSpace(cell), widths[i]-len(indent))
		for j := range lines {
			lines[j] = indent + lines[j]
		}
		wrapped = append(wrapped, lines)
		height = max(height, len(lines))
	}
	for j := range height {
		line := ""
		for i, lines := range wrapped {
			text := ""
			if j < len(lines) {
				text = lines[j]
			}
			line += pad(text, widths[i]) + remedyGap
		}
		p.out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}
