package report

import (
	"cmp"
	"fmt"
	"html/template"
	"io"
	"math"
	"slices"
	"strings"

	"winterline/sim/verify"
)

// Evidence is all that `winterline verify` computes, for the page that tells of it.
type Evidence struct {
	Checks   []verify.Outcome
	Study    []verify.ConvergenceRow
	Measured []verify.MeasuredRow
	Version  string // of the program
}

// EvidenceFile gives the page on how far the program is checked, under a name: it needs no other file.
func EvidenceFile(name string, e Evidence) File {
	return File{name, func(w io.Writer) error { return writeEvidence(w, e) }}
}

func writeEvidence(w io.Writer, e Evidence) error {
	style, err := pageStyle()
	if err != nil {
		return err
	}
	t, err := pageTemplate("evidence.html.tmpl")
	if err != nil {
		return err
	}
	return t.Execute(w, newEvidencePage(style, e))
}

// evidencePage is what the template shows; every word of it is ready.
type evidencePage struct {
	Style          template.CSS
	Title, Heading string
	State          string // chooses the accent
	Badge          string
	Verdict, Then  string
	Summary        []string
	Numbers        []pageNumber
	Trust, Kinds   []countedFact
	Subjects       []evidenceSubject
	Missed         []pageFact // every check and figure that missed
	Study          evidenceStudy
	Measured       evidenceMeasured
	Neglected      []neglected
	Leanings       string // of what is neglected, counted
	Never          []pageFact
	Version        string
}

// countedFact is a class of checks, what it means and how many checks are of it.
type countedFact struct{ Name, Words, Count string }

func newEvidencePage(style template.CSS, e Evidence) *evidencePage {
	p := &evidencePage{
		Style: style, Title: "How far winterline is checked", Heading: "How far winterline is checked", Version: e.Version,
		Subjects: evidenceSubjects(e.Checks), Study: newEvidenceStudy(e.Study), Measured: newEvidenceMeasured(e.Measured),
		Neglected: neglectedThings, Leanings: leaningsCounted(), Never: neverCompared,
		Trust: countedFacts(trustMeanings, e.Checks, func(o verify.Outcome) string { return o.Trust }),
		Kinds: countedFacts(kindMeanings, e.Checks, func(o verify.Outcome) string { return o.Kind.String() }),
	}
	for _, o := range e.Checks {
		if !o.Pass {
			p.Missed = append(p.Missed, pageFact{strings.TrimSpace(o.ID + " " + o.Check), sentence(o.Reason())})
		}
	}
	p.State, p.Badge = "clear", "No check is missed"
	if len(p.Missed) > 0 || p.Study.Missed > 0 {
		p.State, p.Badge = "flooded", "Some are missed"
	}
	p.Verdict = fmt.Sprintf("%s, %s missed", plural(float64(len(e.Checks)), "check"), noneOr(len(p.Missed)))
	p.Then = p.Study.Verdict + " " + p.Measured.Verdict
	p.Missed = append(p.Missed, p.Study.MissedRows...)
	p.Summary, p.Numbers = evidenceSummary(e.Checks), evidenceNumbers(e, p)
	return p
}

// noneOr is a count in words that fit before "missed".
func noneOr(n int) string {
	if n == 0 {
		return "none"
	}
	return number(float64(n), 0)
}

// countedFacts set beside each class how many checks are of it.
func countedFacts(classes []pageFact, all []verify.Outcome, classOf func(verify.Outcome) string) (out []countedFact) {
	for _, c := range classes {
		n := 0
		for _, o := range all {
			if classOf(o) == c.Name {
				n++
			}
		}
		out = append(out, countedFact{capital(c.Name), c.Words, number(float64(n), 0)})
	}
	return out
}

// evidenceSummary says in plain sentences what the checks come to.
func evidenceSummary(all []verify.Outcome) []string {
	if len(all) == 0 {
		return nil
	}
	u := usesOf(all)
	lines := []string{
		fmt.Sprintf("Each check is a value that a source gives, set beside the same value as the program computes it at the moment this page is written. Half of them use %s of their tolerance or less; the one that comes nearest to its tolerance is %s (%s), with %s.",
			shareUsed(u.median), u.worst.ID, u.worst.Check, shareUsed(u.worst.Ratio())),
	}
	if u.typical > 0 {
		lines = append(lines, fmt.Sprintf("A tolerance can be wide, so that little is used of it. Of the checks that are not temperatures, half have one of %s of the expected value or less.", tolerance(u.typical)))
	}
	if u.wide > 0 {
		lines = append(lines, fmt.Sprintf("In %s the tolerance is more than a tenth of the expected value, which shows little; the widest is that of %s (%s), %s.",
			plural(float64(u.wide), "check"), u.widest.ID, u.widest.Check, tolerance(width(u.widest))))
	}
	kinds := map[verify.Kind]int{}
	for _, o := range all {
		kinds[o.Kind]++
	}
	return append(lines, fmt.Sprintf("The number of checks is no measure of trust. %s of them run the simulation; the others hold single formulas (%s), stored figures (%s) and yardsticks that no run uses (%s).",
		number(float64(kinds[verify.Simulation]), 0), number(float64(kinds[verify.Relation]), 0), number(float64(kinds[verify.Stored]), 0), number(float64(kinds[verify.Reference]), 0)))
}

