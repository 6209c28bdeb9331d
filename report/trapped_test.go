package report

import (
	"slices"
	"strings"
	"testing"

	"winterline/sim"
)

// shutIn are three lengths by hand, out of order.
func shutIn(r *sim.Result) {
	until := 60 * 3600.0
	r.Trapped = []sim.Trapped{
		{Since: 30 * 3600, Until: &until, Where: "yard run", Volume: 0.0208, Pressure: 0, Coldest: 0},
		{Since: 40 * 3600, Where: "wall stub", Valve: true, Volume: 0.0042, Pressure: 3.5e6, Coldest: -4, Rigid: true},
		{Since: 42 * 3600, Until: &until, Where: "yard run", Volume: 0.0208, Pressure: 0.25e6, Coldest: -0.02},
	}
}

// The worst first, with its litres, its times and the bound of its pressure in both units: 3.5 MPa are
// 508 psi, and 0.25 MPa 36.3 psi.
func TestTrappedWords(t *testing.T) {
	r := plain(sim.ShutRelieved)
	if got := trappedWords(r, US); got != nil {
		t.Errorf("nothing shut in: %q", got)
	}
	shutIn(r)
	want := []string{
		"4.2 L (1.1 gal) shut in between the closed check valve and ice in the wall stub, Tue Dec 2 16:00, still so at the end of the record; its ice could press up to 3.5 MPa (510 psi) and burst a plastic pipe",
		"21 L (5.5 gal) shut in between two plugs of ice, one in the yard run, Tue Dec 2 18:00 to Wed Dec 3 12:00; under 0.25 MPa (36 psi) at most",
		"1 more time in events.csv",
		"a plugged line may be under pressure: do not cut or unscrew it",
	}
	if got := trappedWords(r, SI); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	r.Trapped = r.Trapped[:1]
	want[0] = "5.5 gal (21 L) shut in between two plugs of ice, one in the yard run, Tue Dec 2 06:00 to Wed Dec 3 12:00; hardly under pressure, since no more water froze there"
	if got := trappedWords(r, US); !slices.Equal(got, []string{want[0], want[3]}) {
		t.Errorf("got %q", got)
	}
	var out strings.Builder
	if err := Screen(&out, r, Options{}); err != nil || !strings.Contains(out.String(), "\nTrapped      5.5 gal (21 L) shut in") {
		t.Errorf("%v\n%s", err, out.String())
	}
}

func TestTrappedSummary(t *testing.T) {
	r := plain(sim.ShutRelieved)
	shutIn(r)
	all := encoded(t, r, Provenance{})["trapped_water"].([]any)
	if len(all) != 3 {
		t.Fatalf("%d lengths", len(all))
	}
	valve := all[1].(map[string]any)
	if valve["where"] != "wall stub" || valve["other_end"] != "check valve" || valve["litres"] != 4.2 || valve["pressure_at_most_mpa"] != 3.5 ||
		valve["bound"] != "rigid-pipe" || valve["until"] != nil || valve["since"].(map[string]any)["hour"] != 40.0 {
		t.Errorf("%v", valve)
	}
	if plugs := all[2].(map[string]any); plugs["other_end"] != "ice" || plugs["bound"] != "ice-melts" {
		t.Errorf("%v", plugs)
	}
}
