package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"winterline/pipe/units"
	"winterline/sim/answers"
	"winterline/weather"
)

// readWeather reads the weather: the file or folder that a flag names, else the case's own.
func (l *loader) readWeather(o *inputOptions) {
	l.readWeatherBy(o, func(files []weather.File) (problems units.Problems, ok bool) {
		l.series, problems = weather.ReadFiles(files, o.weatherOptions())
		return problems, l.series != nil
	})
}

// readSpans reads the weather as readWeather does, but takes it apart at its long gaps.
func (l *loader) readSpans(o *inputOptions) {
	l.readWeatherBy(o, func(files []weather.File) (problems units.Problems, ok bool) {
		l.spans, problems = weather.ReadSpans(files, o.weatherOptions())
		return problems, len(l.spans) > 0
	})
}

// readRecord reads the weather taken apart at its long gaps if it then has several whole winters, else as the one
// record that it must be.
func (l *loader) readRecord(o *inputOptions) {
	l.readSpans(o)
	switch {
	case len(l.spans) > 1 && !answers.ManyWinters(l.spans):
		l.weatherSums, l.spans = nil, nil
		if l.readWeather(o); l.series != nil {
			l.spans = []*weather.Series{l.series}
		}
	case len(l.spans) == 1:
		l.series = l.spans[0]
	}
}

// sameWeather refuses weather of a case's own that is not that of the first case; --weather is the weather of all.
func (l *loader) sameWeather(o *inputOptions, first *inputs) {
	if o.weather != "" {
		return
	}
	shown, files, ok := l.findWeather(o)
	if !ok {
		return
	}
	sums := newSummedFiles(files)
	var own []string
	for i, f := range sums.files {
		in, err := f.Open()
		if err == nil {
			err = in.Close() // which reads all of it
		}
		if err != nil {
			l.fault(shown, "", reason(err), "a weather record")
			return
		}
		own = append(own, string(sums.digest(i)))
		l.sums.keepDigest(filepath.Base(f.Name), sums.digest(i))
	}
	if len(first.weatherSums) > 0 && !slices.Equal(own, first.weatherSums) {
		l.fault(shown, "", "another weather than "+first.weatherFile, "the same file in every case, or --weather FILE for all of them")
	}
}

// readWeatherBy finds the weather's files, has them read and keeps their check sums.
func (l *loader) readWeatherBy(o *inputOptions, read func([]weather.File) (units.Problems, bool)) {
	shown, files, ok := l.findWeather(o)
	if !ok {
		return
	}
	sums := newSummedFiles(files)
	problems, ok := read(sums.files)
	l.problems = append(append(l.problems, problems...), sums.unread(ok)...)
	l.weatherFile = shown
	l.names = append(l.names, shown)
	for i, f := range files {
		l.sums.keepDigest(filepath.Base(f.Name), sums.digest(i))
		l.weatherSums = append(l.weatherSums, string(sums.digest(i)))
	}
	if !ok {
		l.advice = mendAdvice(shown, files, o.weatherOptions())
	}
}

// findWeather finds the weather's files; shown is what they are as the user would name them.
func (l *loader) findWeather(o *inputOptions) (shown string, files []weather.File, ok bool) {
	if o.weather != "" {
		files, problems := weather.Files([]string{o.weather})
		l.problems = append(l.problems, problems...)
		return o.weather, files, len(problems) == 0
	}
	names := l.weatherNames()
	switch len(names) {
	case 0:
		l.advice = weatherAdvice(l.shown("weather.csv"))
		return "", nil, false
	case 1:
	default:
		l.fault(l.shown(names[0]), "", strings.Join(names, " and ")+" in one folder", "one weather file, or --weather to say which")
		return "", nil, false
	}
	shown = l.shown(names[0])
	if names[0] == weatherFolder {
		inside, err := fs.Sub(l.files, weatherFolder)
		if err != nil {
			l.fault(shown, "", reason(err), "a folder of weather files")
			return shown, nil, false
		}
		files, problems := weather.FilesIn(inside, shown)
		l.problems = append(l.problems, problems...)
		return shown, files, len(problems) == 0
	}
	open := func() (io.ReadCloser, error) { return l.files.Open(names[0]) }
	return shown, []weather.File{{Name: shown, Open: open}}, true
}

// weatherFolder is the case's folder of weather files.
const weatherFolder = "weather"

// weatherOptions are what flags say about the weather.
func (o *inputOptions) weatherOptions() weather.Options { return weather.Options{Zone: o.zone.hours} }

// mendAdvice says how to mend weather that was refused, where mending does it; else "".
func mendAdvice(shown string, files []weather.File, o weather.Options) string {
	if !comeAgain(files) {
		return ""
	}
	o.Mend = true
	s, problems := weather.ReadFiles(files, o)
	if len(problems) > 0 {
		return ""
	}
	mended := "mended.csv"
	return fmt.Sprintf("winterline weather %s --clean %s mends this and lists what it did (%s).", shown, mended, entryCount(len(s.Repairs)))
}

// comeAgain says whether files can be read a second time; what came through a pipe cannot.
func comeAgain(files []weather.File) bool {
	return !slices.ContainsFunc(files, func(f weather.File) bool {
		info, err := os.Stat(f.Name)
		return err == nil && !info.Mode().IsRegular()
	})
}

func entryCount(n int) string {
	if n == 1 {
		return "1 entry"
	}
	return fmt.Sprintf("%d entries", n)
}