// evidenceNumbers are the tiles under the verdict.
func evidenceNumbers(e Evidence, p *evidencePage) []pageNumber {
	if len(e.Checks) == 0 {
		return nil
	}
	u := usesOf(e.Checks)
	missed := len(p.Missed) - len(p.Study.MissedRows)
	return []pageNumber{
		{Name: "Checks", Value: number(float64(len(e.Checks)), 0), Notes: []string{noneOr(missed) + " missed"}, Bad: missed > 0},
		{Name: "Of their tolerance they use", Value: shareUsed(u.median), Notes: []string{"half of them that or less; at most " + shareUsed(u.worst.Ratio())}},
		{Name: "Expected values read in a source", Value: p.Trust[0].Count, Notes: []string{p.Trust[1].Count + " computed by other means", p.Trust[2].Count + " from memory"}},
		{Name: "Figures computed more finely", Value: number(float64(len(e.Study)), 0), Notes: []string{noneOr(p.Study.Missed) + " moved by more than its limit"}, Bad: p.Study.Missed > 0},
		{Name: "Limits against thermometers", Value: number(float64(p.Measured.Limited), 0), Notes: []string{noneOr(len(p.Measured.Misses)) + " missed, each with its reason"}, Bad: len(p.Measured.Misses) > 0},
	}
}

// uses is how much checks use of their tolerances.
type uses struct {
	worst   verify.Outcome
	median  float64 // of the shares used [-]
	typical float64 // median tolerance over expected value [-], temperatures left out; 0: there is none
	wide    int     // checks whose tolerance is more than a tenth of the expected value, temperatures left out
	widest  verify.Outcome
}

// wideTolerance is the tolerance over expected value beyond which a check shows little [-].
const wideTolerance = 0.1

// width is the tolerance over the expected value [-]; 0 of temperatures and of 0, where it says nothing.
func width(o verify.Outcome) float64 {
	if o.Unit == "°C" || o.Unit == "°F" || o.Expected == 0 || math.IsNaN(o.Expected) {
		return 0
	}
	return o.Limit / math.Abs(o.Expected)
}

func usesOf(all []verify.Outcome) uses {
	var shares, widths []float64
	u := uses{worst: all[0]}
	for _, o := range all {
		shares = append(shares, o.Ratio())
		if o.Ratio() > u.worst.Ratio() {
			u.worst = o
		}
		w := width(o)
		if w > 0 {
			widths = append(widths, w)
		}
		if w > wideTolerance {
			u.wide++
		}
		if w > width(u.widest) {
			u.widest = o
		}
	}
	u.median, u.typical = median(shares), median(widths)
	return u
}

// median is the lower of the two in the middle; 0 of nothing.
func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	slices.SortFunc(values, func(a, b float64) int { return cmp.Compare(a, b) })
	return values[(len(values)-1)/2]
}

// shareUsed prints how much of a tolerance is used, to two significant digits; where nothing was computed, "all and more".
func shareUsed(share float64) string {
	switch {
	case math.IsInf(share, 0) || math.IsNaN(share):
		return "all and more"
	case share > 0 && share < 0.001:
		return "under 0.1 %"
	}
	return twoDigits(100*share) + " %"
}

// tolerance prints a tolerance over the expected value.
func tolerance(share float64) string {
	if share < 1e-6 {
		return "under 0.0001 %"
	}
	return twoDigits(100*share) + " %"
}

// leaningsCounted says of how many things which way they lean.
func leaningsCounted() string {
	n := map[leaning]int{}
	for _, x := range neglectedThings {
		n[x.Leans]++
	}
	return fmt.Sprintf("Of the %d things below %d lean to the safe side, %d to the unsafe side, %d to either, and %d hardly matter.",
		len(neglectedThings), n[leansSafe], n[leansUnsafe], n[leansEither], n[leansHardly])
}
