package verify

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"strconv"
	"text/tabwriter"
)

// Group sums up the outcomes of one check.
type Group struct {
	Check  string
	Rows   int
	Failed int
	Worst  Outcome // the one with the largest error over limit; a failure comes first
	Source string  // of Worst
	More   int     // further sources
}

// Ratio returns how much of its limit an outcome's error uses up [-]; +Inf where nothing
// was computed.
func (o Outcome) Ratio() float64 {
	switch {
	case o.Err != nil || math.IsNaN(o.Error):
		return math.Inf(1)
	case o.Error == 0:
		return 0
	}
	return o.Error / o.Limit
}

// Groups sums up outcomes by check, in order of first appearance.
func Groups(outcomes []Outcome) []Group {
	var groups []Group
	place := map[string]int{}
	sources := map[string]map[string]bool{}
	for _, o := range outcomes {
		i, known := place[o.Check]
		if !known {
			i = len(groups)
			place[o.Check] = i
			sources[o.Check] = map[string]bool{}
			groups = append(groups, Group{Check: o.Check, Worst: o})
		}
		g := &groups[i]
		g.Rows++
		if !o.Pass {
			g.Failed++
		}
		if o.Ratio() > g.Worst.Ratio() {
			g.Worst = o
		}
		sources[o.Check][o.Source] = true
		g.Source, g.More = g.Worst.Source, len(sources[o.Check])-1
	}
	return groups
}

// WriteTable prints the outcomes: one line a check with its worst row, or with all set
// one line a row; what further figures some have beside them; then the failures with their reasons and a closing count.
func WriteTable(w io.Writer, outcomes []Outcome, all bool) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	if all {
		writeRows(t, outcomes)
	} else {
		writeGroups(t, Groups(outcomes))
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if err := writeBeside(w, outcomes); err != nil {
		return err
	}
	return WriteMissed(w, outcomes)
}

// WriteMissed prints the outcomes that missed, with their reasons, and a closing count.
func WriteMissed(w io.Writer, outcomes []Outcome) error {
	failed := 0
	for _, o := range outcomes {
		if o.Pass {
			continue
		}
		failed++
		if _, err := fmt.Fprintf(w, "MISSED %s %s: %s\n", o.ID, o.Check, o.Reason()); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintf(w, "%d checks, %d missed\n", len(outcomes), failed)
	return err
}

func writeGroups(w io.Writer, groups []Group) {
	fmt.Fprintln(w, "check\trows\tmissed\tworst row\texpected\tcomputed\terror\tlimit\tunit\terror/limit\ttrust\tsource of the worst row")
	for _, g := range groups {
		source := g.Source
		if g.More > 0 {
			source += fmt.Sprintf(" (and %d more)", g.More)
		}
		o := g.Worst
		fmt.Fprintf(w, "%s\t%d\t%d\t%s\t%s\t%s\t%s\t%s\t%s\t%.2f\t%s\t%s\n", g.Check, g.Rows, g.Failed, o.ID,
			Figure(o.Expected), Figure(o.Computed), Figure(o.Error), Figure(o.Limit), o.Unit, o.Ratio(), o.Trust, source)
	}
}

func writeRows(w io.Writer, outcomes []Outcome) {
	fmt.Fprintln(w, "row\tcheck\texpected\tcomputed\terror\tlimit\tunit\tresult\ttrust\tsource")
	for _, o := range outcomes {
		result := "ok"
		if !o.Pass {
			result = "MISSED"
		}
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", o.ID, o.Check,
			Figure(o.Expected), Figure(o.Computed), Figure(o.Error), Figure(o.Limit), o.Unit, result, o.Trust, o.Source)
	}
}

// writeBeside prints the outcomes that have further figures to be read beside them.
func writeBeside(w io.Writer, outcomes []Outcome) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	head := "\nside by side\trow\texpected\tcomputed\tunit\tand\n"
	for _, o := range outcomes {
		if o.Beside != "" {
			fmt.Fprintf(t, "%s%s\t%s\t%s\t%s\t%s\t%s\n", head, o.Check, o.ID, Figure(o.Expected), Figure(o.Computed), o.Unit, o.Beside)
			head = ""
		}
	}
	return t.Flush()
}

// Reason says why an outcome missed.
func (o Outcome) Reason() string {
	if o.Err != nil {
		return o.Err.Error()
	}
	return fmt.Sprintf("expected %s %s, computed %s, error %s over the limit %s",
		Figure(o.Expected), cmp.Or(o.Unit, "-"), Figure(o.Computed), Figure(o.Error), Figure(o.Limit))
}

// Figure prints six significant digits, −0 as 0.
func Figure(v float64) string { return strconv.FormatFloat(v+0, 'g', 6, 64) }
