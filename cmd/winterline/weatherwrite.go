package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"winterline/pipe/units"
	"winterline/weather"
)

// target is the file to write, "" for none.
func (o *weatherOptions) target() (string, error) {
	if o.clean != "" && o.convert != "" {
		return "", usage("found --clean and --convert; expected one of them: --clean also converts")
	}
	target := o.clean + o.convert
	if target == "" {
		return "", nil
	}
	if problems := refuseNew(target); len(problems) > 0 {
		return "", &inputError{problems: problems}
	}
	return target, nil
}

// writeSpans writes one file, or one a span, and gives their names.
func writeSpans(target string, spans []*weather.Series) (names []string, err error) {
	if target == "" {
		return nil, nil
	}
	names = []string{target}
	if len(spans) > 1 {
		names = nil
		ending := filepath.Ext(target)
		for i := range spans {
			names = append(names, fmt.Sprintf("%s-%d%s", strings.TrimSuffix(target, ending), i+1, ending))
		}
	}
	var problems units.Problems
	for _, name := range names {
		problems = append(problems, refuseNew(name)...)
	}
	if len(problems) > 0 {
		return nil, &inputError{problems: problems} // before the first is written
	}
	for i, s := range spans {
		if err := writeNew(names[i], s.WritePlain); err != nil {
			return nil, err
		}
	}
	return names, nil
}
