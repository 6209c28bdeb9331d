package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"winterline/pipe/units"
	"winterline/report"
	"winterline/weather"
)

// weatherOptions are the choices of `winterline weather`.
type weatherOptions struct {
	streams
	outputOptions           // of which --units, --json and --quiet are offered
	paths          []string // FILE…
	zone           zoneFlag
	clean, convert string // file to write; "" for none
	split          bool
	all            bool
	snap           snapOptions
	drawing        drawingOptions
}

func newWeatherCmd(s streams) *cobra.Command {
	o := &weatherOptions{streams: s}
	c := &cobra.Command{
		Use:   "weather FILE…",
		Short: "What a weather file holds: span, gaps, cold spells; or a design cold snap",
		Long: `Weather reads a weather file as run would, and tells what it holds: its format, span and
gaps, the coldest hour and day, freezing degree-days winter by winter, the longest times
below freezing and the ten coldest spells; then what was assumed on reading, what may be
wrong, and the ledger of what was mended. It draws the record, its cold spells and its
winters into a folder, unless --charts none or --json says otherwise.

FILE is a weather file, several that follow on each other, a folder of them, or a case; formats
are recognised by their content, and files may be compressed with gzip. Files of archives are
mended as they are read. The plain form is read as strictly as run reads it; --clean mends
it: rows twice, out of order or between the hours, codes for missing values, summer time.

--clean and --convert write the record in the plain form, metric, to a new file; read back it
is the same to the last bit. --split-gaps takes the record apart at gaps of more than 6 h,
which are refused otherwise, and then writes one file a span.

--snap makes a design cold snap and writes it in the plain form, to --out or to standard
output. Without FILE it is made by rule from the flags: mild days, a fall, days at the
bottom, a rise, mild days again; a daily swing with its minimum at 06:00; steady wind; snow.
With FILE and --return it is the record's own coldest spell, every hour of it moved by as
many kelvin as make its coldest 24 h those of a winter once in so many years (Gumbel
distribution by L-moments to the coldest 24 h of at least 10 winters). The same flags and
files give the same bytes.

` + exitWords,
		Example: `  winterline weather my-house
  winterline weather my-house/weather.csv --units si --all
  winterline weather my-house/weather.csv --clean mended.csv
  winterline weather my-house/weather.csv --out drawn --charts svg
  winterline weather my-house/weather.csv --json
  winterline weather --snap --low "-28 degC" --days 4 --wind "15 mph" --out snap.csv
  winterline weather --snap --snow "12 in" --snow-from "2026-01-14"`,
		Args: func(c *cobra.Command, args []string) error {
			if o.snap.wanted {
				return arguments(0, maxWeatherPaths, "weather files, or a folder of them")(c, args)
			}
			return arguments(1, maxWeatherPaths, "weather files, or a folder of them; none with --snap")(c, args)
		},
		RunE: func(c *cobra.Command, args []string) error {
			o.paths = args
			return runWeather(c.Context(), o)
		},
	}
	f := c.Flags()
	f.StringVar(&o.clean, "clean", "", "mend what can be mended, and write the record to `FILE` in the plain form")
	f.StringVar(&o.convert, "convert", "", "write the record to `FILE` in the plain form")
	f.BoolVar(&o.split, "split-gaps", false, "take the record apart at gaps of more than 6 h")
	f.BoolVar(&o.all, "all", false, "show every entry of the ledger")
	f.BoolVar(&o.json, "json", false, "print everything as JSON and nothing else")
	f.BoolVar(&o.quiet, "quiet", false, "print one sentence on the record and what was written")
	o.drawing.addFlags(c)
	o.zone.add(c)
	o.addUnits(c)
	o.snap.add(c)
	return c
}

// maxWeatherPaths is how many files a command line may name; a folder may hold more.
const maxWeatherPaths = 1000

func runWeather(ctx context.Context, o *weatherOptions) error {
	if o.snap.wanted {
		return runSnap(o)
	}
	if err := o.snap.check(0); err != nil {
		return err
	}
	return showWeather(ctx, o)
}

// showWeather reads a record and tells, draws and writes what it holds.
func showWeather(ctx context.Context, o *weatherOptions) error {
	if err := o.drawing.check(); err != nil {
		return err
	}
	target, err := o.target()
	if err != nil {
		return err
	}
	files, err := o.files()
	if err != nil {
		return err
	}
	sums := newSummedFiles(files)
	spans, problems := o.read(sums.files)
	if problems = append(problems, sums.unread(len(problems) == 0)...); len(problems) > 0 {
		return &inputError{problems: problems, advice: o.advice(files)}
	}
	digest := weather.DigestOf(spans...)
	origin := provenanceOf(files, sums)
	results, err := o.drawing.draw(ctx, o.drawing.folder(o.paths, o.json), report.WithoutFolders(digest, namesOf(files)), spans, origin)
	if err != nil {
		return err
	}
	written, err := writeSpans(target, spans)
	if err != nil {
		return err
	}
	if o.json {
		return report.SummarizeWeather(digest, origin).Encode(o.stdout)
	}
	told := report.WeatherOptions{System: o.system(), Window: o.window, All: o.all, Written: written, Results: results}
	if o.quiet {
		return report.WeatherBrief(o.stdout, digest, told)
	}
	return report.WeatherScreen(o.stdout, digest, told)
}

// provenanceOf gives the digests of files that have been read.
func provenanceOf(files []weather.File, s summedFiles) report.Provenance {
	read := digests{}
	for i, f := range files {
		read.keepDigest(filepath.Base(f.Name), s.digest(i))
	}
	return report.Provenance{Version: version, Inputs: read}
}

func namesOf(files []weather.File) (names []string) {
	for _, f := range files {
		names = append(names, f.Name)
	}
	return names
}

// files are those that the command line names; of a case, its weather.
func (o *weatherOptions) files() (files []weather.File, err error) {
	wrong := &inputError{}
	for _, path := range o.paths {
		if !isCase(path) {
			found, problems := weather.Files([]string{path})
			files, wrong.problems = append(files, found...), append(wrong.problems, problems...)
			continue
		}
		p, err := folderPlace(path)
		if err != nil {
			return nil, err
		}
		l := loader{inputs: inputs{place: p}}
		_, found, _ := l.findWeather(&inputOptions{})
		files, wrong.problems, wrong.advice = append(files, found...), append(wrong.problems, l.problems...), l.advice
	}
	if len(wrong.problems) > 0 || wrong.advice != "" {
		return nil, wrong
	}
	return files, nil
}

// read reads the record, in spans where gaps may split it.
func (o *weatherOptions) read(files []weather.File) ([]*weather.Series, units.Problems) {
	options := o.options()
	if o.split {
		return weather.ReadSpans(files, options)
	}
	series, problems := weather.ReadFiles(files, options)
	return []*weather.Series{series}, problems
}

func (o *weatherOptions) options() weather.Options {
	return weather.Options{Zone: o.zone.hours, Mend: o.clean != ""}
}

// advice says what would take a record that was refused.
func (o *weatherOptions) advice(files []weather.File) string {
	named := strings.Join(o.paths, " ")
	if o.clean == "" {
		if advice := mendAdvice(named, files, o.options()); advice != "" {
			return advice
		}
	}
	if o.split || !comeAgain(files) {
		return ""
	}
	if spans, problems := weather.ReadSpans(files, o.options()); len(problems) == 0 {
		return fmt.Sprintf("--split-gaps takes the record apart at its gaps, into %d spans.", len(spans))
	}
	return ""
}
