package heat_test

import (
	"math"
	"testing"

	"winterline/sim/heat"
)

// filmInsidePlainly is FilmInside with water by its equations.
func filmInsidePlainly(t, d, length, speed float64) float64 {
	conductivity := heat.WaterConductivityAt(t)
	nu := heat.WaterViscosity(t) / heat.WaterDensityAt(t)
	pr := heat.WaterViscosity(t) * heat.WaterHeatCapacityAt(t) / conductivity
	return heat.NusseltInside(speed*d/nu, pr, d/length) * conductivity / d
}

// At all temperatures of water, where pieces of the table end and beyond it, the film is that of the equations.
func TestFilmInsideIsThatOfTheEquations(t *testing.T) {
	worst := 0.0
	for at := -10.0; at <= 60; at += 0.0625 {
		for _, side := range []float64{-1e-12, 0, 1e-12} {
			for _, speed := range []float64{1e-3, 0.03, 0.09, 0.3, 2} {
				want := filmInsidePlainly(at+side, 0.04, 0.5, speed)
				worst = max(worst, math.Abs(heat.FilmInside(at+side, 0.04, 0.5, speed)/want-1))
			}
		}
	}
	if !(worst < filmLimit) {
		t.Errorf("off by %.2g; want less than %g", worst, filmLimit)
	}
	if h := heat.FilmInside(math.NaN(), 0.04, 0.5, 1); !math.IsNaN(h) {
		t.Errorf("film %g of water without a temperature", h)
	}
}
