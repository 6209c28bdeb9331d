package sim_test

import (
	"math"
	"strings"
	"testing"

	"winterline/sim"
	"winterline/sim/heat"
)

// gluedLine stands full from the check valve to shortly before its end: the last stretch rises to it.
const gluedLine = `title = "glued"
[basin]
floor_below_ground = "2.2 m"
bottom_below_floor = "0.6 m"
diameter = "0.45 m"
float_on = "0.3 m"
float_off = "0.12 m"
water_temperature = "8 degC"
check_valve = true
[[pump]]
name = "main"
curve = "1/3 hp"
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "3 m"
rise = "3 m"
setting = "indoor"
[[segment]]
name = "joists"
pipe = "1-1/2 in sch 40 PVC"
length = "1 m"
rise = "0.02 m"
setting = "indoor"
[[segment]]
name = "garden"
pipe = "1-1/2 in sch 40 PVC"
length = "3 m"
rise = "0.1 m"
setting = "open-air"
[outlet]
kind = "open"
`

// told are the events of trapped water.
func told(r *sim.Result) (all []sim.Event) {
	for _, e := range r.Events {
		if e.Kind == sim.EventTrappedWater {
			all = append(all, e)
		}
	}
	return all
}

// The bore of 1-1/2 in schedule 40 pipe is 48.26 − 2·3.68 = 40.90 mm: riser and joists hold
// 4 m · π/4 · (40.90 mm)² = 5.255 L, none of which freezes in the warm house. The plug that shuts them in
// is the garden's: its first cell, or the next, which lies a little higher and so shuts a little earlier. Then its
// 0.66 L are shut in as well, 9 % more as ice, and freeze on.
func TestTrappedBehindTheCheckValve(t *testing.T) {
	r := mustOdd(t, gluedLine, -10, true)
	if len(r.Trapped) != 1 || len(told(r)) != 1 {
		t.Fatalf("%d spells, %d events; want one each: %+v", len(r.Trapped), len(told(r)), r.Trapped)
	}
	x, e := r.Trapped[0], told(r)[0]
	if x.Where != "garden" || !x.Valve || x.Until != nil || x.Since < *r.Verdict.Closed {
		t.Errorf("%+v; shut at %g s", x, *r.Verdict.Closed)
	}
	if v := x.Volume * 1000; v < 5.25 || v > 5.98 {
		t.Errorf("%.3f L; want 5.255 to 5.97", v)
	}
	near(t, "value of the event", *e.Value, x.Volume*1000, 1e-12)
	if e.Where != "garden" || e.Unit != "L" || e.Time != x.Since || !strings.Contains(e.Meaning, "do not cut or unscrew it") || !strings.Contains(e.Meaning, "MPa") {
		t.Errorf("%+v", e)
	}
	// Between a twelfth, which a ring that fills the bore leaves liquid at most, and nothing of the
	// garden's 3.9 L froze on: 0.0905·f/(5.1e-10 (1 − f)) with f up to 0.33/5.58 = 0.059 is 11 MPa at
	// most; with all of the first cell, f up to (0.33 + 0.66)/6.24 = 0.16, 34 MPa. The ice at −10 °C would bear
	// more.
	if !x.Rigid || x.Pressure <= 0.2e6 || x.Pressure > 34e6 {
		t.Errorf("%.3g MPa, rigid %v; want what a rigid pipe would bear, up to 34 MPa", x.Pressure/1e6, x.Rigid)
	}
}

// A house pipe that ends open in a standpipe shuts water in where the ice is in that pipe itself.
func TestTrappedInTheHousePipe(t *testing.T) {
	text := strings.Replace(gluedLine, "[outlet]\nkind = \"open\"", `[[segment]]
name = "yard"
pipe = "4 in D3034"
length = "2 m"
drop = "0.02 m"
setting = "open-air"
[standpipe]
after = "garden"
pipe = "4 in D3034"
house_pipe_end = "0.4 m"
rim = "0.45 m"
[outlet]
kind = "open"
level = "0.1 m"`, 1)
	r := mustOdd(t, text, -10, true)
	if len(r.Trapped) != 1 || !r.Trapped[0].Valve || r.Trapped[0].Where != "garden" {
		t.Fatalf("%+v", r.Trapped)
	}
	if v := r.Trapped[0].Volume * 1000; v < 5.25 || v > 5.98 {
		t.Errorf("%.3f L; want 5.255 to 5.97", v)
	}
}

