package report

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"winterline/sim"
	"winterline/sim/answers"
)

// This file makes what report.html tells of an answer of `why` beside what it tells of any winter.

// pageRemedies is the section on changes.
type pageRemedies struct {
	Answer  string      // in a sentence: what is enough, or that nothing is
	Singles []changeRow // the winter as it was, then each change that helps; nil: none does
	Nothing []string    // changes without effect
	Harms   []string    // changes that make it worse
	Barred  []pageFact  // changes that are not possible here
	Pairs   []changeRow // two changes, as Singles
	Reverse []string    // what the winter would have been without the relief opening
	Write   []string    // into the case's files, for the best change; nil: none is enough
}

// remediesOf are those of an answer; nil: none was asked for, or nothing froze.
func remediesOf(a *WhyAnswer, s System) *pageRemedies {
	if a == nil || !a.Remedies.Froze {
		return nil
	}
	m, layout := a.Remedies, a.Result.Layout
	out := &pageRemedies{Answer: remediesAnswer(a, s), Singles: pageRows(a, goodOf(m.Singles), s), Nothing: toldRemedies(a, answers.Nothing, s),
		Harms: toldRemedies(a, answers.Harms, s), Reverse: reverseWords(a.Why, s)}
	pairs := goodOf(m.Pairs)
	out.Pairs = pageRows(a, pairs[:min(mostPairs, len(pairs))], s)
	for _, list := range [][]string{out.Nothing, out.Harms} {
		for i := range list {
			list[i] = capital(list[i])
		}
	}
	for _, c := range m.Barred {
		out.Barred = append(out.Barred, pageFact{capital(changeWords(c, layout, s)), sentence(barWords(c))})
	}
	if best, _ := bestWords(m); best != nil {
		out.Write = writeWords(best.Changes)
	}
	return out
}

// pageRows are the rows of a table of changes, below the winter as it was.
func pageRows(a *WhyAnswer, remedies []answers.Remedy, s System) []changeRow {
	if len(remedies) == 0 {
		return nil
	}
	base := changeRowOf(a.Remedies.Base, a.Result.Layout, s)
	rows := []changeRow{changeRow{Change: capital(whyAsItWas), Line: base.Line, Beside: besideWords(a.Remedies.Base.Toll, s.bothVolumes), Close: base.Close}.unbroken()}
	for _, x := range remedies {
		rows = append(rows, pageRemedy(a, x, s))
	}
	return rows
}

// pageRemedy is one row of the table, with new risks behind what the change does.
func pageRemedy(a *WhyAnswer, x answers.Remedy, s System) changeRow {
	row := changeRowOf(x, a.Result.Layout, s)
	if heldAnyway(a.Remedies) && x.Effect == answers.Helps {
		row.Effect = whyRoom
	}
	row.Change, row.Takes, row.Beside = capital(row.Change), capital(row.Takes), besideWords(x.Toll, s.bothVolumes)
	row.Effect = strings.Join(append([]string{sentence(row.Effect)}, riskWords(x, s)...), " ")
	return row.unbroken()
}

// beforeUnit is the space between a figure and what it counts.
var beforeUnit = regexp.MustCompile(`(\d) (°[CF]|gal|L|in|ft|mm|cm|m|days?|hours?|%|mph|BTU|W|psi|MPa)`)

// unbroken keeps every figure on one line with its unit, for narrow columns.
func unbroken(words string) string { return beforeUnit.ReplaceAllString(words, "$1\u00a0$2") }

// unbroken is the row with every figure kept so.
func (row changeRow) unbroken() changeRow {
	for _, cell := range []*string{&row.Change, &row.Line, &row.Beside, &row.Close, &row.Effect} {
		*cell = unbroken(*cell)
	}
	if row.Close == "-" {
		row.Close = ""
	}
	return row
}

// remediesAnswer says in a sentence what is enough.
func remediesAnswer(a *WhyAnswer, s System) string {
	m := a.Remedies
	if best, _ := bestWords(m); best != nil {
		form := whyDoes
		if best.Effect == answers.KeepsDry {
			form = whyKeepsDry
		}
		return fmt.Sprintf(form, capital(changeRowOf(*best, a.Result.Layout, s).Change))
	}
	if heldAnyway(m) {
		return whyHeld
	}
	return pairsHead(m)
}

// farWarning says before all else that what the owner saw and the simulation lie far apart, with what would mend it.
func farWarning(a *WhyAnswer) []string {
	if a == nil || !a.farApart() {
		return nil
	}
	return []string{unshout(whyFar)}
}

// pageSeen is what the owner saw beside the simulation, with the guesses that would bring the two nearer where they were
// tried.
func pageSeen(r *sim.Result, o PageOptions) []string {
	if o.Why == nil {
		return seenSentences(r)
	}
	var far, near []string
	for _, m := range o.Why.Seen {
		words := strings.Join(seenWords(o.Why.Why, m, o.Screen.System), " ")
		if m.Far() {
			far = append(far, words)
		} else {
			near = append(near, words)
		}
	}
	return slices.Concat(far, near)
}

// pageBlind is what no simulation of ice sees, where something other than ice may have wetted the basement.
func pageBlind(a *WhyAnswer) []blindSpot {
	if a == nil || !showsBlindSpots(a.Why) {
		return nil
	}
	out := slices.Clone(blindSpots)
	for i := range out {
		out[i] = blindSpot{capital(out[i].Cause), sentence(out[i].Look)}
	}
	return out
}
