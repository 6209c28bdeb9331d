package verify

import (
	"context"
	"fmt"
	"math"
	"strings"
)

// Outcome is one check: the value that a source gives beside the one computed afresh.
type Outcome struct {
	ID       string
	Check    string // name of what is checked; rows of one name share an evaluator
	Source   string
	Trust    string // "read", "computed" or "from memory"
	Expected float64
	Computed float64
	Error    float64 // |computed − expected|
	Limit    float64 // largest Error that passes
	Unit     string  // of the four figures above
	Pass     bool
	Beside   string // other figures for the same thing, to read beside the two; mostly empty
	Err      error  // why nothing could be computed; nil otherwise
	Topic    string // name of its table, without the ending
	Given    string // inputs by the table's columns, whose names end in their unit: "diameter_m=0.05, flow_m3_s=0.001"
	Kind     Kind
}

// evaluator computes what a row of a table checks.
type evaluator func(ctx context.Context, r *record) (float64, error)

// topic is one table with the evaluators of its checks.
type topic struct {
	table  string // CSV of rows in check form: id, check, inputs, expected, unit, tol_abs, tol_rel, source, trust
	checks map[string]evaluator
	// outcomes replaces table and checks where one computation answers many rows, such as
	// a run of the cell solver against all times of a freezing case.
	outcomes func(ctx context.Context) []Outcome
	given    []string // its columns that are inputs; nil: all but those that every table of checks has
	kind     Kind     // of the rows; one by one where a reference is among them (kindOf)
}

// topics lists all tables in the order in which they are reported. A new table goes
// here, its evaluators into a file of its own.
var topics = []topic{
	{table: "water.csv", checks: waterChecks},
	{table: "air.csv", checks: airChecks},
	{table: "film.csv", checks: filmChecks},
	{table: "inside.csv", checks: insideChecks},
	{table: "sky.csv", checks: skyChecks},
	{table: "conduction.csv", checks: conductionChecks},
	{table: "pipe.csv", checks: pipeChecks, kind: Stored},
	{table: "section.csv", checks: sectionChecks},
	{table: "soil.csv", checks: soilChecks, kind: Stored},
	{table: "snow.csv", checks: snowChecks},
	{table: "snowpack.csv", checks: snowpackChecks},
	{table: "ground.csv", checks: groundChecks},
	{table: "cooling.csv", checks: coolingChecks},
	{table: "slush.csv", checks: slushChecks},
	{table: "front.csv", checks: frontChecks},
	{table: "friction.csv", checks: frictionChecks},
	{table: "gravity.csv", checks: gravityChecks},
	{table: "opening.csv", checks: openingChecks},
	{table: "infiltration.csv", checks: infiltrationChecks},
	{table: "blockage.csv", checks: blockageChecks},
	{table: "heave.csv", checks: heaveChecks},
	{table: "sump.csv", checks: sumpChecks},
	{table: "default.csv", checks: defaultChecks, kind: Stored},
	{table: "chance.csv", checks: chanceChecks},
	{table: "radial_freeze.csv", outcomes: radialOutcomes, given: cellGiven, kind: Simulation},
	{table: "inward_cylinder.csv", outcomes: inwardOutcomes, given: inwardGiven, kind: Simulation},
	{table: "ground_column.csv", outcomes: groundColumnOutcomes, given: columnGiven, kind: Simulation},
	{table: "column_season.csv", checks: columnChecks, kind: Simulation},
	{table: "column_step.csv", outcomes: stepOutcomes, kind: Simulation},
	{table: "column_wave.csv", outcomes: waveOutcomes, kind: Simulation},
	{table: "three_zones.csv", checks: zoneChecks},
	{table: "reference_line.csv", outcomes: lineOutcomes, given: lineGiven, kind: Simulation},
}

// Topics are the tables of checks by name, without their ending, in the order in which they are reported.
func Topics() (names []string) {
	for _, t := range topics {
		names = append(names, strings.TrimSuffix(t.table, ".csv"))
	}
	return names
}

// Run evaluates every check in a fixed order. A check that has no evaluator, or whose
// row cannot be read, fails; it never goes missing. tell, if not nil, is told how many of the tables are done.
func Run(ctx context.Context, tell func(done, of int)) []Outcome {
	var all []Outcome
	for i, t := range topics {
		if tell != nil {
			tell(i, len(topics))
		}
		all = append(all, t.run(ctx)...)
	}
	return all
}

// run evaluates the checks of a table and says of each which table it stands in and what was given.
func (t topic) run(ctx context.Context) []Outcome {
	records, err := readTable(t.table)
	if err != nil {
		return []Outcome{{Check: t.table, Err: err}}
	}
	var all []Outcome
	if t.outcomes != nil {
		all = t.outcomes(ctx)
	} else {
		for _, r := range records {
			all = append(all, evaluate(ctx, r, t.checks[r.text("check")]))
		}
	}
	given := givenByRow(records, t.given)
	for i := range all {
		o := &all[i]
		row, _, _ := strings.Cut(o.ID, "/") // what follows says which figure of the row
		o.Topic, o.Given, o.Kind = strings.TrimSuffix(t.table, ".csv"), given[row], kindOf(o.Check, t.kind)
	}
	return all
}

// Passed reports whether every outcome passed.
func Passed(outcomes []Outcome) bool {
	for _, o := range outcomes {
		if !o.Pass {
			return false
		}
	}
	return len(outcomes) > 0
}

func evaluate(ctx context.Context, r *record, compute evaluator) Outcome {
	o := Outcome{
		ID: r.text("id"), Check: r.text("check"), Source: r.text("source"), Trust: r.text("trust"),
		Expected: r.number("expected"), Unit: r.text("unit"),
	}
	absolute, relative := r.number("tol_abs"), r.number("tol_rel")
	switch {
	case ctx.Err() != nil:
		o.Err = ctx.Err()
	case compute == nil:
		o.Err = fmt.Errorf("%s:%d: no evaluator for check %q", r.table, r.line, o.Check)
	default:
		o.Computed, o.Err = compute(ctx, r)
	}
	o.Beside = r.beside
	if r.err != nil {
		o.Err = r.err
	}
	o.judge(absolute, relative)
	return o
}

// judge fills Error, Limit and Pass; the wider of the two tolerances holds. A computed
// NaN fails.
func (o *Outcome) judge(absolute, relative float64) {
	o.Error = math.Abs(o.Computed - o.Expected)
	o.Limit = max(absolute, relative*math.Abs(o.Expected))
	o.Pass = o.Err == nil && o.Error <= o.Limit
}

// closed makes an evaluator of a closed form.
func closed(f func(r *record) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) { return f(r), nil }
}

// columns1 to columns4 make evaluators of functions whose arguments stand in the named
// columns of the row.
func columns1(f func(a float64) float64, a string) evaluator {
	return closed(func(r *record) float64 { return f(r.number(a)) })
}

func columns2(f func(a, b float64) float64, a, b string) evaluator {
	return closed(func(r *record) float64 { return f(r.number(a), r.number(b)) })
}

func columns3(f func(a, b, c float64) float64, a, b, c string) evaluator {
	return closed(func(r *record) float64 { return f(r.number(a), r.number(b), r.number(c)) })
}

func columns4(f func(a, b, c, d float64) float64, a, b, c, d string) evaluator {
	return closed(func(r *record) float64 { return f(r.number(a), r.number(b), r.number(c), r.number(d)) })
}

// constant makes an evaluator of a figure that takes no input.
func constant(value float64) evaluator {
	return closed(func(*record) float64 { return value })
}
