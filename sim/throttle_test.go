package sim_test

import (
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// A glued line that stands full in cold air, with some 400 L at 12 °C pumped through the ring of
// ice that has grown in it.
const throttledLine = `title = "throttled"
[basin]
floor_below_ground = "2.2 m"
bottom_below_floor = "0.7 m"
diameter = "0.45 m"
float_on = "0.35 m"
float_off = "0.15 m"
water_temperature = "12 degC"
check_valve = true
[[pump]]
name = "main"
curve = "1/3 hp"
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "2.6 m"
rise = "2.6 m"
setting = "sheltered"
[[segment]]
name = "out"
pipe = "1-1/2 in sch 40 PVC"
length = "1 m"
drop = "0.01 m"
setting = "open-air"
[outlet]
kind = "open"
`

// runAfter is how long the pump takes for its run of 180 s after so many hours at −12 °C [s], and
// how much of the line's water was ice before it [-].
func runAfter(t *testing.T, hours float64) (run, ice float64) {
	t.Helper()
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	for i := range 41 {
		s.Time, s.Air = append(s.Time, float64(i)*3600), append(s.Air, -12)
	}
	cycles := []pipe.Cycle{{Start: s.Stamp(hours * 3600), Run: 180}}
	k := caseOf(t, throttledLine, s, sim.Supply{Cycles: cycles, Given: true})
	r := resultOf(t, k)
	return r.Cycles[0].Run, r.Hourly.Segments[0].Ice[int(hours)]
}

// Water that runs through a ring of ice melts it, and then runs freely. The bound is by hand: four
// fifths of some 3.5 L as ice take 2.8 kg × 333 kJ/kg = 0.93 MJ. Even a fifth of the free
// 2.4 L/s brings 0.48 kg/s × 4.2 kJ/(kg K) × 12 K = 24 kW, so that the ring is gone in about 40 s even if
// nearly half of the heat runs past: all but the first minute is free flow, and the run of
// 180 s cannot take 300 s. With the first flow held throughout it would take some 1,000 s.
func TestThrottledRunMeltsItsWayFree(t *testing.T) {
	run, ice := runAfter(t, 9.5)
	if ice < 0.75 || ice > 0.88 {
		t.Fatalf("ice %.3f before the run; the bound is for about 0.81", ice)
	}
	if run < 180 || run > 300 {
		t.Errorf("a run of 180 s through the ring took %.0f s", run)
	}
}
