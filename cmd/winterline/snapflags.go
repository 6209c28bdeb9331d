package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"winterline/pipe/units"
	"winterline/weather"
)

// snapOptions are the flags of `winterline weather` that make a design cold snap.
type snapOptions struct {
	wanted bool
	typed  map[string]*string // quantities by flag, as typed
	flags  *pflag.FlagSet     // knows which were given
}

// snapFlag is a flag that takes a quantity of a snap.
type snapFlag struct {
	name, standard, help string
	dimension            units.Dimension
	low, high            float64 // SI
	limits               string  // the same in words
	slot                 func(*snapValues) *float64
}

// snapValues are what flags say, read.
type snapValues struct {
	weather.Snap
	weather.ReturnSnap
	before, after float64 // [s], of either
}

const day = 86400.0 // [s]

// snapFlags are the quantities, in the order in which faults are told.
func snapFlags() []snapFlag {
	return []snapFlag{
		{"mild", "-2 degC", "mean air `temperature` of the days before and after", units.Temperature, -60, 40, "from -60 to 40 degC (-76 to 104 degF)",
			func(v *snapValues) *float64 { return &v.Mild }},
		{"low", "-28 degC", "lowest air `temperature`, of every morning of the cold", units.Temperature, -80, 10, "from -80 to 10 degC (-112 to 50 degF)",
			func(v *snapValues) *float64 { return &v.Low }},
		{"swing", "8 K", "`difference` between the lowest and the highest air temperature of a day", units.TemperatureDifference, 0, 40, "from 0 to 40 K (72 degF)",
			func(v *snapValues) *float64 { return &v.Swing }},
		{"fall", "18 h", "`time` that the air takes to get cold", units.Duration, 3600, 60 * day, "from 1 h to 60 days",
			func(v *snapValues) *float64 { return &v.Fall }},
		{"days", "4", "`days` that the cold lasts", units.Duration, day, 365 * day, "from 1 to 365 days",
			func(v *snapValues) *float64 { return &v.Bottom }},
		{"rise", "18 h", "`time` that the air takes to get mild again", units.Duration, 3600, 60 * day, "from 1 h to 60 days",
			func(v *snapValues) *float64 { return &v.Rise }},
		{"wind", "15 mph", "wind `speed` at 10 m (33 ft)", units.Speed, 0, 100, "from 0 to 100 m/s (224 mph)",
			func(v *snapValues) *float64 { return &v.Wind }},
		{"snow", "4 in", "snow `depth` on the ground", units.Length, 0, 20, "from 0 to 20 m (66 ft)",
			func(v *snapValues) *float64 { return &v.Snow }},
		{"before", "20", "`days` before the cold", units.Duration, 0, 365 * day, "from 0 to 365 days",
			func(v *snapValues) *float64 { return &v.before }},
		{"after", "10", "`days` after the cold", units.Duration, day, 365 * day, "from 1 to 365 days",
			func(v *snapValues) *float64 { return &v.after }},
	}
}

// snapBegins is when the cold begins unless --begins says otherwise: the season matters to
// the ground, the year does not.
const snapBegins = "2026-01-15 00:00"

func (o *snapOptions) add(c *cobra.Command) {
	f := c.Flags()
	o.flags, o.typed = f, map[string]*string{}
	f.BoolVar(&o.wanted, "snap", false, "make a design cold snap; of FILE, where it is named, with --return")
	text := func(name, standard, help string) { o.typed[name] = f.String(name, standard, "with --snap: "+help) }
	for _, q := range snapFlags() {
		text(q.name, q.standard, q.help)
	}
	text("begins", snapBegins, "`time` at which the cold begins, a full hour")
	text("snow-from", "", "`time` at which the snow comes, bare ground before (default: it lies from the first hour on)")
	text("return", "", "return period in `years` of FILE's coldest spell, such as \"10 years\"")
}

