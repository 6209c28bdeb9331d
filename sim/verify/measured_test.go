package verify_test

import (
	"math"
	"testing"

	"winterline/sim/verify"
)

// Every limit that is missed has its reason, no other row has one, and no row stands twice. What the figures themselves
// must be, the stations' tests of sim say.
func TestMeasuredTellsWhy(t *testing.T) {
	rows, err := verify.Measured()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	limited := 0
	for _, m := range rows {
		if seen[m.ID] {
			t.Errorf("%s stands twice", m.ID)
		}
		seen[m.ID] = true
		if m.Missed() != (m.Why != "") {
			t.Errorf("%s: missed %v, reason %q", m.ID, m.Missed(), m.Why)
		}
		if m.Limited() {
			limited++
		}
	}
	if limited < 20 {
		t.Errorf("only %d of %d rows have a limit", limited, len(rows))
	}
}

func TestMeasuredMisses(t *testing.T) {
	none := math.NaN()
	kept := verify.MeasuredRow{Bias: -1, RMSE: 1.5, AirRMSE: 2, MostBias: 1, MostRMSE: 1.5, MostShare: 0.75}
	free := verify.MeasuredRow{Bias: 9, RMSE: 9, AirRMSE: 1, MostBias: none, MostRMSE: none, MostShare: none}
	if kept.Missed() || !kept.Limited() || free.Missed() || free.Limited() {
		t.Error("kept or no limits are missed")
	}
	for _, spoil := range []func(*verify.MeasuredRow){
		func(m *verify.MeasuredRow) { m.Bias = -1.01 }, func(m *verify.MeasuredRow) { m.RMSE = 1.51 }, func(m *verify.MeasuredRow) { m.AirRMSE = 1.9 },
	} {
		m := kept
		if spoil(&m); !m.Missed() {
			t.Errorf("%+v is not missed", m)
		}
	}
}
