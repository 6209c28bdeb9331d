package sim_test

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"winterline/sim"
	"winterline/weather"
)

// roofRun takes a house through six days of thaw at noon, with a shower, and hard frost at night; the
// pump runs twice a day. The line is insulated and sags. changes are pairs of old and new text.
func roofRun(t *testing.T, extra string, changes ...string) *sim.Result {
	t.Helper()
	text := strings.Replace(oddHouse, "CURVE", `[["0 m", "150 L/min"], ["8 m", "0 L/min"]]`, 1)
	text = strings.Replace(text, `drop = "0.1 m"`, "drop = \"0.1 m\"\nsag = \"3 in\"\nstanding = \"0 %\"", 1)
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	for i := range 6*24 + 1 {
		s.Time = append(s.Time, float64(i)*3600)
		noon := math.Cos(2 * math.Pi * float64(i-13) / 24)
		s.Air = append(s.Air, -4+7*noon)
		s.SnowfallWater = append(s.SnowfallWater, 0)
	}
	s.SnowfallWater[0] = 0.050
	k := caseOf(t, strings.NewReplacer(changes...).Replace(text)+extra, s, sim.Supply{Given: true})
	r := resultOf(t, k)
	return r
}

// A downspout that shares a line which the pump leaves dry fills its sag with melt every noon, and
// the nights freeze it through; without the downspout nothing stands there. Each hour above 0 °C melts
// 3.5/24 mm for each kelvin: from −4 + 7 cos, six noons of 7.6 hours with 13.6 K h give 11.9 mm on 40 m².
func TestSharedDownspout(t *testing.T) {
	alone := roofRun(t, "")
	shared := roofRun(t, "[[extra_inflow]]\nkind = \"roof\"\narea = \"40 m2\"\njoins = \"out\"\n")
	if alone.Ledger.Extra != 0 || alone.Verdict.FirstIce != nil || alone.Verdict.State != sim.Clear {
		t.Errorf("without the roof: %.3f m³ joined, state %v", alone.Ledger.Extra, alone.Verdict.State)
	}
	if ice := shared.Segments[len(shared.Segments)-1].LargestIce; ice < 0.99 {
		t.Errorf("with the roof: largest ice share %.2f", ice)
	}
	if all := 0.040 * 6 * 13.6 * 3.5 / 24; math.Abs(shared.Ledger.Extra-all) > 0.1*all {
		t.Errorf("%.3f m³ of roof water joined, want about %.3f", shared.Ledger.Extra, all)
	}
}

// Eight downspouts of ten minutes each do not fit into an hour one after another: they share it, and none of
// the water is lost, which is, by hand as above, that of 8·5 m². What finds the line shut leaves over the standpipe's rim.
func TestManyDownspouts(t *testing.T) {
	r := roofRun(t, "[standpipe]\nafter = \"riser\"\npipe = \"4 in D3034\"\nhouse_pipe_end = \"0.45 m\"\nrim = \"0.5 m\"\n"+
		strings.Repeat("[[extra_inflow]]\nkind = \"roof\"\narea = \"5 m2\"\njoins = \"out\"\n", 8), `rise = "10 ft"`, `rise = "1 ft"`, `sag = "3 in"`, `sag = "8 in"`)
	if all := 0.040 * 6 * 13.6 * 3.5 / 24; math.Abs(r.Ledger.Extra-all) > 0.1*all {
		t.Errorf("%.3f m³ of roof water joined, want about %.3f", r.Ledger.Extra, all)
	}
	if r.Ledger.Rim <= 0 {
		t.Error("nothing left over the rim")
	}
	if where := notANumber(reflect.ValueOf(*r), "Result"); where != "" {
		t.Errorf("not a number: %s", where)
	}
}
