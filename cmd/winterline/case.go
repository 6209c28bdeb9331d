package main

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather"
)

// inputs are the files of a case as read. Layout, profile and series are nil where the
// file is missing or has faults.
type inputs struct {
	*place
	layout      *pipe.Layout
	profile     *pipe.Profile
	series      *weather.Series
	spans       []*weather.Series // for many winters, in place of series
	supply      sim.Supply
	names       []string // of the files read, as the user would name them
	sums        digests  // by base name
	weatherFile string   // as the user would name it
	weatherSums []string // of its files, in order
	settings    report.RunSettings
	source      answers.Source // of changed cases; weather and supply are those above
}

// changed is the source of changed cases, whole.
func (in *inputs) changed() answers.Source {
	s := in.source
	s.Weather, s.Supply = in.series, in.supply
	return s
}

// loader reads the files of a case and collects every fault of all of them.
type loader struct {
	inputs
	layoutFile string // as the user would name it
	problems   units.Problems
	advice     string
}

// load reads a case. dir is the CASE argument, "" where none was given. On an *inputError
// the inputs hold what could be read.
func load(dir string, o *inputOptions) (*inputs, error) {
	return loadParts(dir, o, wholeCase()...)
}

// wholeCase are the parts of a case in the order in which they are read.
func wholeCase() []func(*loader, *inputOptions) {
	return []func(*loader, *inputOptions){(*loader).readLayout, (*loader).readWeather, (*loader).readSupply}
}

// loadGround reads of a case what the ground depends on.
func loadGround(dir string, o *inputOptions) (*inputs, error) {
	return loadParts(dir, o, (*loader).readGround, (*loader).readWeather)
}

// loadParts reads parts of a case in turn and tells the faults of all at once.
func loadParts(dir string, o *inputOptions, parts ...func(*loader, *inputOptions)) (*inputs, error) {
	if err := o.check(); err != nil {
		return nil, err
	}
	p, err := findPlace(dir, o)
	if err != nil {
		return nil, err
	}
	return loadPlace(p, o, parts...)
}

// loadPlace reads parts of the case at a place.
func loadPlace(p *place, o *inputOptions, parts ...func(*loader, *inputOptions)) (*inputs, error) {
	l := &loader{inputs: inputs{place: p, sums: digests{}, settings: o.settings(p)}}
	for _, read := range parts {
		read(l, o)
	}
	if len(l.problems) > 0 || l.advice != "" {
		slices.SortStableFunc(l.problems, inOrder)
		return &l.inputs, &inputError{l.problems, l.advice}
	}
	return &l.inputs, nil
}

func (l *loader) fault(file, key, found, expected string) {
	l.problems = append(l.problems, units.Problem{File: file, Key: key, Found: found, Expected: expected})
}

// read gives a file's text and keeps its check sum: the file that a flag names, else the
// case's own, of at most so many bytes.
func (l *loader) read(flag, own, expected string, most int64) (shown string, text []byte, ok bool) {
	var err error
	if shown = flag; flag != "" {
		text, err = readBounded(flag, opened, most)
	} else {
		shown = l.shown(own)
		text, err = readBounded(own, l.files.Open, most)
	}
	if err != nil {
		found := reason(err)
		if errors.Is(err, fs.ErrNotExist) {
			found = "no such file"
		}
		l.fault(shown, "", found, expected)
		return shown, nil, false
	}
	l.names = append(l.names, shown)
	l.sums.keep(filepath.Base(shown), text)
	return shown, text, true
}