// ofFile says which flags a snap of a file takes; the others describe a snap made by rule.
var ofFile = []string{"before", "after", "return"}

// check refuses flags that do not go together. files is how many are named.
func (o *snapOptions) check(files int) error {
	for _, name := range o.given() {
		switch {
		case !o.wanted:
			return usage("found --%s without --snap; expected --snap beside it", name)
		case files > 0 && !slices.Contains(ofFile, name):
			return usage("found --%s beside FILE; expected --return, --before and --after: the record says the rest", name)
		case files == 0 && name == "return":
			return usage("found --return without FILE; expected a weather file whose coldest spell is to be taken")
		}
	}
	if files > 0 && *o.typed["return"] == "" {
		return usage(`found --snap of FILE without --return; expected a return period, such as --return "10 years"`)
	}
	return nil
}

// given are the flags of a snap, apart from --snap itself, that were given.
func (o *snapOptions) given() (names []string) {
	o.flags.Visit(func(f *pflag.Flag) {
		if _, mine := o.typed[f.Name]; mine {
			names = append(names, f.Name)
		}
	})
	return names
}

// read reads the flags and tells all that is wrong with them at once.
func (o *snapOptions) read() (v snapValues, problems units.Problems) {
	for _, q := range snapFlags() {
		amount, err := q.parse(*o.typed[q.name])
		if err != nil {
			problems = append(problems, units.At("--"+q.name, 0, "", err))
		}
		*q.slot(&v) = amount
	}
	var err error
	if v.Begins, err = units.ParseTime(*o.typed["begins"]); err == nil && !v.Begins.Equal(v.Begins.Truncate(time.Hour)) {
		err = &units.Error{Found: fmt.Sprintf("%q", *o.typed["begins"]), Expected: "a full hour, such as 2026-01-15 00:00"}
	}
	if err != nil {
		problems = append(problems, units.At("--begins", 0, "", err))
	}
	if text := *o.typed["snow-from"]; text != "" {
		if v.SnowFrom, err = units.ParseTime(text); err != nil {
			problems = append(problems, units.At("--snow-from", 0, "", err))
		}
	}
	if text := *o.typed["return"]; text != "" {
		if v.Years, err = parseYears(text); err != nil {
			problems = append(problems, units.At("--return", 0, "", err))
		}
	}
	if len(problems) == 0 && v.BottomMean() >= v.Mild {
		problems = append(problems, units.Problem{File: "--low", Found: fmt.Sprintf("%q with a swing of %q, no colder on average than %q",
			*o.typed["low"], *o.typed["swing"], *o.typed["mild"]), Expected: "days colder than --mild"})
	}
	v.Snap.Before, v.Snap.After = v.before, v.after
	v.ReturnSnap.Before, v.ReturnSnap.After = v.before, v.after
	return v, problems
}

// parse reads a quantity. A bare number in --days, --before and --after is one of days.
func (q *snapFlag) parse(text string) (float64, error) {
	with := text
	if _, err := units.ParseNumber(text); err == nil && slices.Contains([]string{"days", "before", "after"}, q.name) {
		with += " days"
	}
	amount, err := units.Parse(q.dimension, with)
	if err == nil && !(amount >= q.low && amount <= q.high) {
		err = &units.Error{Found: fmt.Sprintf("%q", text), Expected: q.dimension.String() + " " + q.limits}
	}
	return amount, err
}

// parseYears reads a return period such as "10 years".
func parseYears(text string) (float64, error) {
	number := strings.TrimSpace(text)
	for _, unit := range []string{"years", "year", "yr", "a"} {
		if before, ok := strings.CutSuffix(number, unit); ok {
			number = before
			break
		}
	}
	years, err := units.ParseNumber(number)
	if err != nil || !(years >= 2 && years <= 1000) {
		return 0, &units.Error{Found: fmt.Sprintf("%q", text), Expected: `a return period from 2 to 1000 years, such as "10 years"`}
	}
	return years, nil
}
