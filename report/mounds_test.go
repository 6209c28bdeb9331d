package report

import (
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// moundedCase has ice of 1 in at the far end, of nothing at one relief opening and of 10 in at another.
func moundedCase() *sim.Result {
	r := closedCase()
	r.Layout.Reliefs = make([]pipe.Relief, 2)
	r.Verdict.ClosedByMound = true
	r.Closures[0].Mound = true
	r.Mounds = []sim.Mound{
		{Place: "outlet", SpreadArea: 2, Arrived: 3, RanOff: 2.95, Thickest: 0.0254, Mass: 46.6, At: 4 * 3600, Hours: 30},
		{Place: "relief 1", SpreadArea: 2, Arrived: 1, RanOff: 1},
		{Place: "relief 2", SpreadArea: 0.5, Arrived: 1, RanOff: 0.883, Thickest: 0.254, Mass: 117, At: 9 * 3600, Hours: 2},
	}
	return r
}

// By hand: 2 m² are 21.5 ft², 0.5 m² 5.4 ft².
func TestMoundWords(t *testing.T) {
	for system, want := range map[System][]string{
		US: {"at the far end up to 1 in (25 mm) thick over 22 ft² (2 m²), on ", "below relief opening 2 up to 10 in (254 mm) thick over 5.4 ft²", "(keep people off it"},
		SI: {"at the far end up to 25 mm (1 in) thick over 2 m² (22 ft²), on ", "below relief opening 2 up to 254 mm (10 in) thick over 0.5 m²", "(keep people off it"},
	} {
		got := moundWords(moundedCase(), system)
		if len(got) != len(want) {
			t.Fatalf("%q; want %d lines", got, len(want))
		}
		for i := range want {
			if !strings.Contains(got[i], want[i]) {
				t.Errorf("%q lacks %q", got[i], want[i])
			}
		}
	}
	r := moundedCase()
	r.Mounds = r.Mounds[1:2]
	if got := moundWords(r, US); got != nil {
		t.Errorf("%q of a place without ice", got)
	}
}

// A line that ice on the ground shut is told as such, and never as one that ice in the pipe shut first.
func TestShutByIceOnTheGround(t *testing.T) {
	for _, c := range []struct {
		kind      pipe.OutletKind
		shut, why string
	}{
		{pipe.Lid, "The lid froze shut under ice on the ground", "over the lid and held it down"},
		{pipe.Open, "The open end froze shut under ice on the ground", "over the whole of the opening"},
	} {
		r := moundedCase()
		r.Layout.Outlet.Kind = c.kind
		if got := headline(r, US); !strings.Contains(got, c.shut) {
			t.Errorf("%q lacks %q", got, c.shut)
		}
		if got := strings.Join(whyWords(r, US), " "); !strings.Contains(got, c.why) || strings.Contains(got, "yard run") {
			t.Errorf("%q lacks %q, or names a pipe", got, c.why)
		}
		if got := strings.Join(shutWords(r, Options{}), " "); !strings.Contains(got, ", under ice on the ground") {
			t.Errorf("%q", got)
		}
	}
}

// A walk that ices over: how much of the water lay there as ice, at the place that the finding is about.
func TestIcingWalkTellsOfItsIce(t *testing.T) {
	r := moundedCase()
	r.Cycles = []sim.CycleRecord{{Time: 2 * 3600, Volume: 0.3, Outlet: 0.1, Relief: 0.2}}
	for where, want := range map[string]string{
		pipe.AtOutlet: "100 L (26 gal) ran out there in frost, in 1 pump run; up to 47 L (12 gal) of it lay there as ice, 25 mm (1 in) thick",
		pipe.AtRelief: "200 L (53 gal) ran out there in frost, in 1 pump run; up to 117 L (31 gal) of it lay there as ice, 254 mm (10 in) thick",
	} {
		if got := findingEffect(pipe.Finding{Kind: pipe.FindingIcingWalk, Where: where}, r, SI); got != want {
			t.Errorf("%s: %q; want %q", where, got, want)
		}
	}
}

// summary.json has every mound in SI, litres for water.
func TestSummaryMounds(t *testing.T) {
	all := summaryMounds(moundedCase())
	if len(all) != 3 || all[1].At != nil || all[2].At == nil || *all[2].At != *momentAt(moundedCase().Start, 9*3600) {
		t.Fatalf("%+v", all)
	}
	m := all[2]
	if m.Place != "relief 2" || *m.LetGo != 1000 || *m.RanOff != 883 || *m.Thickest != 0.254 || *m.Mass != 117 || *m.Hours != 2 {
		t.Errorf("%+v", m)
	}
}
