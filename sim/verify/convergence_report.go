package verify

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"text/tabwriter"
)

// WriteConvergence prints the study: one line a quantity of each case, that of the part which uses
// most of its limit, or with all set every part; then what missed, and what it shows in a sentence.
func WriteConvergence(w io.Writer, rows []ConvergenceRow, all bool) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprint(t, "case\tquantity\tof\tunit\tdefault\tfinest\toff the finest: default")
	for _, f := range finenesses[:len(finenesses)-1] {
		fmt.Fprintf(t, "\t%s", f.name)
	}
	fmt.Fprintln(t, "\tlimit\tresult")
	told := rows
	if !all {
		told = worstParts(rows)
	}
	for _, r := range told {
		if r.Err == nil {
			r.write(t)
		}
	}
	if err := t.Flush(); err != nil {
		return err
	}
	return WriteConvergenceMissed(w, rows)
}

// WriteConvergenceMissed prints what missed, and what the study shows in a sentence.
func WriteConvergenceMissed(w io.Writer, rows []ConvergenceRow) error {
	missed := 0
	for _, r := range rows {
		if !r.Pass {
			missed++
			fmt.Fprintf(w, "MISSED %s\n", r.Reason())
		}
	}
	_, err := fmt.Fprintf(w, "%s\n%d figures, %d missed\n", Shows(rows), len(rows), missed)
	return err
}

// write prints a row: values, then differences from the finest.
func (r ConvergenceRow) write(w io.Writer) {
	result := "ok"
	if !r.Pass {
		result = "MISSED"
	}
	fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t%s", r.Case, r.Quantity, r.Part, r.Unit,
		r.Value(r.Default), r.Value(r.Finest()), r.Difference(r.Default))
	for _, v := range r.Finer[:len(r.Finer)-1] {
		fmt.Fprintf(w, "\t%s", r.Difference(v))
	}
	fmt.Fprintf(w, "\t%s\t%s\n", r.Value(r.Limit), result)
}

// Value prints a value of the row; "never" where it did not come to it.
func (r ConvergenceRow) Value(v float64) string {
	if math.IsNaN(v) {
		return "never"
	}
	return strconv.FormatFloat(v, 'f', r.digits, 64)
}

// Difference prints how far a value lies off the finest, with its sign.
func (r ConvergenceRow) Difference(v float64) string {
	off := r.Off(v)
	switch text := strconv.FormatFloat(off, 'f', r.digits, 64); {
	case math.IsInf(off, 0):
		return "only one of them"
	case text == strconv.FormatFloat(0, 'f', r.digits, 64), text == "-"+strconv.FormatFloat(0, 'f', r.digits, 64):
		return "0"
	case off > 0:
		return "+" + text
	default:
		return text
	}
}

// name is what a row is of.
func (r ConvergenceRow) name() string {
	text := r.Quantity + " (" + r.Case
	if r.Part != "" {
		text += ", " + r.Part
	}
	return text + ")"
}

// Reason says why a row missed.
func (r ConvergenceRow) Reason() string {
	if r.Err != nil {
		return r.Case + ": " + r.Err.Error()
	}
	return fmt.Sprintf("%s: %s %s by default, %s when finest, limit %s", r.name(),
		r.Value(r.Default), r.Unit, r.Value(r.Finest()), r.Value(r.Limit))
}

// worstParts keeps of each quantity of a case the part that uses most of its limit.
func worstParts(rows []ConvergenceRow) []ConvergenceRow {
	var worst []ConvergenceRow
	place := map[[2]string]int{}
	for _, r := range rows {
		key := [2]string{r.Case, r.Quantity}
		i, known := place[key]
		switch {
		case !known:
			place[key] = len(worst)
			worst = append(worst, r)
		case r.Ratio() > worst[i].Ratio():
			worst[i] = r
		}
	}
	return worst
}

// Shows is what the study shows, in a sentence.
func Shows(rows []ConvergenceRow) string {
	var worst ConvergenceRow
	for i, r := range rows {
		if i == 0 || r.Ratio() > worst.Ratio() {
			worst = r
		}
	}
	switch {
	case len(rows) == 0:
		return "Nothing was computed."
	case worst.Err != nil:
		return "Not every case could be computed, so nothing is shown."
	case !Converged(rows):
		return fmt.Sprintf("A run is computed too coarsely for %s: computed more finely it moves by more than its limit, which is how closely people need to know it.", worst.name())
	}
	return fmt.Sprintf("Computed more finely, no figure moves by more than %.0f %% of its limit, which is how closely people need to know it; nearest to its limit comes %s, which moves by %s %s of %s.",
		100*worst.Ratio(), worst.name(), worst.Value(math.Abs(worst.Off(worst.Default))), worst.Unit, worst.Value(worst.Finest()))
}
