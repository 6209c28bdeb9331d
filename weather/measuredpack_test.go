package weather

import (
	"math"
	"math/rand/v2"
	"testing"
)

// measured returns the snow of a record of hours at -10 °C with the given depths [m].
// Fresh snow has 67.92 + 51.25 exp(−10/2.59) = 68.9987 kg/m³ there.
func measured(depth ...float64) SnowPack {
	s := hourly(len(depth)-1, func(float64) float64 { return -10 })
	s.SnowDepth = depth
	return s.Snow()
}

// By hand, water in mm, E = exp(−0.01) for an hour. Row 0: 200 mm settled, 250 kg/m³, 50.
// Row 1: base 300 − 50 E = 250.4975, 199.603 mm deep; the record stands 0.397 mm higher,
// 0.02741 of water: 50.02741/0.2 = 250.137. Row 2: base 250.9901 and 199.211 mm, the film
// on it 71.297 and 0.384 mm; 100.405 mm are new, 6.9278: 56.9552/0.3 = 189.851. Row 3: 100
// mm are gone, and with them nearly all that was new: base 251.4777 and 198.825 mm, under
// 1.175 mm of 71.323: 250.419.
func TestMeasuredDensity(t *testing.T) {
	k := measured(0.2, 0.2, 0.3, 0.2)
	for i, want := range []float64{250, 250.137, 189.851, 250.419} {
		if math.Abs(k.Density[i]-want) > 0.001 {
			t.Errorf("row %d: got %g kg/m³, want %g", i, k.Density[i], want)
		}
	}
}

// Snow on bare ground is fresh, whatever lay there before; bare rows say what fresh snow
// would have. An hour of settling: 300 − 231.0013 exp(−0.01) = 71.2972.
func TestMeasuredDensityFromBare(t *testing.T) {
	k := measured(0, 0, 0.1, 0.1*68.9987/71.2972, 0, 0, 0.05)
	for i, want := range []float64{68.9987, 68.9987, 68.9987, 71.2972, 68.9987, 68.9987, 68.9987} {
		if math.Abs(k.Density[i]-want) > 0.001 {
			t.Errorf("row %d: got %g kg/m³, want %g", i, k.Density[i], want)
		}
	}
	if k := measured(0.2, 0.31, 0.33, 0, 0); math.Abs(k.Density[3]-68.9987) > 0.001 {
		t.Errorf("a pack of layers is gone: got %g kg/m³, want that of fresh snow", k.Density[3])
	}
}

// A pack that settles as the formula says has the formula's density, and a record of it in
// whole centimetres or with a jitter of ±1 cm tells nearly the same: as much snow as the
// reading errs by, 2 cm from crest to trough, may count as fresh, no more.
func TestMeasuredDensityJitter(t *testing.T) {
	const water, begin = 0.075, 250.0 // 30 cm
	noise := rand.New(rand.NewPCG(1, 2))
	for name, read := range map[string]func(float64) float64{
		"exact":             func(d float64) float64 { return d },
		"whole centimetres": func(d float64) float64 { return math.Round(d*100) / 100 },
		"whole inches":      func(d float64) float64 { return math.Round(d/0.0254) * 0.0254 },
		"jitter":            func(d float64) float64 { return d + 0.02*(noise.Float64()-0.5) },
	} {
		var depth, want []float64
		for hour := range 24 * 60 {
			rho := 300 - (300-begin)*math.Exp(-0.01*float64(hour))
			want = append(want, rho)
			depth = append(depth, read(water*1000/rho))
		}
		k := measured(depth...)
		for i := range want {
			band := 0.0
			if name != "exact" {
				band = 0.0254 * (want[i] - 68.9987) / depth[i]
			}
			if low := want[i] - band; k.Density[i] < low-1e-6 || k.Density[i] > 300 {
				t.Fatalf("%s, hour %d: got %g kg/m³, want %g to 300", name, i, k.Density[i], low)
			}
		}
	}
}

// An echo lost for a row leaves the pack as it is.
func TestMeasuredDensityDip(t *testing.T) {
	with, without := measured(0.3, 0.3, 0, 0.3, 0.3), measured(0.3, 0.3, 0.3, 0.3, 0.3)
	for i := range with.Density {
		if with.Density[i] != without.Density[i] {
			t.Errorf("row %d: got %g kg/m³, want %g", i, with.Density[i], without.Density[i])
		}
	}
	if with.Depth[2] != 0 {
		t.Errorf("got %g m, want the record's own 0", with.Depth[2])
	}
}

// Snow that lies through a winter in which it falls now and then stays a pack of few layers.
func TestPackLayers(t *testing.T) {
	var p pack
	for hour := range 24 * 200 {
		p.settle(-5, 3600)
		if hour%37 < 5 {
			p.put(layer{0.0005, FreshSnowDensity(-float64(hour % 11))})
		}
	}
	if len(p) > 20 {
		t.Errorf("got %d layers, want at most 20", len(p))
	}
	water := 0.0
	for _, l := range p {
		water += l.water
	}
	if want := 0.0005 * 5 * math.Ceil(24*200/37.0); math.Abs(water-want) > 0.0025 {
		t.Errorf("got %g m of water, want %g: what fell", water, want)
	}
}
