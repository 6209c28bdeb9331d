package sim_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"winterline/sim"
	"winterline/weather"
)

// reliefHouse lets all its water out of a relief that faces the house: the line behind it climbs
// over the opening. Between its floats the basin holds 0.2 m² × 0.1 m = 20 L.
const reliefHouse = `title = "all by the relief"
[water]
cycles = "every 10 h for 100 s"
[site]
soil = "loam"
return_share = "50 %"
return_delay = "1 h"
[basin]
floor_below_ground = "2 m"
bottom_below_floor = "0.6 m"
area = "0.2 m2"
float_on = "0.3 m"
float_off = "0.2 m"
water_temperature = "8 degC"
[[pump]]
name = "main"
curve = [["0 m", "120 L/min"], ["9 m", "0 L/min"]]
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "3 m"
rise = "3 m"
setting = "indoor"
[[segment]]
name = "stub"
pipe = "1-1/2 in sch 40 PVC"
length = "1 m"
drop = "0 m"
setting = "through-wall"
[standpipe]
after = "stub"
pipe = "4 in D3034"
house_pipe_end = "0.5 m"
rim = "0.8 m"
[[relief]]
at = "standpipe"
height = "0.3 m"
width = "10 cm"
opening_height = "5 cm"
faces_house = true
[[segment]]
name = "out"
pipe = "4 in D3034"
length = "2 m"
drop = "0 m"
setting = "buried"
cover = "0.2 m"
[[segment]]
name = "up"
pipe = "4 in D3034"
length = "2 m"
rise = "1.2 m"
setting = "open-air"
[outlet]
kind = "open"
`

// Half of what is let go by the house comes back an hour later, in more lots than one: the pump starts
// whenever the floats' 20 L have come together, and the basin does not overflow. Of each litre that arrives
// 1 + 1/2 + 1/4 + … = 2 go out of the relief in the end, but for what waits.
func TestFloatAnswersReturningWater(t *testing.T) {
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	for i := range 24 {
		s.Time = append(s.Time, float64(i)*3600)
		s.Air = append(s.Air, 5)
	}
	k := caseOf(t, reliefHouse, s, sim.Supply{})
	r := resultOf(t, k)
	own := 0
	for i, c := range r.Cycles {
		if c.Volume > 0.1 {
			continue // scheduled
		}
		own++
		if c.Volume < 0.02-1e-9 || c.Volume > 0.035 {
			t.Errorf("run %d at hour %.3f lifted %.4f m³ that came back, want the floats' 0.020 or a lot more", i, c.Time/3600, c.Volume)
		}
	}
	if own < 6 {
		t.Errorf("%d runs for water that came back, want at least 6", own)
	}
	l1 := r.Ledger
	if l1.Floor != 0 {
		t.Errorf("%.4f m³ on the floor", l1.Floor)
	}
	if math.Abs(l1.Returned-0.5*l1.Relief) > 0.02 || math.Abs(l1.Relief-2*l1.Arrived) > 2*0.02+0.02 {
		t.Errorf("arrived %.4f m³, out of the relief %.4f, came back %.4f", l1.Arrived, l1.Relief, l1.Returned)
	}
}

// With all relief water back within a minute, more and more of it goes round, until the pump of the open line has no
// pause left: the basin overflows, but nothing holds the pump's water back.
func TestBusyPumpIsNotStuck(t *testing.T) {
	text := strings.NewReplacer(`return_share = "50 %"`, `return_share = "100 %"`, `return_delay = "1 h"`, `return_delay = "1 min"`).Replace(reliefHouse)
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	for i := range 49 {
		s.Time, s.Air = append(s.Time, float64(i)*3600), append(s.Air, 5)
	}
	k := caseOf(t, text, s, sim.Supply{})
	r := resultOf(t, k)
	left := 0.0
	for _, c := range r.Cycles {
		left += c.Refused
	}
	if left <= 0 || r.Ledger.Floor <= 0 {
		t.Errorf("%.3f m³ left in the basin by runs that the next one cut, %.3f m³ on the floor", left, r.Ledger.Floor)
	}
	for _, e := range r.Events {
		if e.Kind == sim.EventPumpNoFlow {
			t.Errorf("at hour %.2f: %s", e.Time/3600, e.Meaning)
		}
	}
}
