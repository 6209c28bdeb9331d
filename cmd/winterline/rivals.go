package main

import (
	"fmt"
	"path/filepath"
	"reflect"
	"slices"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
)

// Bounds of how many layouts are compared: fewer are no comparison, more do not fit side by side.
const (
	leastRivals = 2
	mostRivals  = 8
)

// rivals are the layouts that are compared, as read.
type rivals struct {
	first *inputs // with the weather of all
	all   []answers.Rival
	notes []string // what the reader must know of how they were read
	sums  digests  // of what was read, by name
}

// load reads the cases and the changes, and tells the faults of all at once.
func (o *compareOptions) load() (*rivals, error) {
	if err := o.checkRivals(); err != nil {
		return nil, err
	}
	dirs := o.dirs
	if len(dirs) == 0 {
		dirs = []string{""}
	}
	r := &rivals{sums: digests{}}
	faults := &inputError{}
	for i, dir := range dirs {
		weather := (*loader).readRecord
		if i > 0 {
			weather = func(l *loader, o *inputOptions) { l.sameWeather(o, r.first) }
		}
		in, err := loadParts(dir, &o.inputOptions, (*loader).readLayout, weather, (*loader).readSupply)
		wrong, ok := err.(*inputError)
		switch {
		case err == nil:
			r.add(in, len(dirs) > 1)
		case !ok || in == nil:
			return nil, err
		default:
			faults.problems, faults.advice = append(faults.problems, wrong.problems...), firstWords(faults.advice, wrong.advice)
		}
		if i == 0 {
			r.first = in
		}
	}
	if len(faults.problems) > 0 || faults.advice != "" {
		return nil, faults
	}
	if err := r.change(o.sets); err != nil {
		return nil, err
	}
	return r, r.water()
}

// firstWords are the first that are not empty.
func firstWords(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// checkRivals refuses too few layouts, too many, and flags that do not go together.
func (o *compareOptions) checkRivals() error {
	n := max(1, len(o.dirs)) + len(o.sets)
	switch {
	case n < leastRivals:
		return usage("found one layout; expected two to eight: more CASE folders, or --set \"KEY=VALUE\" with what to change in this one")
	case n > mostRivals:
		return usage("found %d layouts; expected two to eight", n)
	case len(o.sets) > 0 && len(o.dirs) > 1:
		return usage("found --set and %d cases; expected one CASE, which --set changes", len(o.dirs))
	case o.layout != "" && len(o.dirs) > 1:
		return usage("found --layout and %d cases; expected one of them: it stands in for a CASE's layout.toml", len(o.dirs))
	}
	for i, dir := range o.dirs {
		if slices.ContainsFunc(o.dirs[:i], func(before string) bool { return filepath.Clean(before) == filepath.Clean(dir) }) {
			return usage("found %s twice; expected different cases", dir)
		}
	}
	return nil
}

// add takes a case up; one of several has its name before those of its files.
func (r *rivals) add(in *inputs, several bool) {
	source := in.source
	source.Supply = in.supply
	for n := 2; slices.ContainsFunc(r.all, func(other answers.Rival) bool { return other.Name == source.Name }); n++ {
		source.Name = fmt.Sprintf("%s (%d)", in.source.Name, n)
	}
	for name, sum := range in.sums {
		if several {
			name = source.Name + "/" + name
		}
		r.sums[name] = sum
	}
	r.all = append(r.all, answers.Rival{Source: source})
}

// change adds the layouts that --set makes of the only case.
func (r *rivals) change(sets []string) error {
	var problems units.Problems
	for _, text := range sets {
		name, edits, err := parseSet(text)
		if err != nil {
			return usage("--set %q: %w", text, err)
		}
		rival := answers.Rival{Source: r.all[0].Source, Changes: edits}
		rival.Name = name
		if slices.ContainsFunc(r.all, func(other answers.Rival) bool { return other.Name == name }) {
			return usage("--set %q: found the name %q twice; expected different names", text, name)
		}
		if setsWater(edits) {
			rival.Supply = sim.Supply{} // else the log would hide the plan
		}
		problems = append(problems, setProblems(text, rival)...)
		r.sums.keep("--set", []byte(text))
		r.all = append(r.all, rival)
	}
	if len(problems) > 0 {
		return &inputError{problems: problems}
	}
	return nil
}

// setProblems are what is wrong with a change, told at the flag where no line of the layout is to blame.
func setProblems(text string, rival answers.Rival) units.Problems {
	layout, problems := rival.Layout()
	if len(problems) == 0 {
		_, problems = layout.MakeProfile(rival.File)
	}
	for i := range problems {
		problems[i].File = fmt.Sprintf("--set %q", text)
		problems[i].Line = 0
	}
	return problems
}

// water notes where the layouts' water is not the same.
func (r *rivals) water() error {
	var first pipe.WaterPlan
	for i, rival := range r.all {
		layout, problems := rival.Layout()
		if len(problems) > 0 {
			return &inputError{problems: problems}
		}
		if i == 0 {
			first = layout.Water
		}
		if !reflect.DeepEqual(rival.Supply, r.all[0].Supply) || !reflect.DeepEqual(layout.Water, first) {
			r.notes = []string{report.OtherWater}
		}
	}
	return nil
}

// next is the command to type after this one.
func (r *rivals) next() string {
	if !r.first.demo && !answers.ManyWinters(r.first.spans) {
		return "the same with --weather MANY-YEARS.csv --cycles \"every 6 h for 45 s\"\n(how often, and years to pay back)"
	}
	return r.first.next("run", "one winter from day to day")
}
