package sim_test

import (
	"math"
	"testing"
)

// knownMiss is a limit that is not met, with the reason as far as the records tell it. A test
// fails when it is missed by more than written here, and when it is met after all.
type knownMiss struct {
	what  string
	worst float64 // in the limit's unit
	why   string
}

var knownMisses = []knownMiss{
	{"Fargo below 5 cm, winter 2015, deepest freezing off [cm]", 19.5,
		"the frozen topsoil conducted less that winter than in the others (its gradient was 2.4 times that at 60 to 80 cm, else 1.5), as dry soil does; started from its own thermometers the column goes as deep"},
	{"Drummondville E3, 7.5 cm E3 First Sensor, RMSE [K]", 2.3,
		"from 27 January to 10 March 2019 the plot followed the air as bare ground does, under 30 cm of snow at the station: see TestStationDrummondvilleBlown"},
	{"Drummondville plots and winters, mean RMSE [K]", 1.6,
		"the same six weeks; without them it is met"},
	{"Bad Lake, 100 cm, bias [K]", 1.7,
		"not known; the depths themselves are in doubt, and at those of the file's header the bias has the other sign"},
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
			l.t.Logf("MISSED, as known: %s: %+.2f, limit %g: %s", what, value, limit, k.why)
			return
		}
	}
	l.t.Errorf("%s: %+.2f, limit %g", what, value, limit)
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
