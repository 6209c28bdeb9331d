package sim_test

import (
	"math"
	"testing"

	"winterline/sim/verify"
)

// knownMiss is a limit that is not met; the reason, as far as the records tell it, stands in the embedded table of measured
// ground. A test fails when it is missed by more than written here, and when it is met after all.
type knownMiss struct {
	what  string
	worst float64 // in the limit's unit
	row   string  // of the table
}

// Of the snow on the third plot: TestStationDrummondvilleBlown.
var knownMisses = []knownMiss{
	{"Fargo below 5 cm, winter 2015, deepest freezing off [cm]", 19.5, "clay, deepest frost, winter 1"},
	{"Drummondville E3, 7.5 cm E3 First Sensor, RMSE [K]", 2.3, "plot 3, 7.5 cm, thermometer 1"},
	{"Drummondville plots and winters, mean RMSE [K]", 1.6, "plots, mean of plots and winters"},
	{"Bad Lake, 100 cm, bias [K]", 1.7, "prairie, 100 cm"},
}

// limits judges values and keeps account of the known misses.
type limits struct {
	t    *testing.T
	seen map[string]bool
}

// atMost holds the size of a value to a limit.
func (l *limits) atMost(what string, value, limit float64) {
	l.t.Helper()
	if math.Abs(value) <= limit {
		return
	}
	for _, k := range knownMisses {
		if k.what == what && math.Abs(value) <= k.worst {
			l.seen[what] = true
			l.t.Logf("MISSED, as known: %s: %+.2f, limit %g: %s", what, value, limit, whyMissed(l.t, k.row))
			return
		}
	}
	l.t.Errorf("%s: %+.2f, limit %g", what, value, limit)
}

// whyMissed is the reason that the embedded table gives for a row.
func whyMissed(t *testing.T, id string) string {
	t.Helper()
	rows, err := verify.Measured()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range rows {
		if m.ID == id && m.Why != "" {
			return m.Why
		}
	}
	t.Errorf("%s gives no reason for %q", measuredTable, id)
	return ""
}

// done says which known misses are none any more.
func (l *limits) done() {
	l.t.Helper()
	for _, k := range knownMisses {
		if !l.seen[k.what] {
			l.t.Errorf("%s: no longer missed; take it off the list", k.what)
		}
	}
}
