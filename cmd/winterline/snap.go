package main

import (
	"winterline/report"
	"winterline/weather"
)

// runSnap makes a design cold snap and writes it.
func runSnap(o *weatherOptions) error {
	if o.clean != "" || o.convert != "" || o.json || o.all || o.quiet {
		return usage("found --snap beside --clean, --convert, --json, --all or --quiet; expected it without them")
	}
	if err := o.snap.check(len(o.paths)); err != nil {
		return err
	}
	v, problems := o.snap.read()
	if o.drawing.out != "" {
		problems = append(problems, refuseNew(o.drawing.out)...)
	}
	if len(problems) > 0 {
		return &inputError{problems: problems}
	}
	s, err := o.makeSnap(v)
	if err != nil {
		return err
	}
	if o.drawing.out == "" {
		return s.WritePlain(o.stdout)
	}
	if err := writeNew(o.drawing.out, s.WritePlain); err != nil {
		return err
	}
	return report.SnapScreen(o.stdout, s, o.drawing.out, o.window)
}

// makeSnap makes it by rule, or of the record that the command line names.
func (o *weatherOptions) makeSnap(v snapValues) (*weather.Series, error) {
	if len(o.paths) == 0 {
		return v.Snap.Series(), nil
	}
	files, err := o.files()
	if err != nil {
		return nil, err
	}
	spans, problems := o.read(files)
	if len(problems) > 0 {
		return nil, &inputError{problems: problems, advice: o.advice(files)}
	}
	s, problems := v.ReturnSnap.Of(spans...)
	if len(problems) > 0 {
		return nil, &inputError{problems: problems}
	}
	return s, nil
}
