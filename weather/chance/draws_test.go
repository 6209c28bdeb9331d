package chance

import (
	"math"
	"reflect"
	"testing"
)

var nan = math.NaN()

var ranges = []Range{
	{Low: 2, Usual: 3, High: 7},
	{Low: -4, Usual: nan, High: 6},
	{Low: 1e-6, Usual: 1e-5, High: 1e-4, Log: true},
	{Low: 1e-6, Usual: nan, High: 1e-4, Log: true},
	{Low: 5, Usual: 5, High: 9},
}

// shareBelow is the part of draws that are to lie below x, written out from the areas under
// the triangle rather than taken from a library.
func shareBelow(r Range, x float64) float64 {
	low, usual, high := r.Low, r.Usual, r.High
	if r.Log {
		low, usual, high, x = math.Log(low), math.Log(usual), math.Log(high), math.Log(x)
	}
	switch {
	case math.IsNaN(usual):
		return (x - low) / (high - low)
	case x < usual:
		return (x - low) * (x - low) / ((high - low) * (usual - low))
	}
	return 1 - (high-x)*(high-x)/((high-low)*(high-usual))
}

// Of every quantity, each of n parts of equal chance is drawn from once.
func TestDrawsAreALatinHypercube(t *testing.T) {
	const n = 50
	draws := Draws(n, 11, ranges)
	for j, r := range ranges {
		seen := make([]int, n)
		for _, row := range draws {
			if row[j] < r.Low || row[j] > r.High {
				t.Fatalf("%+v: %g", r, row[j])
			}
			seen[min(int(shareBelow(r, row[j])*n), n-1)]++
		}
		for part, times := range seen {
			if times != 1 {
				t.Errorf("%+v: part %d drawn from %d times", r, part, times)
			}
		}
	}
}

// Quantities are drawn independently: over 2,000 rows their ranks are uncorrelated to within
// four standard errors, 1/√2000 each.
func TestDrawsAreIndependent(t *testing.T) {
	const n = 2000
	draws := Draws(n, 12, ranges)
	for a := range ranges {
		for b := range a {
			sum := 0.0
			for _, row := range draws {
				sum += (shareBelow(ranges[a], row[a]) - 0.5) * (shareBelow(ranges[b], row[b]) - 0.5)
			}
			near(t, "rank correlation", sum*12/n, 0, 4/math.Sqrt(n))
		}
	}
}

func TestDrawsHangOnTheSeed(t *testing.T) {
	first := Draws(20, 1, ranges)
	if !reflect.DeepEqual(first, Draws(20, 1, ranges)) {
		t.Error("the same seed draws otherwise")
	}
	if reflect.DeepEqual(first, Draws(20, 2, ranges)) {
		t.Error("another seed draws the same")
	}
	for i, row := range Draws(20, 1, ranges[:2]) {
		if !reflect.DeepEqual(row, first[i][:2]) {
			t.Errorf("row %d: %v, want %v as with more ranges", i, row, first[i][:2])
		}
	}
}

func TestDrawsOfNothing(t *testing.T) {
	if got := Draws(0, 1, ranges); len(got) != 0 {
		t.Errorf("%v", got)
	}
	if got := Draws(3, 1, nil); len(got) != 3 {
		t.Errorf("%v", got)
	}
	for _, row := range Draws(3, 1, []Range{{Low: 4, High: 4, Usual: 4}, {Low: 4, High: 4, Usual: nan, Log: true}}) {
		if row[0] != 4 || row[1] != 4 {
			t.Errorf("%v", row)
		}
	}
}