// Nothing is shut in without a check valve, behind an opening that lets it out, behind the open end of
// a house pipe, or where no water has frozen. The line shuts all the same.
func TestNothingTrapped(t *testing.T) {
	edited := func(text string, changes ...string) string {
		for i := 0; i < len(changes); i += 2 {
			if !strings.Contains(text, changes[i]) {
				t.Fatalf("no %q to change", changes[i])
			}
			text = strings.Replace(text, changes[i], changes[i+1], -1)
		}
		return text
	}
	const joists = "rise = \"0.02 m\"\nsetting = "
	for name, text := range map[string]string{
		"no check valve": edited(gluedLine, "check_valve = true", "check_valve = false", "setting =", "standing = \"full\"\nsetting ="),
		"an opening before the plug": edited(gluedLine, joists+"\"indoor\"", joists+"\"sheltered\"", "[basin]", "[site]\nsheltered_temperature = \"5 degC\"\n[basin]") +
			"[[relief]]\nat = \"joists\"\nheight = \"0.5 m\"\nwidth = \"30 mm\"\nopening_height = \"20 mm\"\n",
		"a house pipe that ends open": edited(gluedLine, joists, "drop = \"0.02 m\"\nsetting = ", "kind = \"open\"", "kind = \"open\"\nlevel = \"0.15 m\"") +
			"[standpipe]\nafter = \"joists\"\npipe = \"4 in D3034\"\nhouse_pipe_end = \"0.4 m\"\nrim = \"0.45 m\"\n",
		"a downspout": gluedLine + "[[extra_inflow]]\nkind = \"roof\"\narea = \"40 m2\"\njoins = \"joists\"\n",
	} {
		r := mustOdd(t, text, -10, name != "no check valve")
		if r.Verdict.Closed == nil {
			t.Errorf("%s: the line never shut, so that this shows nothing", name)
		}
		if len(r.Trapped) != 0 || len(told(r)) != 0 {
			t.Errorf("%s: %+v", name, r.Trapped)
		}
	}
	if r := mustOdd(t, gluedLine, 2, true); len(r.Trapped) != 0 {
		t.Errorf("without frost: %+v", r.Trapped)
	}
}

// An insulated middle between two bare ends freezes last: what stands in it is shut in between
// two plugs, without any valve. By hand: 4 m · π/4 · (40.90 mm)² = 5.25 L less the ice in it by then.
func TestTrappedBetweenTwoPlugs(t *testing.T) {
	const text = `title = "two"
[[segment]]
name = "near"
pipe = "1-1/2 in sch 40 PVC"
length = "1 m"
drop = "0 m"
setting = "open-air"
standing = "full"
start_temperature = "2 degC"
[[segment]]
name = "middle"
pipe = "1-1/2 in sch 40 PVC"
length = "4 m"
drop = "0 m"
setting = "open-air"
standing = "full"
start_temperature = "2 degC"
insulation = [{ thickness = "25 mm", material = "closed-cell foam" }]
[[segment]]
name = "far"
pipe = "1-1/2 in sch 40 PVC"
length = "1 m"
drop = "0 m"
setting = "open-air"
standing = "full"
start_temperature = "2 degC"
[outlet]
kind = "open"
`
	r := mustOdd(t, text, -15, false)
	if len(r.Trapped) != 1 {
		t.Fatalf("%+v", r.Trapped)
	}
	x := r.Trapped[0]
	if x.Valve || x.Where != "far" || x.Volume*1000 < 2.5 || x.Volume*1000 > 5.25 {
		t.Errorf("%+v", x)
	}
	// It freezes through within two days, so that the ice alone bounds the pressure.
	if x.Until == nil || x.Rigid || !x.OverRating() {
		t.Errorf("%+v", x)
	}
}

// The smaller of the two figures bounds the pressure. At −1 °C ice bears 13.45 MPa more than at 0 °C
// (IAPWS R14-08: 13.5 MPa a kelvin near 0 °C, where it melts at 0.034 MPa over the air's); 1 % of ice in a rigid pipe makes
// 0.0905·0.01/(5.1e-10·0.99) = 1.79 MPa, 50 % makes 177 MPa.
func TestTrappedBound(t *testing.T) {
	for _, c := range []struct {
		frozen, coldest, want, tol float64
		rigid                      bool
	}{{0.01, -1, 1.79, 0.02, true}, {0.5, -1, 13.4, 0.02, false}, {0.5, -30, 177, 0.02, true}, {1, -30, 209, 0.01, false}, {0.5, 0, 0.034, 0.1, false}} {
		got, rigid := sim.TrappedBound(c.frozen, c.coldest)
		if math.Abs(got/1e6-c.want) > c.tol*c.want+0.005 || rigid != c.rigid {
			t.Errorf("%g frozen at %g °C: %.4g MPa, rigid %v; want %g, %v", c.frozen, c.coldest, got/1e6, rigid, c.want, c.rigid)
		}
	}
	if heat.IceExpansion < 0.09 || heat.IceExpansion > 0.091 {
		t.Errorf("ice swells by %g; the figures above take 0.0905", heat.IceExpansion)
	}
}
