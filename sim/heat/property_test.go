package heat_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"winterline/sim/heat"
)

func TestWaterIsDensestAtFourDegrees(t *testing.T) {
	// Greatest density 999.975 kg/m³ at 3.98 °C (handbooks, from memory).
	densest, at := 0.0, 0.0
	for c := -10.0; c <= 20; c += 0.01 {
		if rho := heat.WaterDensityAt(c); rho > densest {
			densest, at = rho, c
		}
	}
	if math.Abs(at-3.98) > 0.05 || math.Abs(densest-999.975) > 0.005 {
		t.Errorf("densest %.4f kg/m³ at %.2f °C; want 999.975 at 3.98", densest, at)
	}
}

func TestFilmGrowsWithWind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := rapid.Float64Range(-60, 40).Draw(t, "air")
		surface := rapid.Float64Range(-60, 40).Draw(t, "surface")
		d := rapid.Float64Range(0.02, 0.5).Draw(t, "diameter")
		wind := rapid.Float64Range(0, 30).Draw(t, "wind")
		still, windy := heat.Film(air, surface, d, wind), heat.Film(air, surface, d, wind+0.1)
		if !(still > 0 && windy > still) {
			t.Fatalf("film %g at %g m/s, %g at %g m/s", still, wind, windy, wind+0.1)
		}
		blend := heat.Film(air, surface, d, wind)
		forced, natural := heat.FilmForced(air, surface, d, wind), heat.FilmNatural(air, surface, d)
		if blend < max(forced, natural) || blend > math.Cbrt(2)*max(forced, natural)*(1+1e-12) {
			t.Fatalf("blend %g of %g and %g", blend, forced, natural)
		}
	})
}

func TestFilmStaysFiniteInStillIsothermalAir(t *testing.T) {
	if h := heat.Film(-5, -5, 0.06, 0); !(h > 0 && h < 1) {
		t.Errorf("film %g W/(m² K) without wind or difference", h)
	}
}

func TestRingOfEquivalentRadiusHasTheShapeFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(0.01, 0.2).Draw(t, "radius")
		z := r * rapid.Float64Range(1.01, 100).Draw(t, "depth over radius")
		ring := 1 / heat.LayerResistance(r, heat.EquivalentRadius(r, z), 1)
		if exact := heat.BuriedShapeFactor(2*r, z); math.Abs(ring-exact) > 1e-9*exact {
			t.Fatalf("ring %g, shape factor %g", ring, exact)
		}
	})
}

func TestInsulationHelpsPastTheCriticalRadius(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.02, 0.3).Draw(t, "conductivity")
		h := rapid.Float64Range(3, 40).Draw(t, "film")
		bare := heat.CriticalRadius(k, h) * rapid.Float64Range(1, 5).Draw(t, "radius over critical")
		more := bare * rapid.Float64Range(1.01, 3).Draw(t, "growth")
		covered := heat.LayerResistance(bare, more, k) + heat.FilmResistance(2*more, h)
		if covered <= heat.FilmResistance(2*bare, h) {
			t.Fatalf("resistance falls to %g", covered)
		}
	})
}

func TestFrostDepthAndTimeAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.5, 3).Draw(t, "conductivity")
		latent := rapid.Float64Range(1e7, 3.2e8).Draw(t, "latent")
		resistance := rapid.Float64Range(0, 3).Draw(t, "resistance")
		outside := rapid.Float64Range(-40, -0.1).Draw(t, "outside")
		depth := rapid.Float64Range(0.001, 3).Draw(t, "depth")
		time := heat.FrostTime(k, latent, depth, resistance, outside)
		if back := heat.FrostDepth(k, latent, -outside*time, resistance); math.Abs(back-depth) > 1e-8*depth+1e-9 {
			t.Fatalf("depth %g, back %g", depth, back)
		}
	})
}

func TestInwardFreezingTimeGrowsToASolidPipe(t *testing.T) {
	last := 0.0
	for front := 0.99; front >= 0; front -= 0.01 {
		time := heat.InwardFreezingTime(1, front, 1, 1, 0.3, -1)
		if time <= last {
			t.Fatalf("front %.2f: time %g after %g", front, time, last)
		}
		last = time
	}
	if solid := heat.InwardFreezingTime(1, 0, 1, 1, 0.3, -1); solid < last || solid > last*1.001 {
		t.Errorf("solid at %g; a front at 0.00… at %g", solid, last)
	}
}

