package main

import (
	"math"
	"strings"
	"testing"
)

// 20 in are 20 × 25.4 mm; 1 ft 6 in are 18 in.
func TestParseDepths(t *testing.T) {
	got, err := parseDepths(`0.1 m, 20 in,1 ft 6 in,75 cm,0 m,10 m`)
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{0.1, 0.508, 0.4572, 0.75, 0, 10}
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-12 {
			t.Errorf("depth %d is %v m, want %v m", i, got[i], want[i])
		}
	}
	if usual, err := parseDepths(""); usual != nil || err != nil {
		t.Errorf("an empty list gives %v, %v; want neither", usual, err)
	}
}

// All that is wrong with a list comes at once, and is a fault of the command line.
func TestParseDepthsRefuses(t *testing.T) {
	fifty := strings.Repeat("x,", 50)
	for _, c := range []struct{ name, list, want string }{
		{"no unit", "5", `--depths: found "5" (no unit); expected a length`},
		{"another dimension", "5 degC", `--depths: found "5 degC", a temperature; expected a length`},
		{"nothing between commas", "1 m,,2 m", `--depths: found nothing; expected a length`},
		{"above the ground", "-1 in", `--depths: found "-1 in"; expected a depth from 0 to 10 m`},
		{"too deep", "10.001 m", `--depths: found "10.001 m"; expected a depth from 0 to 10 m`},
		{"twice", "0.508 m,1 m,20 in", `--depths: found "20 in" after "0.508 m"; expected each depth once`},
		{"too many", fifty + "x", `--depths: found 51 depths; expected at most 50`},
		{"after another fault", "5, 12 m", `--depths: found "12 m"; expected`},
	} {
		_, err := parseDepths(c.list)
		if err == nil {
			t.Errorf("%s: no error", c.name)
			continue
		}
		if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
		if exitCode(err) != exitUsage {
			t.Errorf("%s: exit code %d, want %d", c.name, exitCode(err), exitUsage)
		}
	}
}
