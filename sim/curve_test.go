package sim

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// curveSoil is a soil that freezes along a curve, by what can be measured of it.
type curveSoil struct {
	liquid, frozen, latent float64 // heat capacities [J/(m³ K)] and heat of fusion [J/m³]
	point, exponent        float64 // [°C], [-]
	conducts               float64 // frozen conductivity over unfrozen [-]
}

func (s curveSoil) law() phase {
	p := phase{plateau: s.latent / s.liquid, ratio: s.liquid / s.frozen}
	p.curve = newCurve(p.plateau, p.ratio, s.point, s.exponent, s.conducts)
	return p
}

// ice is the share that the power law freezes at t [°C].
func (s curveSoil) ice(t float64) float64 {
	if t >= s.point {
		return 0
	}
	return 1 - math.Pow(t/s.point, -s.exponent)
}

// released is the heat [J/m³] that the soil gives off from its freezing point down to t [°C], by quadrature (midpoints of
// slices even in the logarithm of temperature): its own heat capacity and the ice that grows in each slice.
func (s curveSoil) released(t float64) float64 {
	const slices = 1000
	grow := math.Pow(t/s.point, 1.0/slices)
	sum, from := 0.0, s.point
	for range slices {
		to := from * grow
		f := s.ice(-math.Sqrt(from * to))
		sum += (s.liquid+f*(s.frozen-s.liquid))*(from-to) + s.latent*(s.ice(to)-s.ice(from))
		from = to
	}
	return sum
}

// Soils at the ends of what textures make, and between: clay, full sand, silt, peat.
var curveSoils = map[string]curveSoil{
	"clay":      {2.95e6, 2.10e6, 125e6, -0.03, 0.093, 1.5},
	"full sand": {2.90e6, 2.00e6, 145e6, -0.001, 0.41, 1.9},
	"silt":      {2.6e6, 2.0e6, 90e6, -0.1, 1, 1.4},
	"peat":      {3.4e6, 2.1e6, 200e6, -0.5, 1.6, 2.6},
	"dry sand":  {1.5e6, 1.4e6, 15e6, -5, 0.25, 0.9},
}

// drawCurveSoil draws any soil that a layout can describe.
func drawCurveSoil(t *rapid.T) curveSoil {
	return curveSoil{
		rapid.Float64Range(1.4e6, 4e6).Draw(t, "liquid"), rapid.Float64Range(1e6, 2.4e6).Draw(t, "frozen"),
		rapid.Float64Range(1e6, 2.8e8).Draw(t, "latent"), -math.Exp(rapid.Float64Range(math.Log(0.001), math.Log(5)).Draw(t, "point")),
		rapid.Float64Range(0.01, 10).Draw(t, "exponent"), rapid.Float64Range(0.5, 4).Draw(t, "conducts"),
	}
}

func TestCurveThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		law := drawCurveSoil(t).law()
		want := rapid.Float64Range(-90, 20).Draw(t, "temperature")
		u := law.enthalpy(want)
		if got := law.temperature(u); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%g °C comes back as %g", want, got)
		}
	})
}

// As enthalpy rises temperature rises, ice melts, and neither jumps: temperature rises by no more than the smaller heat
// capacity allows, and no more melts than the heat can melt.
func TestCurveIsMonotoneAndContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawCurveSoil(t)
		law := s.law()
		u, more := rapid.Float64Range(-300, 5).Draw(t, "u"), rapid.Float64Range(1e-3, 1).Draw(t, "more")
		rise, melted := law.temperature(u+more)-law.temperature(u), law.ice(u)-law.ice(u+more)
		steepest := math.Max(1, law.ratio)
		if !(rise > 0 && rise <= steepest*more*(1+1e-9)) {
			t.Fatalf("temperature goes by %g K as enthalpy rises by %g", rise, more)
		}
		if !(melted >= 0 && melted <= more/law.plateau*(1+1e-9)) {
			t.Fatalf("%g of the water melts as enthalpy rises by %g", melted, more)
		}
	})
}

