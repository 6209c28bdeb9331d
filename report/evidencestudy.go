package report

import (
	"fmt"
	"math"

	"winterline/sim/verify"
)

// evidenceStudy is the convergence study on the evidence page.
type evidenceStudy struct {
	Verdict    string
	Shows      string // what it shows, in a sentence
	Cancel     string // where errors of layers and steps offset each other
	Finer      []string
	Cases      []evidenceCase
	Missed     int
	MissedRows []pageFact
}

// evidenceCase is a case of the study.
type evidenceCase struct {
	Name, Words, Count string
	Rows               []evidenceFigure
}

// evidenceFigure is one figure of a case.
type evidenceFigure struct {
	Quantity, Part, Default, Finest, Off string
	Finer                                []string // how far the other refinements lie off the finest
	Limit, Used                          string
	Bad                                  bool
}

func newEvidenceStudy(rows []verify.ConvergenceRow) evidenceStudy {
	names := verify.FinenessNames()
	s := evidenceStudy{Finer: names[:len(names)-1], Shows: verify.Shows(rows), Cancel: cancelling(rows)}
	place := map[string]int{}
	for _, r := range rows {
		i, known := place[r.Case]
		if !known {
			i = len(s.Cases)
			place[r.Case] = i
			s.Cases = append(s.Cases, evidenceCase{Name: capital(r.Case), Words: convergenceTales[r.Case]})
		}
		s.Cases[i].Rows = append(s.Cases[i].Rows, newEvidenceFigure(r, len(s.Finer)))
		if !r.Pass {
			s.Missed++
			s.MissedRows = append(s.MissedRows, pageFact{"Convergence", sentence(r.Reason())})
		}
	}
	for i := range s.Cases {
		s.Cases[i].Count = plural(float64(len(s.Cases[i].Rows)), "figure")
	}
	s.Verdict = fmt.Sprintf("Computed with finer layers and steps, %s of %s moves by more than people need to know it.", noneOr(s.Missed), plural(float64(len(rows)), "figure"))
	return s
}

// cancelling says for how many figures refining one thing alone leads farther off than the default lies, by a tenth of the
// limit or more: errors of layers and of steps then offset each other by default.
func cancelling(rows []verify.ConvergenceRow) string {
	n, worst := 0, 0.0
	var where verify.ConvergenceRow
	for _, r := range rows {
		if r.Err != nil {
			return ""
		}
		most := 0.0
		for _, v := range r.Finer[:len(r.Finer)-1] {
			most = math.Max(most, math.Abs(r.Off(v)))
		}
		if most < math.Abs(r.Off(r.Default))+r.Limit/10 {
			continue
		}
		n++
		if used := most / r.Limit; used > worst {
			worst, where = used, r
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("For %d figures one refinement alone leads farther off than the default lies, by a tenth of the limit or more: errors of layers and of steps partly offset each other there, so that the default looks better than it is. The farthest lies off by %s of the limit (%s: %s, %s).",
		n, shareUsed(worst), lowerFirst(where.Case), where.Quantity, where.Part)
}

func newEvidenceFigure(r verify.ConvergenceRow, finer int) evidenceFigure {
	if r.Err != nil {
		return evidenceFigure{Quantity: "nothing was computed", Finer: make([]string, finer), Used: "missed", Bad: true}
	}
	f := evidenceFigure{
		Quantity: r.Quantity, Part: r.Part, Default: withUnit(r.Value(r.Default), r.Unit), Finest: r.Value(r.Finest()),
		Off: r.Difference(r.Default), Limit: r.Value(r.Limit), Used: shareUsed(r.Ratio()), Bad: !r.Pass,
	}
	for k := range finer {
		f.Finer = append(f.Finer, r.Difference(r.Finer[k]))
	}
	if f.Bad {
		f.Used = "missed"
	}
	return f
}
