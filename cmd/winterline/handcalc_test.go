package main

import (
	"context"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"winterline/sim"
)

// The README works one pump cycle by hand, in the table behind the words "By hand". The hand's figures must be what
// its formulas give, and the program's what a run of testdata/hand-calculation gives, to the digits
// printed; the two may differ by 2 %.
func TestHandCalculation(t *testing.T) {
	byHand, byProgram := handTable(t)
	hand, program := worked(), simulated(t)
	for name, want := range hand {
		if got := byHand[name]; math.Abs(got-want) > 0.006*want {
			t.Errorf("%s: the README's hand says %g, its formula %g", name, got, want)
		}
		if got := byProgram[name]; math.Abs(got-program[name]) > 0.002*program[name] {
			t.Errorf("%s: the README says that the program gives %g, it gives %g", name, got, program[name])
		}
		if math.Abs(program[name]-want) > 0.02*want {
			t.Errorf("%s: by hand %g, by the program %g", name, want, program[name])
		}
	}
	if len(byHand) != len(hand) {
		t.Errorf("the README's table has %d rows, this test %d", len(byHand), len(hand))
	}
}

// handTable reads the README's table: quantity, by hand, by the program.
func handTable(t *testing.T) (hand, program map[string]float64) {
	t.Helper()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	hand, program = map[string]float64{}, map[string]float64{}
	_, rest, _ := strings.Cut(string(text), "| worked cycle | by hand | by the program |\n|---|---|---|\n")
	for line := range strings.Lines(rest) {
		cells := strings.Split(line, "|")
		if len(cells) != 5 {
			break
		}
		name := strings.TrimSpace(cells[1])
		for i, m := range []map[string]float64{hand, program} {
			word, _, _ := strings.Cut(strings.TrimSpace(cells[2+i]), " ")
			v, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			m[name] = v
		}
	}
	return hand, program
}

// Rows of the table.
const (
	rowWater    = "water in the pipe"
	rowOut      = "pumped water that goes out at the end"
	rowFirstIce = "first ice, after the run"
	rowHalf     = "half of it ice"
	rowMost     = "nine tenths of it ice"
)

// worked is the calculation as the README tells it.
func worked() map[string]float64 {
	const bore, outer, foam = 0.0409 / 2, 0.0483 / 2, 0.0983 / 2 // radii [m]
	water := math.Pi * bore * bore * 1000                        // [kg/m]
	wall := math.Pi * (outer*outer - bore*bore) * 1400 * 900
	cover := math.Pi * (foam*foam - outer*outer) * 30 * 1300
	resistance := math.Log(foam/outer)/(2*math.Pi*0.036) + math.Log(outer/bore)/(2*math.Pi*0.19) + 1/(15*2*math.Pi*foam)
	first := (water*4219 + wall + cover/3) * resistance * math.Log(23.0/15) / 3600
	freeze := water * 333400 / (15 / resistance) / 3600
	return map[string]float64{
		rowWater: 5 * water, rowOut: 200,
		rowFirstIce: first, rowHalf: first + freeze/2, rowMost: first + 0.9*freeze,
	}
}

// simulated runs the same.
func simulated(t *testing.T) map[string]float64 {
	t.Helper()
	in, err := load("../../testdata/hand-calculation", &inputOptions{})
	if err != nil {
		t.Fatal(err)
	}
	k, err := sim.NewCase(in.name, in.layout, in.profile, in.series, in.supply)
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(context.Background(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	const end = 1 + 300.0/3600 // of the pump's run [h]
	s := r.Segments[0]
	return map[string]float64{
		rowWater: 1000 * s.Standing, rowOut: 1000 * r.Ledger.Outlet,
		rowFirstIce: *s.FirstIce/3600 - end, rowHalf: *s.Ice50/3600 - end, rowMost: *s.Ice90/3600 - end,
	}
}
