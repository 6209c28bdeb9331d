package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"winterline/pipe/units"
	"winterline/report"
)

// settings are what the flags say that the tables of a run depend on.
func (o *inputOptions) settings(p *place) report.RunSettings {
	said := func(text string) *string {
		if text == "" {
			return nil
		}
		return &text
	}
	file := func(path string) *string {
		if path == "" {
			return nil
		}
		return said(filepath.Base(filepath.Clean(path)))
	}
	return report.RunSettings{
		Demonstration: p.demo, Layout: file(o.layout), Weather: file(o.weather), Pump: file(o.pump), Inflow: file(o.inflow),
		Cycles: said(o.cycles), Arrives: said(o.arrives), Zone: o.zone.hours,
	}
}

// runAgain repeats the run of a summary and tells whether its tables are the same; changed says which flags are given.
func runAgain(ctx context.Context, o *runOptions, changed func(flag string) bool) error {
	// The summary says it, or nothing is drawn and judged.
	for _, flag := range []string{"cycles", "arrives", "zone", "json", "fail-on", "charts", "dpi", "width", "no-margin"} {
		if changed(flag) {
			return usage("found --again and --%s; expected --again with CASE, --layout, --weather, --pump, --inflow, --out, --quiet or --timings", flag)
		}
	}
	watch := newStages(o.timings, o.stderr)
	then, in, err := o.loadAgain()
	if err != nil {
		return err
	}
	o.noMargin = true // no table depends on it
	o.charts.format.word = "none"
	var repeat *report.Repeat
	p := production[*runs]{
		folder: o.out,
		simulate: func(ctx context.Context) (*runs, error) {
			r, err := o.answered(ctx, in)
			if err == nil {
				repeat = then.Compare(r.digests, version)
			}
			return r, err
		},
		files: func(r *runs) []report.File { return o.files(r, in) },
		print: func(*runs) error {
			if o.quiet {
				return report.AgainBrief(o.stdout, repeat)
			}
			return report.AgainScreen(o.stdout, repeat, o.out)
		},
	}
	if _, err := p.run(ctx, watch); err != nil {
		return err
	}
	if repeat.Differing() > 0 {
		return &toldError{errors.New("tables differ")}
	}
	return nil
}

// loadAgain reads a summary and the inputs of its run, which must be the same.
func (o *runOptions) loadAgain() (*report.RunRecord, *inputs, error) {
	if info, err := os.Stat(o.again); err == nil && info.IsDir() {
		o.again = filepath.Join(o.again, report.SummaryName)
	}
	text, err := readBounded(o.again, opened, report.MaxSummary)
	if err != nil {
		return nil, nil, problem(o.again, reason(err), "the summary.json of a run")
	}
	then, found, expected := report.ReadRunRecord(text)
	if then == nil {
		return nil, nil, problem(o.again, found, expected)
	}
	in, err := o.loadThen(then.Settings)
	if err != nil {
		return nil, nil, err
	}
	var wrong units.Problems
	for _, c := range then.ChangedInputs(in.sums) {
		wrong = append(wrong, units.Problem{File: o.again, Key: c.Name, Found: c.Found, Expected: c.Expected})
	}
	if len(wrong) > 0 {
		return nil, nil, &inputError{problems: wrong}
	}
	return then, in, nil
}

// loadThen reads a case by the settings of a run: each file where a flag says it lies now, else in the case.
func (o *runOptions) loadThen(s *report.RunSettings) (*inputs, error) {
	if s.Demonstration && o.dir == "" && o.inputOptions == (inputOptions{}) {
		return loadPlace(demonstration(), &o.inputOptions, wholeCase()...)
	}
	dir, ok := o.caseThen(s)
	if !ok {
		return nil, problem(o.again, "no layout.toml beside it or in the folder above", "the folder of the case, in place of CASE")
	}
	for _, f := range []struct {
		name string
		now  *string
		then *string
	}{{"--layout", &o.layout, s.Layout}, {"--weather", &o.weather, s.Weather}, {"--pump", &o.pump, s.Pump}, {"--inflow", &o.inflow, s.Inflow}} {
		if *f.now != "" || f.then == nil {
			continue
		}
		*f.now = filepath.Join(dir, *f.then)
		if _, err := os.Stat(*f.now); err != nil {
			return nil, problem(filepath.ToSlash(*f.now), "no such file", "what the run had by "+f.name+", or "+f.name+" to say where it lies now")
		}
	}
	if s.Cycles != nil {
		o.cycles = *s.Cycles
	}
	if s.Arrives != nil {
		o.arrives = *s.Arrives
	}
	o.zone.hours = s.Zone
	return load(dir, &o.inputOptions)
}

// caseThen finds the folder of the case: CASE, else that of the summary or the one above it, where the layout is.
func (o *runOptions) caseThen(s *report.RunSettings) (dir string, ok bool) {
	if o.dir != "" {
		return o.dir, true
	}
	layout := "layout.toml"
	if s.Layout != nil {
		layout = *s.Layout
	}
	beside := filepath.Dir(o.again)
	for _, dir := range []string{beside, filepath.Join(beside, "..")} {
		if _, err := os.Stat(filepath.Join(dir, layout)); err == nil {
			return dir, true
		}
	}
	return ".", strings.TrimSpace(o.layout) != ""
}
