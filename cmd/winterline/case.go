package main

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather"
)

// inputOptions are the flags that name input files, or stand in for one.
type inputOptions struct {
	layout, weather, pump, inflow, cycles, arrives string
	zone                                           zoneFlag
}

func (o *inputOptions) addFlags(c *cobra.Command) {
	o.addGroundFlags(c)
	f := c.Flags()
	f.StringVar(&o.pump, "pump", "", "`FILE` of pump cycles instead of the case's pump.csv or inflow.csv")
	f.StringVar(&o.inflow, "inflow", "", "`FILE` of water reaching the basin instead of the case's pump.csv or inflow.csv")
	f.StringVar(&o.cycles, "cycles", "", "`PLAN` of regular pump runs instead of a file: \"every 6 h for 45 s\"")
	f.StringVar(&o.arrives, "arrives", "", "`PLAN` of water reaching the basin instead of a file: \"2 gal/h\", \"8 gal/h falling by half every 2 days\"")
}

// addGroundFlags adds those that a command without water needs.
func (o *inputOptions) addGroundFlags(c *cobra.Command) {
	f := c.Flags()
	f.StringVar(&o.layout, "layout", "", "layout `FILE` instead of the case's layout.toml")
	f.StringVar(&o.weather, "weather", "", "weather `FILE`, or folder of weather files, instead of the case's own")
	o.zone.add(c)
}

// check refuses flags that contradict each other.
func (o *inputOptions) check() error {
	var given []string
	for _, f := range []struct{ name, value string }{{"--pump", o.pump}, {"--inflow", o.inflow}, {"--cycles", o.cycles}, {"--arrives", o.arrives}} {
		if f.value != "" {
			given = append(given, f.name)
		}
	}
	if len(given) > 1 {
		return usage("found %s; expected one of them", strings.Join(given, " and "))
	}
	if o.cycles != "" {
		if _, _, err := pipe.ParseCycles(o.cycles); err != nil {
			return usage("--cycles: %w", err)
		}
	}
	if o.arrives != "" {
		if _, err := pipe.ParseArrival(o.arrives); err != nil {
			return usage("--arrives: %w", err)
		}
	}
	return nil
}

// inputError is all that is wrong with the inputs of a case.
type inputError struct {
	problems units.Problems
	advice   string // what to do about an input that is not there; "": nothing to say
}

// Error gives one fault a line, then the advice.
func (e *inputError) Error() string {
	var parts []string
	if len(e.problems) > 0 {
		parts = append(parts, e.problems.Error())
	}
	if e.advice != "" {
		parts = append(parts, e.advice)
	}
	return strings.Join(parts, "\n")
}

// inputs are the files of a case as read. Layout, profile and series are nil where the
// file is missing or has faults.
type inputs struct {
	*place
	layout      *pipe.Layout
	profile     *pipe.Profile
	series      *weather.Series
	spans       []*weather.Series // for many winters, in place of series
	supply      sim.Supply
	names       []string          // of the files read, as the user would name them
	sums        map[string]string // SHA-256 by base name
	weatherFile string            // as the user would name it
	weatherSums []string          // of its files, in order
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
	l := &loader{inputs: inputs{place: p, sums: map[string]string{}, settings: o.settings(p)}}
	for _, read := range parts {
		read(l, o)
	}
	if len(l.problems) > 0 || l.advice != "" {
		slices.SortStableFunc(l.problems, inOrder)
		return &l.inputs, &inputError{l.problems, l.advice}
	}
	return &l.inputs, nil
}

// inOrder sorts faults by file and line; those of no line come last in their file.
func inOrder(a, b units.Problem) int {
	last := func(p units.Problem) int {
		if p.Line == 0 {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(last(a), last(b)), cmp.Compare(a.Line, b.Line))
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
	l.keepSum(filepath.Base(shown), text)
	return shown, text, true
}

// keepSum keeps the check sum of a text by its name.
func (l *loader) keepSum(name string, text []byte) {
	sum := sha256.Sum256(text)
	l.keepDigest(name, sum[:])
}

// keepDigest keeps a check sum by name; a second file of that name gets a number.
func (l *loader) keepDigest(name string, sum []byte) {
	key := name
	for n := 2; l.sums[key] != ""; n++ {
		key = fmt.Sprintf("%s (%d)", name, n)
	}
	l.sums[key] = hex.EncodeToString(sum)
}
