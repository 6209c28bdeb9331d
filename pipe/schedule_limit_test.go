package pipe

import (
	"strings"
	"testing"

	"winterline/pipe/units"
)

// Of a schedule full of faults not every one is told.
func TestScheduleGivesUp(t *testing.T) {
	rows := strings.Repeat("yesterday,1\n", 10*units.MaxProblems)
	_, cycles := ReadCycles("pump.csv", strings.NewReader("start,run_s\n"+rows))
	_, inflow := ReadInflow("inflow.csv", strings.NewReader("time,inflow_l_h\n"+rows))
	for name, problems := range map[string]units.Problems{"cycles": cycles, "inflow": inflow} {
		if n := len(problems); n != 4 || !strings.Contains(problems[2].Found, "197 more like it") || problems[n-1].Line != 202 || !strings.Contains(problems[n-1].Found, "more faults") {
			t.Errorf("%s: %d faults, the last %v", name, n, problems[n-1])
		}
	}
}
