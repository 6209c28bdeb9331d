package main

import (
	"os"
	"testing"
	"time"
)

// Time left is told once there is something to go by, in a unit that fits.
func TestTimeLeft(t *testing.T) {
	for _, c := range []struct {
		passed time.Duration
		done   float64
		want   string
	}{
		{500 * time.Millisecond, 0.5, ""}, {5 * time.Second, 0.01, ""}, {5 * time.Second, 1, ""},
		{2 * time.Second, 0.5, ", about 3 s left"}, {10 * time.Second, 0.1, ", about 2 min left"},
		{time.Hour, 0.5, ", about 61 min left"}, {time.Hour, 0.25, ", about 4 h left"},
	} {
		if got := timeLeft(c.passed, c.done); got != c.want {
			t.Errorf("%g done in %v: %q; want %q", c.done, c.passed, got, c.want)
		}
	}
}

// COLUMNS says how wide the window is; a file has no width of its own.
func TestWindow(t *testing.T) {
	file, err := os.Create(t.TempDir() + "/out")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	for columns, want := range map[string]int{"": 0, "72": 72, "-3": 0, "wide": 0} {
		if got := window(columns, file); got != want {
			t.Errorf("COLUMNS=%q: %d; want %d", columns, got, want)
		}
	}
}