func TestCoolingTimeEdges(t *testing.T) {
	if !math.IsInf(heat.CoolingTime(1, 1, 10, 0, 0), 1) {
		t.Error("air at the target: the target is never reached")
	}
	if heat.CoolingTime(1, 1, 0, 0, -10) != 0 {
		t.Error("already there: no time passes")
	}
}

func TestMixedRadiationCoefficientIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-60, 40).Draw(t, "surface")
		b := rapid.Float64Range(-80, 40).Draw(t, "surroundings")
		fourth := func(c float64) float64 { return math.Pow(c+heat.Kelvin, 4) }
		want := 0.9 * heat.StefanBoltzmann * (fourth(a) - fourth(b))
		if got := heat.NetLongWave(a, b, 0.9); math.Abs(got-want) > 1e-9*500 {
			t.Fatalf("flux %g; want %g", got, want)
		}
	})
}

// Roots give what the printed power gives.
func TestGnielinskiIsItsPower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(3.5, 6.6).Draw(t, "lg Re"))
		pr := rapid.Float64Range(0.6, 2000).Draw(t, "Pr")
		f := rapid.Float64Range(0.005, 0.1).Draw(t, "f")
		want := f / 8 * (re - 1000) * pr / (1 + 12.7*math.Sqrt(f/8)*(math.Pow(pr, 2.0/3)-1))
		if got := heat.NusseltGnielinski(re, pr, f); math.Abs(got-want) > 1e-14*want {
			t.Fatalf("%.17g, not %.17g", got, want)
		}
	})
}

func TestNusseltInsideIsContinuous(t *testing.T) {
	for _, re := range []float64{2300, 4000} {
		for _, slenderness := range []float64{0, 0.005, 0.1} {
			below := heat.NusseltInside(re*(1-1e-9), 11, slenderness)
			above := heat.NusseltInside(re*(1+1e-9), 11, slenderness)
			if math.Abs(above-below) > 1e-6*below {
				t.Errorf("Re %g, d/length %g: Nu %g below, %g above", re, slenderness, below, above)
			}
		}
	}
}

func TestAnnualWaveFadesAndLags(t *testing.T) {
	depth := heat.DampingDepth(5e-7, heat.Year)
	coldest, at := math.Inf(1), 0.0
	for day := 0.0; day < 365; day += 0.25 {
		if c := heat.AnnualWave(depth, day*86400, 8, 12, 20*86400, 5e-7); c < coldest {
			coldest, at = c, day
		}
	}
	// One damping depth: range 1/e of the surface's, one radian (58.1 days) later.
	if math.Abs(coldest-(8-12/math.E)) > 0.001 || math.Abs(at-(20+365/(2*math.Pi))) > 0.25 {
		t.Errorf("coldest %.3f °C on day %.2f", coldest, at)
	}
}

func TestFilmDoesNotAllocate(t *testing.T) {
	if n := testing.AllocsPerRun(100, func() { sink += heat.Film(-10, -2, 0.1, 3) }); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

var sink float64

func BenchmarkFilm(b *testing.B) {
	for b.Loop() {
		sink += heat.Film(-10, -2, 0.1, 3)
	}
}

// A short pipe takes up more than a long one in turbulent flow: by 1 + (d/L)^(2/3) (Gnielinski 1976), 21.5 % at ten diameters.
func TestShortPipeTakesUpMore(t *testing.T) {
	long := heat.NusseltInside(2e4, 10, 0)
	if got := heat.NusseltInside(2e4, 10, 0.1) / long; math.Abs(got-1.215443) > 1e-6 {
		t.Errorf("at ten diameters: %g times; want 1.215443", got)
	}
	// By hand, for Re 20000, Pr 10, smooth: f = 1/(0.790 ln Re − 1.64)² = 0.02615.
	const f = 0.0261514
	want := f / 8 * 19000 * 10 / (1 + 12.7*math.Sqrt(f/8)*(math.Cbrt(100)-1))
	if math.Abs(long/want-1) > 1e-4 {
		t.Errorf("long pipe: %g; want %g", long, want)
	}
}
