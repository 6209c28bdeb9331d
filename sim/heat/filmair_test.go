package heat_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"winterline/sim/heat"
)

// filmPlainly are the films by the correlations as they are published (sources: NusseltForced,
// NusseltNatural, Film), every power by math.Pow and the air by its equations: forced, natural and blended.
func filmPlainly(air, surface, d, wind float64) (forced, natural, blend float64) {
	tf := (air + surface) / 2
	k, nu, pr := heat.AirConductivity(tf), heat.AirKinematicViscosity(tf), heat.AirPrandtl(tf)
	re, ra := wind*d/nu, heat.Rayleigh(d, surface-air, tf, nu, pr)
	forced = 0.3 + 0.62*math.Pow(re, 0.5)*math.Pow(pr, 1.0/3)/math.Pow(1+math.Pow(0.4/pr, 2.0/3), 1.0/4)*
		math.Pow(1+math.Pow(re/282000, 5.0/8), 4.0/5)
	natural = math.Pow(0.6+0.387*math.Pow(ra, 1.0/6)/math.Pow(1+math.Pow(0.559/pr, 9.0/16), 8.0/27), 2)
	blend = math.Pow(math.Pow(forced, 3)+math.Pow(natural, 3), 1.0/3)
	return forced * k / d, natural * k / d, blend * k / d
}

// filmOff is the largest error of a film, relative to the plain formulas.
func filmOff(air, surface, d, wind float64) float64 {
	forced, natural, blend := filmPlainly(air, surface, d, wind)
	return max(math.Abs(heat.FilmForced(air, surface, d, wind)/forced-1),
		math.Abs(heat.FilmNatural(air, surface, d)/natural-1),
		math.Abs(heat.Film(air, surface, d, wind)/blend-1))
}

// filmLimit is how far a film may be from the plain formulas [-]. 1e-9 would do; the table's error falls with the sixth power of its
// step, so that one twice as wide is found out.
const filmLimit = 1e-11

// In all weather, and far from it, films are those of the plain formulas.
func TestFilmIsThatOfThePlainFormulas(t *testing.T) {
	worst := 0.0
	for air := -60.0; air <= 60; air += 1.7 {
		for surface := -60.0; surface <= 60; surface += 2.3 {
			for _, d := range []float64{0.01, 0.034, 0.06, 0.6} {
				for _, wind := range []float64{0, 0.01, 1, 9, 40} {
					worst = max(worst, filmOff(air, surface, d, wind))
				}
			}
		}
	}
	if !(worst < filmLimit) {
		t.Errorf("off by %.2g; want less than %g", worst, filmLimit)
	}
	rapid.Check(t, func(t *rapid.T) {
		air := rapid.Float64Range(-120, 120).Draw(t, "air")
		surface := rapid.Float64Range(-120, 120).Draw(t, "surface")
		d := rapid.Float64Range(0.01, 0.6).Draw(t, "diameter")
		wind := rapid.Float64Range(0, 40).Draw(t, "wind")
		if off := filmOff(air, surface, d, wind); !(off < filmLimit) {
			t.Fatalf("off by %.2g; want less than %g", off, filmLimit)
		}
	})
}

// Where a piece of the table ends, and the table itself, films do not jump.
func TestFilmDoesNotJump(t *testing.T) {
	for tf := -105.0; tf <= 105; tf++ {
		_, _, at := filmPlainly(tf-1, tf+1, 0.06, 3)
		for _, side := range []float64{-1e-12, 0, 1e-12} {
			if h := heat.Film(tf-1+side, tf+1+side, 0.06, 3); !(math.Abs(h/at-1) < filmLimit) {
				t.Errorf("film temperature %g%+g °C: %.15g; want %.15g", tf, side, h, at)
			}
		}
	}
}

// What is no number stays none, and the coldest and hottest air is within reach of the plain formulas.
func TestFilmOutsideWeather(t *testing.T) {
	if h := heat.Film(math.NaN(), 0, 0.06, 3); !math.IsNaN(h) {
		t.Errorf("film %g of air without a temperature", h)
	}
	for _, tf := range []float64{-200, -100.0001, 100, 500} {
		if off := filmOff(tf, tf, 0.06, 3); !(off < filmLimit) {
			t.Errorf("%g °C: off by %g", tf, off)
		}
	}
}
