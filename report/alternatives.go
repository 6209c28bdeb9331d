package report

import (
	"io"
	"strings"

	"winterline/sim"
)

// Alternative is one of several runs between which nobody can choose yet.
type Alternative struct {
	Name   string // "seldom"
	Plan   string // "every 24 h for 45 s"
	Result *sim.Result
}

// UnknownCycles is the warning that belongs to a result whose pump cycles were supposed;
// shown is the index of the alternative whose result it is.
func UnknownCycles(all []Alternative, shown int) sim.Warning {
	var runs []string
	for _, a := range all {
		runs = append(runs, a.Name+" ("+a.Plan+"): "+a.Result.Verdict.State.String())
	}
	return sim.Warning{Kind: "unknown-cycles", Sentence: "Nothing says how often the pump runs. Three schedules were supposed: " +
		strings.Join(runs, "; ") + ". These results are for the " + all[shown].Name + " one."}
}

// Alternatives prints the verdict of each run in turn.
func Alternatives(w io.Writer, all []Alternative, o Options) error {
	p := o.sheet()
	p.line("HOW OFTEN THE PUMP RUNS IS NOT KNOWN. The winter was run with it seldom, usual and often:")
	for _, a := range all {
		p.blocks(block{capital(a.Name), []string{a.Plan, headline(a.Result, o.System)}})
	}
	p.gap()
	return p.print(w)
}

// Brief prints the verdict, where the results are and the caution.
func Brief(w io.Writer, r *sim.Result, o Options) error {
	p := o.sheet()
	p.line(headline(r, o.System))
	p.blocks(block{"Results", optional(o.Results)}, block{"Caution", []string{caution}})
	return p.print(w)
}

// SupposedCycles is the warning on an answer for one supposed schedule of the pump.
func SupposedCycles(s sim.Supposed) sim.Warning {
	return sim.Warning{Kind: "unknown-cycles", Sentence: "Nothing says how often the pump runs: " + s.Plan + " is supposed."}
}
