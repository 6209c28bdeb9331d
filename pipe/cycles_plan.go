package pipe

import (
	"regexp"

	"winterline/pipe/units"
)

const cyclesForm = `a plan such as "every 6 h for 45 s", the run shorter than the interval`

var cyclesPattern = regexp.MustCompile(`^\s*every\s+(.+?)\s+for\s+(.+?)\s*$`)

// ParseCycles reads a plan of regular pump cycles such as "every 6 h for 45 s" and returns the
// interval from start to start and the run [s].
func ParseCycles(text string) (every, run float64, err error) {
	bad := &units.Error{Found: `"` + units.Shorten(text) + `"`, Expected: cyclesForm}
	m := cyclesPattern.FindStringSubmatch(text)
	if m == nil {
		return 0, 0, bad
	}
	every, err1 := units.Parse(units.Duration, m[1])
	run, err2 := units.Parse(units.Duration, m[2])
	// Under a second a pump does not start; over a year no winter holds two cycles.
	if err1 != nil || err2 != nil || run < 1 || run >= every || every > 366*86400 {
		return 0, 0, bad
	}
	return every, run, nil
}
