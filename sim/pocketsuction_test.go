package sim_test

import (
	"math"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// thirstyPocket is one of 0.6 m × 0.5 m × 0.4 m with 40 % voids, in silty clay of 0.9 mm/h and a suction of
// 292.2 mm (Rawls, Brakensiek and Miller 1983) that takes 10 % of water by volume.
func thirstyPocket(t *testing.T) *sim.RockPocket {
	t.Helper()
	made, err := pipe.MakeSoil("silty clay", 0.2)
	if err != nil || made.FrontSuction != 0.2922 {
		t.Fatalf("suction of silty clay %g m (%v); want 0.2922", made.FrontSuction, err)
	}
	l := pocketLayout(0.6, 0.5, 0.4, 0.4, 0.9e-3/3600)
	s := &l.Site.Soil
	s.FrontSuction, s.Porosity, s.DryDensity, s.Moisture = made.FrontSuction, 0.50, 999.84, 0.40
	near(t, "deficit", s.MoistureDeficit(), 0.10, 1e-12)
	return sim.NewRockPocket(l)
}

// restFor lets the pocket lie for some hours and fills it to the brim at their end.
func restFor(p *sim.RockPocket, hours int) {
	p.Fill(0)
	for range hours {
		p.Drain(3600)
	}
	p.Fill(1)
}

const litreOfWater = 0.99984 // [kg]

// By hand. After three dry days, water standing 0.4 m deep: F − G ln(1 + F/G) = K t with
// G = (0.2922 + 0.4)·0.10 = 0.06922 m and K t = 0.9 mm gives F = 0.17004·G = 11.77 mm in the first hour,
// 13.08 times what K alone takes. With it the level falls by void·area·dh/dt = −F/t·(area + perimeter·h):
// (0.3 + 2.2 h) shrinks by exp(−0.01177·2.2/0.12) = 0.8059 from 1.18 to 0.9510, so h = 0.2959 m, and
// 0.12 m²·0.1041 m = 12.49 L are gone.
func TestFirstFillingDrinksFast(t *testing.T) {
	p := thirstyPocket(t)
	restFor(p, 72)
	near(t, "litres in the first hour", p.Drain(3600)/litreOfWater, 12.49, 1e-3)
}

// Otherwise K alone: exp(−0.0009·2.2/0.12) = 0.98364 of 1.18 is 1.1607, h = 0.3912 m: 1.053 L.
// So it is where the pocket was empty for less than three days, and at the record's start.
func TestLaterFillingsDrinkSlowly(t *testing.T) {
	for name, before := range map[string]func(*sim.RockPocket){
		"after 71 hours":      func(p *sim.RockPocket) { restFor(p, 71) },
		"at the start":        func(p *sim.RockPocket) { restFor(p, 0) },
		"the second one":      func(p *sim.RockPocket) { restFor(p, 72); p.Drain(3600); restFor(p, 24) },
		"in a wet three days": func(p *sim.RockPocket) { restFor(p, 40); p.Drain(3600); restFor(p, 40) },
		"soil without suction": func(p *sim.RockPocket) {
			*p = *sim.NewRockPocket(pocketLayout(0.6, 0.5, 0.4, 0.4, 0.9e-3/3600))
			restFor(p, 100)
		},
	} {
		p := thirstyPocket(t)
		before(p)
		near(t, name, p.Drain(3600)/litreOfWater, 1.053, 2e-3)
	}
}

// As the front runs on, the pocket kept full drinks ever less, towards what K alone takes, and in
// all what Green and Ampt's equation says. By hand: after 100 h K t = 90 mm and G = 0.06922 m, so
// F/G − ln(1 + F/G) = 1.3002 has the root F/G = 2.5738: 178.2 mm have gone in. What it gives off is what it loses.
func TestFirstFillingSlowsDown(t *testing.T) {
	p := thirstyPocket(t)
	restFor(p, 72)
	last, depth := math.Inf(1), 0.0
	for range 100 {
		p.Fill(1)
		took := p.Drain(3600)
		near(t, "book", p.Capacity()-p.Held(), took, 1e-12)
		if took >= last {
			t.Fatalf("%g kg after %g", took, last)
		}
		last = took
		depth += -math.Log(1-took/litreOfWater/1000/0.12*2.2/1.18) * 0.12 / 2.2 // of (0.3 + 2.2 h), from 1.18
	}
	near(t, "depth after 100 h [m]", depth, 0.1782, 1e-3)
}

// drunk is what the soil has taken [L] ten hours after the pocket of a line first filled, in a mild
// week in which the pump first ran after some hours.
func drunk(t *testing.T, hour float64) float64 {
	t.Helper()
	text := strings.NewReplacer(`soil = "loam"`, "soil = \"silty clay\"\nsoil_moisture = \"20 %\"\nground_mean = \"9 degC\"\nground_swing = \"2 K\"",
		`level = "0 m"`, "level = \"0 m\"\nweep = \"10 mm x 50 mm\"\n[pocket]\nlength = \"0.6 m\"\nwidth = \"0.5 m\"\ndepth = \"0.4 m\"\nvoid = \"40 %\"").Replace(toLid)
	l, profile := readLayout(t, text)
	s := rows(120*3600, 3600, steady(9))
	k, err := sim.NewCase("pocket", l, profile, s, sim.Supply{Given: true, Cycles: []pipe.Cycle{{Start: s.Stamp(hour * 3600), Run: 120, Flow: 0.001}}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := sim.Run(t.Context(), k, sim.Settings{})
	if err != nil { // its books do not close
		t.Fatal(err)
	}
	l0 := r.Ledger
	if miss := l0.Arrived - l0.Outlet - l0.Relief - l0.Rim - l0.PocketToSoil - l0.HeldLine - l0.HeldPocket - l0.HeldBasin; math.Abs(miss) > 1e-9*l0.Arrived {
		t.Errorf("%g m³ missing", miss)
	}
	filled := int(hour) + 1
	for r.Hourly.Pocket[filled] < 0.5 {
		filled++
	}
	return 1000 * r.Hourly.ToSoil[filled+10]
}

// In a run, the dry soil takes several times as much of a filling at hour 80 as of one at hour 60, and
// both books close. By hand, K alone takes (0.3 + 2.2·0.4) m² · 9 mm = 10.6 L in ten hours at most.
func TestFirstFillingInARun(t *testing.T) {
	late, soon := drunk(t, 80), drunk(t, 60)
	if soon <= 0 || soon > 10.6 {
		t.Errorf("%.2f L at hour 60; K alone takes 10.6 L at most", soon)
	}
	if late < 2*soon {
		t.Errorf("%.2f L at hour 80, %.2f L at hour 60", late, soon)
	}
}