// At the freezing point liquid and freezing soil meet: no ice, enthalpy and temperature alike, conductivity that of unfrozen
// soil; just below it nothing has jumped.
func TestCurveMeetsTheLiquidAtItsPoint(t *testing.T) {
	for name, s := range curveSoils {
		law := s.law()
		if u := law.enthalpy(s.point); u != s.point || law.freezes() != s.point {
			t.Errorf("%s: enthalpy %g and freezing from %g at %g °C", name, u, law.freezes(), s.point)
		}
		const below = 1e-9
		if got := law.temperature(s.point - below); !(got < s.point && got > s.point-2*below) {
			t.Errorf("%s: %.12g °C at an enthalpy %g K below the point", name, got, below)
		}
		if got := law.ice(s.point - below); !(got > 0 && got < 1e-6) {
			t.Errorf("%s: ice share %g just below the point", name, got)
		}
		if law.ice(s.point) != 0 || law.curve.knots[0].ease != 1 {
			t.Errorf("%s: ice share %g and ease %g at the point", name, law.ice(s.point), law.curve.knots[0].ease)
		}
	}
}

// By hand for a freezing point of −0.1 °C, exponent 1, plateau 20 K, ratio 1.25 (1 − 1/1.25 = 0.2), at −60 °C, where a knot lies:
// ice 1 − 1/600 = 0.9983333; ∫f dT = −59.9 + 0.1 ln 600 = −59.2603070; u = −60 + 0.2 · 59.2603070 − 20 · 0.9983333 = −68.1146053.
func TestCurveByHand(t *testing.T) {
	law := phase{plateau: 20, ratio: 1.25, curve: newCurve(20, 1.25, -0.1, 1, 2)}
	if u := law.enthalpy(-60); math.Abs(u+68.1146053) > 1e-6 {
		t.Errorf("enthalpy %.7f; want −68.1146053", u)
	}
	if f := law.ice(-68.1146053); math.Abs(f-0.9983333) > 1e-6 {
		t.Errorf("ice share %.7f; want 0.9983333", f)
	}
	last := law.curve.knots[curveKnots-1]
	if ease := math.Pow(2, -0.9983333); math.Abs(last.ease-ease) > 1e-6 {
		t.Errorf("ease %.7f; want %.7f", last.ease, ease)
	}
}

// The heat given off from the freezing point down to a temperature against quadrature: at the knots, which take the law as it
// stands, to a millionth of the latent heat; between them, where the table runs straight, to four thousandths: a
// straight line misses the ice by up to (ln g)²/8 · e(e + 1), g being the ratio of neighbouring knots, 1.09 to 1.22 here.
func TestCurveReleasesTheHeatOfItsLaw(t *testing.T) {
	for name, s := range curveSoils {
		law := s.law()
		miss := func(at float64) float64 {
			return math.Abs(s.liquid*(s.point-law.enthalpy(at))-s.released(at)) / s.latent
		}
		worst := 0.0
		for i, k := range law.curve.knots[1:] {
			if off := miss(k.t); off > 1e-6 {
				t.Errorf("%s: heat down to %g °C off by %g of the latent heat", name, k.t, off)
			}
			worst = math.Max(worst, miss(-math.Sqrt(k.t*law.curve.knots[i].t)))
		}
		if worst > 0.004 {
			t.Errorf("%s: heat off by %g of the latent heat between knots", name, worst)
		}
	}
}

// Ice share and conductivity at any temperature against the power law and the geometric mean by ice share: to 0.5 % of the water,
// and to 0.5 % of the conductivity. The conductivity is read from the half resistances of a volume of 2 cm.
func TestCurveIceAndConductivity(t *testing.T) {
	const unfrozen, limit = 1.3, 0.005
	for name, s := range curveSoils {
		law := s.law()
		m := newMesh(0, []volume{{0.02, s.liquid, law, unfrozen, unfrozen * s.conducts}}, 0, false)
		w := &scratch{}
		w.grow(1)
		for at := s.point * 1.01; at > -50; at *= 1.07 {
			u, f := law.enthalpy(at), s.ice(at)
			if got := law.ice(u); math.Abs(got-f) > limit {
				t.Errorf("%s: ice share %.4f at %.3f °C; want %.4f", name, got, at, f)
			}
			w.linearise(m, 0, []float64{u})
			want := math.Pow(unfrozen, 1-f) * math.Pow(unfrozen*s.conducts, f)
			if got := 0.01 / w.node[0].out; math.Abs(got/want-1) > limit || w.node[0].in != w.node[0].out {
				t.Errorf("%s: conductivity %.4f at %.3f °C; want %.4f", name, got, at, want)
			}
		}
	}
}

