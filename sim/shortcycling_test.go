package sim_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// starts are n pump runs from an hour on, so many seconds apart and long.
func starts(hour float64, n int, apart, run float64) (all []sim.CycleRecord) {
	for i := range n {
		all = append(all, sim.CycleRecord{Time: hour*3600 + float64(i)*apart, Run: run, Volume: 0.01, Outlet: 0.01})
	}
	return all
}

// What counts is more than 20 starts in an hour, and runs under 10 s that are more than one and more
// than 1 % of all. A spell lasts until the pump runs as it should, however long it rests in between.
func TestShortCyclingSpells(t *testing.T) {
	for _, c := range []struct {
		name   string
		cycles []sim.CycleRecord
		want   []string // time [s]: starts in that hour
	}{
		{"20 starts", starts(0, 20, 170, 30), nil},
		{"21 starts: the 21st comes at 20·170 s", starts(0, 21, 170, 30), []string{"3400: 21"}},
		{"60 an hour for three hours", starts(5, 180, 60, 30), []string{"19200: 60"}},
		{"the same with a day's rest in between", slices.Concat(starts(5, 60, 60, 30), starts(29, 60, 60, 30)), []string{"19200: 60"}},
		{"and with an hour as it should be in between", slices.Concat(starts(5, 60, 60, 30), starts(10, 2, 600, 30), starts(29, 60, 60, 30)), []string{"19200: 60", "105600: 60"}},
		{"runs of 10 s", starts(1, 5, 600, 10), nil},
		{"runs of 9 s", starts(1, 5, 600, 9), []string{"3600: 5"}},
		{"one run of 9 s", starts(1, 1, 600, 9), nil},
		{"two of 300", slices.Concat(starts(0, 298, 360, 30), starts(100, 2, 600, 9)), nil},
		{"four of 302", slices.Concat(starts(0, 298, 360, 30), starts(100, 4, 600, 9)), []string{"360000: 4"}},
		{"ice cut them short", []sim.CycleRecord{{Time: 0, Run: 3, Refused: 0.02}, {Time: 600, Run: 3, Refused: 0.02}}, nil},
	} {
		var got []string
		for _, e := range sim.ShortCyclingEvents(c.cycles) {
			got = append(got, fmt.Sprintf("%.0f: %.0f", e.Time, *e.Value))
			if e.Kind != sim.EventShortCycling || e.Unit != "1/h" || e.Where != "pump" {
				t.Errorf("%s: %+v", c.name, e)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// A basin that holds 3 L between its floats under 4.2 L/min: the pump starts about 80 times an hour,
// and the run says so once.
func TestRunTellsOfShortCycling(t *testing.T) {
	text := strings.NewReplacer(`diameter = "18 in"`, `area = "0.1 m2"`, `"12 in"`, `"0.11 m"`, `"5 in"`, `"0.08 m"`, "CURVE", `"1/3 hp"`).Replace(oddHouse)
	l, profile := readLayout(t, text)
	s := rows(3*3600, 3600, func(float64) float64 { return 5 })
	k, err := sim.NewCase("busy", l, profile, s, sim.Supply{Inflow: []pipe.InflowRow{{Time: s.Start, Inflow: 4.2 / 60e3}}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(t.Context(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, e := range r.Events {
		if e.Kind == sim.EventShortCycling {
			n++
			if *e.Value < 70 || *e.Value > 84 {
				t.Errorf("%g starts in the hour; 4.2 L/min fill 3 L 84 times an hour, a little less with the runs", *e.Value)
			}
		}
	}
	if n != 1 {
		t.Errorf("%d events; want one", n)
	}
}
