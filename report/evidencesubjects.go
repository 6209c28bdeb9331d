package report

import (
	"fmt"
	"html/template"
	"slices"

	"winterline/sim/verify"
)

// evidenceSubject is a subject with its checks, by check and one by one.
type evidenceSubject struct {
	ID, Name, Words                    string
	Count, Missed, Worst, Median, Wide string
	Bad                                bool
	Trust                              []string // how many of each class, in the order of trustMeanings
	Strip                              template.HTML
	Groups                             []evidenceGroup
	Rows                               []evidenceRow
}

// evidenceGroup is a check of several rows, told by that which uses most of its tolerance.
type evidenceGroup struct {
	Check, Rows string
	Kind        string
	evidenceRow
}

// evidenceRow is one check. Error, tolerance and computed have the unit of the expected figure.
type evidenceRow struct {
	ID, Check, Given, Expected, Computed, Error, Limit, Used, Trust, Source string
	Bad                                                                     bool
}

// evidenceSubjects sorts checks by subject; what belongs to none, as a table that could not be read, comes last.
func evidenceSubjects(all []verify.Outcome) (out []evidenceSubject) {
	left := slices.Clone(all)
	for _, tale := range evidenceTales {
		var mine []verify.Outcome
		left = slices.DeleteFunc(left, func(o verify.Outcome) bool {
			if slices.Contains(tale.topics, o.Topic) {
				mine = append(mine, o)
				return true
			}
			return false
		})
		if len(mine) > 0 {
			out = append(out, newEvidenceSubject(tale, mine))
		}
	}
	if len(left) > 0 {
		out = append(out, newEvidenceSubject(evidenceTale{id: "others", name: "Others", words: "Checks that belong to no subject of this page."}, left))
	}
	return out
}

func newEvidenceSubject(tale evidenceTale, all []verify.Outcome) evidenceSubject {
	u := usesOf(all)
	s := evidenceSubject{
		ID: tale.id, Name: tale.name, Words: tale.words, Count: number(float64(len(all)), 0),
		Worst: shareUsed(u.worst.Ratio()), Median: shareUsed(u.median), Wide: "–", Strip: stripChart(tale.id, tale.name, all),
	}
	if u.typical > 0 {
		s.Wide = tolerance(u.typical)
	}
	missed := 0
	for _, o := range all {
		s.Rows = append(s.Rows, newEvidenceRow(o))
		if !o.Pass {
			missed++
		}
	}
	s.Missed, s.Bad = number(float64(missed), 0), missed > 0
	for _, c := range countedFacts(trustMeanings, all, func(o verify.Outcome) string { return o.Trust }) {
		s.Trust = append(s.Trust, c.Count)
	}
	for _, g := range verify.Groups(all) {
		row := newEvidenceRow(g.Worst)
		if g.More > 0 {
			row.Source += fmt.Sprintf(" (and %s)", plural(float64(g.More), "other source"))
		}
		rows := number(float64(g.Rows), 0)
		if g.Failed > 0 {
			rows += fmt.Sprintf(", %d missed", g.Failed)
		}
		s.Groups = append(s.Groups, evidenceGroup{g.Check, rows, g.Worst.Kind.String(), row})
	}
	return s
}

func newEvidenceRow(o verify.Outcome) evidenceRow {
	row := evidenceRow{
		ID: o.ID, Check: o.Check, Given: o.Given, Expected: withUnit(verify.Figure(o.Expected), o.Unit), Computed: verify.Figure(o.Computed),
		Error: threeDigits(o.Error), Limit: threeDigits(o.Limit), Used: shareUsed(o.Ratio()), Trust: o.Trust, Source: o.Source, Bad: !o.Pass,
	}
	if o.Err != nil {
		row.Computed, row.Error = "nothing", "–"
	}
	if row.Bad {
		row.Used = "missed"
	}
	return row
}

// withUnit sets a unit behind a figure; "-" is none.
func withUnit(figure, unit string) string {
	if unit == "" || unit == "-" {
		return figure
	}
	return figure + " " + unit
}
