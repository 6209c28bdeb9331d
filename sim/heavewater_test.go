package sim

import (
	"math"
	"testing"
)

// wedge is the water in a bore of radius R whose depth falls evenly from b to nothing over a length:
// the cylindrical wedge, L/3b·(a(3R² − a²) + 3R²(b − R)φ) with a² = b(2R − b), cos φ = 1 − b/R (Harris and
// Stocker 1998, Handbook of Mathematics and Computational Science, from memory).
func wedge(radius, b, length float64) float64 {
	a := math.Sqrt(b * (2*radius - b))
	phi := math.Acos(1 - b/radius)
	return length / (3 * b) * (a*(3*radius*radius-a*a) + 3*radius*radius*(b-radius)*phi)
}

// By hand, in a 100 mm bore under 180 mm of heave, so that points up to 3 m apart differ by 30 mm in a metre more:
//
//   - 12 m at 20 mm a metre: behind a point inside, the bed rises 30 − 20 = 10 mm a metre over 3 m, to a crest of
//     30 mm; before it, it rises 30 + 20, so that the water reaches 0.6 m up. Two wedges 30 mm deep, 3.6 m together: 2.94 L.
//   - At 40 mm a metre all still falls: nothing stands.
func TestWaterAfterHeave(t *testing.T) {
	want := wedge(0.05, 0.030, 3.6)
	if math.Abs(want-2.943e-3) > 1e-6 {
		t.Fatalf("wedge of %g m³; 2.943 L with a calculator", want)
	}
	lift := Lift{High: 0.180}
	if got := fallLeft(lineOf(12, 0.24, 0), 0, 0.1, lift).Water; math.Abs(got-want) > 0.01*want {
		t.Errorf("%g m³; want %g", got, want)
	}
	if got := fallLeft(lineOf(12, 0.48, 0), 0, 0.1, lift).Water; got != 0 {
		t.Errorf("%g m³ at twice the fall", got)
	}
}

// Without heave a belly holds its own: level ends 6 m apart and 30 mm of sag in a 100 mm bore. Its depth is
// y = 30(1 − u²) mm, u from −1 to 1 over the length; the bore's cross-section 4/3·√d·y^1.5·(1 − 3/10·y/d − 3/56·(y/d)²
// …). With ∫(1 − u²)^1.5 = 3π/8, ^2.5 = 5π/16, ^3.5 = 35π/128 that is 7.74 − 0.58 − 0.03 = 7.13 L.
func TestWaterOfASag(t *testing.T) {
	if got := fallLeft(lineOf(6, 0, 0.030), 0, 0.1, Lift{}).Water; math.Abs(got-7.13e-3) > 0.02e-3 {
		t.Errorf("%g m³; want 7.13 L", got)
	}
	if got := fallLeft(lineOf(6, 0.06, 0), 0, 0.1, Lift{}).Water; got != 0 {
		t.Errorf("%g m³ in a straight line", got)
	}
}
