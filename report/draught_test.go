package report

import (
	"strings"
	"testing"

	"winterline/sim"
)

// The line of closedCase shut at hour 5.5. Air was drawn through it up to hours 2, 4 and 5 and in the
// half hour after: 3.5 hours, 0.62 m/s (2.03 ft/s) at most; what came after it had shut does not count.
func TestDraughtIsTold(t *testing.T) {
	r := closedCase()
	r.Hourly.Draught = []float64{0, 0, 0.3, 0, 0.62, 0.5, 0.4, 0.9, 0.9, 0.9}
	for system, want := range map[System]string{
		SI: "Outdoor air was drawn through the line for 4 hours of the day before, at up to 0.6 m/s (2.0 ft/s).",
		US: "at up to 2.0 ft/s (0.6 m/s).",
	} {
		if got := strings.Join(whyWords(r, system), " "); !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
	// Air that hardly moves, or moved long before, is not told of.
	r.Hourly.Draught = []float64{0, 0.005, 0.005, 0.005, 0.005, 0.005, 0.005, 0.9, 0.9, 0.9}
	if got := draughtWords(r, *r.Verdict.Closed, SI); got != "" {
		t.Errorf("still air: %q", got)
	}
	r.Hourly.Draught = []float64{0, 0.5, 0.5, 0.5, 0.5, 0, 0, 0, 0, 0}
	if got := draughtWords(r, 4*3600+draughtBefore, SI); got != "" {
		t.Errorf("the day before: %q", got)
	}
}

func TestDraughtInTheSummary(t *testing.T) {
	r := plain(sim.Clear)
	if got := summaryDraught(r); got != nil {
		t.Errorf("no way for air: %+v", got)
	}
	r.Draught = &sim.Draught{Hours: 12.34567, Mean: 0.41239, Greatest: 0.6}
	if got := summaryDraught(r); *got.Hours != 12.35 || *got.Mean != 0.412 || *got.Greatest != 0.6 {
		t.Errorf("%g h, %g and %g m/s", *got.Hours, *got.Mean, *got.Greatest)
	}
}
