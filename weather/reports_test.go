package weather

import (
	"testing"
	"time"
)

// Running totals of two hours: 2, then 3, then 5 by the routine report of the first; a
// gauge that was emptied between; one report without a total.
func TestIncrements(t *testing.T) {
	totals := []float64{1, 2, 3, 5, 4, none, 6, 1}
	increments([]int64{0, 1, 1, 1, 2, 2, 2, 2}, totals)
	wantColumn(t, "increments", totals, 1, 2, 1, 2, 4, none, 2, 1)
}

// A report at the routine minute closes its hour; one a minute later opens the next. Before
// 1970 the same holds.
func TestPeriods(t *testing.T) {
	var stamps []int64
	for _, text := range []string{"1969-12-31 22:53", "1969-12-31 22:54", "1969-12-31 23:53", "1970-01-01 00:53", "1970-01-01 00:54"} {
		at, err := time.Parse("2006-01-02 15:04", text)
		if err != nil {
			t.Fatal(err)
		}
		stamps = append(stamps, at.Unix())
	}
	if got := routineMinute(stamps); got != 53 {
		t.Errorf("routine minute %d, want 53", got)
	}
	all := periods(stamps, 53)
	for i, want := range []int64{0, 1, 1, 2, 3} {
		if got := all[i] - all[0]; got != want {
			t.Errorf("row %d in period %d, want %d", i, got, want)
		}
	}
}