// Slopes that the implicit solver takes are those of the law: by a central difference inside a stretch.
func TestCurveSlopes(t *testing.T) {
	s := curveSoils["clay"]
	law := s.law()
	m := newMesh(0, []volume{{0.02, s.liquid, law, 1.3, 1.3 * s.conducts}}, 0, false)
	w := &scratch{}
	w.grow(1)
	read := func(u float64) (t, out float64) {
		w.linearise(m, 0, []float64{u})
		return w.node[0].t, w.node[0].out
	}
	for _, k := range law.curve.knots[:curveKnots-1] {
		u, step := 0.5*(k.u+k.floor), 0.1*(k.u-k.floor)
		t1, out1 := read(u + step)
		t0, out0 := read(u - step)
		read(u)
		if math.Abs(w.node[0].d/((t1-t0)/(2*step))-1) > 1e-6 || math.Abs(w.node[0].dOut/((out1-out0)/(2*step))-1) > 1e-6 {
			t.Errorf("at %g K slopes %g and %g; want %g and %g", u, w.node[0].d, w.node[0].dOut, (t1-t0)/(2*step), (out1-out0)/(2*step))
		}
	}
}

// An exponent of 1 takes the logarithm, and its neighbours, which take the power, come out beside it.
func TestCurveExponentOne(t *testing.T) {
	one := newCurve(30, 1.4, -0.05, 1, 2)
	for _, e := range []float64{1 - 1e-6, 1 + 1e-6} {
		beside := newCurve(30, 1.4, -0.05, e, 2)
		for i := range one.knots {
			if a, b := one.knots[i].u, beside.knots[i].u; math.Abs(a-b) > 1e-4 {
				t.Errorf("exponent %g: enthalpy %g at knot %d; with 1 it is %g", e, b, i, a)
			}
		}
	}
}

// Freezing at nearly 0 °C and nearly all at once is the sharp law: temperatures within a few freezing points of it, and
// ice as much as the enthalpy says.
func TestCurveTendsToTheSharpLaw(t *testing.T) {
	const point, limit = -1e-4, 5e-4 // [°C], [K]
	s := curveSoil{2.9e6, 2.1e6, 80e6, point, 8, 1.8}
	law := s.law()
	sharp := phase{plateau: law.plateau, ratio: law.ratio}
	for u := -80.0; u < 3; u += 0.037 {
		if got, want := law.temperature(u), sharp.temperature(u); math.Abs(got-want) > limit {
			t.Errorf("%.5f °C at an enthalpy of %g K; sharp %.5f", got, u, want)
		}
		if got, want := law.ice(u), sharp.ice(u); math.Abs(got-want) > limit {
			t.Errorf("ice share %.5f at an enthalpy of %g K; sharp %.5f", got, u, want)
		}
	}
}

// The stretch that holds an enthalpy is the same wherever the search for it starts.
func TestCurveSearch(t *testing.T) {
	for name, s := range curveSoils {
		c := s.law().curve
		for at := s.point; at > -100; at *= 1.3 {
			u := c.enthalpy(at)
			want := c.find(u).temperature(u)
			for _, guess := range []int{0, curveKnots / 2, curveKnots - 1} {
				if got := c.knots[c.at(u, guess)].temperature(u); math.Abs(got-want) > 1e-9 {
					t.Errorf("%s: %g °C from knot %d; want %g", name, got, guess, want)
				}
			}
		}
	}
}
