package heat_test

import (
	"testing"

	"winterline/sim/heat"
)

// Both properties together are those asked for one by one, bit by bit.
func TestWaterTransport(t *testing.T) {
	for i := range 400_001 {
		at := -10 + float64(i)*2e-4
		viscosity, conductivity := heat.WaterTransport(at)
		if v, c := heat.WaterViscosity(at), heat.WaterConductivityAt(at); v != viscosity || c != conductivity {
			t.Fatalf("at %v °C: %v and %v; one by one %v and %v", at, viscosity, conductivity, v, c)
		}
	}
}

func BenchmarkFilmInside(b *testing.B) {
	sum := 0.0
	for i := 0; b.Loop(); i++ {
		sum += heat.FilmInside(float64(i%1000)*0.01, 0.04, 0.5, 1)
	}
	_ = sum
}
