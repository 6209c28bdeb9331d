package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/heat"
)

const day = 86400.0

// heaveSoil is a soil of a texture class with a share of its pores full.
func heaveSoil(t *testing.T, texture string, saturation float64) pipe.Soil {
	t.Helper()
	dry, err := pipe.MakeSoil(texture, 0)
	if err != nil {
		t.Fatal(err)
	}
	soil, err := pipe.MakeSoil(texture, saturation*dry.Porosity*waterDensity/dry.DryDensity*0.9998)
	if err != nil {
		t.Fatal(err)
	}
	soil.Freezing.Point = 0
	return soil
}

// heaveRecord makes a record of hours over days, frozen from the surface down to depth(t) [m], with a
// straight temperature profile of the gradient there [K/m] up from the front.
func heaveRecord(soil pipe.Soil, days float64, depth, gradient func(t float64) float64) *frostRecord {
	r := &frostRecord{soil: func(float64) pipe.Soil { return soil }}
	for t := 0.0; t <= days*day; t += 3600 {
		f := frost{math.NaN(), math.NaN(), 0}
		if z := depth(t); z > 0 {
			f = frost{0, z, z}
		}
		r.time, r.frost = append(r.time, t), append(r.frost, f)
	}
	for z := 0.05; z < 2; z += 0.05 {
		r.depths = append(r.depths, z)
	}
	r.temperature = func(k, row int) float64 { return (r.depths[k] - depth(r.time[row])) * gradient(r.time[row]) }
	return r
}

func always(v float64) func(float64) float64 { return func(float64) float64 { return v } }

// greatest is the greatest heave of the surface and that below a depth [m].
func greatest(t *testing.T, r *frostRecord, depth float64) (low, high float64) {
	t.Helper()
	h, ok := newHeaving(r)
	if !ok {
		t.Fatal("class not known")
	}
	h.follow(func(int) {
		l, u := h.under(depth)
		low, high = max(low, l), max(high, u)
	})
	return low, high
}

// A front that stands at 0.5 m in full silt loam for 60 days under 10 K/m. By hand, with 80 and
// 400 · 1e-11 m²/(s K): lenses 1.09 · 80e-11 · 10 · 60 · 86,400 = 45.20 mm and 226.02 mm; swelling in
// place 0.09 · 0.501 · 0.5 = 22.55 mm at either end, the pores being full. In all 67.8 and 248.6 mm.
func TestHeaveOfASteadyFront(t *testing.T) {
	r := heaveRecord(heaveSoil(t, "silt loam", 1), 60, always(0.5), always(10))
	low, high := greatest(t, r, 0)
	if math.Abs(low-0.0678) > 2e-4 || math.Abs(high-0.2486) > 2e-4 {
		t.Errorf("heave %.4f to %.4f m; want 0.0678 to 0.2486", low, high)
	}
	// A pipe at 0.3 m loses the swelling of what froze above it, 0.09 · 0.501 · 0.3 = 13.53 mm.
	if _, under := greatest(t, r, 0.3); math.Abs(high-under-0.01353) > 2e-5 {
		t.Errorf("below 0.3 m %.4f m; want %.4f", under, high-0.01353)
	}
	// A pipe below the front is not lifted.
	if low, high := greatest(t, r, 0.51); low != 0 || high != 0 {
		t.Errorf("below the front %g to %g m; want 0", low, high)
	}
}

// A front that goes down as Stefan's, X = √(2 k Ts t/L), under a surface at −Ts lifts the ground by
// 2.18 SP Ts t/X = 1.09 SP (L/k) X by lenses. Those above the uppermost depth looked at, 5 cm, are left out.
// k 1.8 W/(m K), Ts 5 K, L 1e8 J/m³, 60 days: X = 0.966 m, and SP 100e-5 mm²/(s K) would heave 58.50 mm;
// silt loam at its high end, of 400e-5, four times as much, 234.0 mm, less 1.09 · 400e-11 · 1e8/1.8 · 0.06 = 14.5 mm.
func TestHeaveOfStefansFront(t *testing.T) {
	depth := func(t float64) float64 { return heat.FrostDepth(1.8, 1e8, 5*t, 0) }
	gradient := func(t float64) float64 { return 5 / max(depth(t), 1e-6) }
	soil := heaveSoil(t, "silt loam", 1)
	_, high := greatest(t, heaveRecord(soil, 60, depth, gradient), 0)
	swelling := 0.09 * soil.Porosity * 0.966
	if got, want := high-swelling, 0.2340-0.0145; math.Abs(got/want-1) > 0.01 {
		t.Errorf("lenses heave %.4f m; want %.4f", got, want)
	}
}

func TestNoHeave(t *testing.T) {
	for _, c := range []struct {
		what, texture string
		depth         float64
	}{{"sand", "sand", 1}, {"crushed rock", "crushed rock", 1}, {"no frost", "silt", 0}} {
		low, high := greatest(t, heaveRecord(heaveSoil(t, c.texture, 1), 60, always(c.depth), always(10)), 0)
		if low != 0 || high != 0 {
			t.Errorf("%s: heave %g to %g m; want none", c.what, low, high)
		}
	}
	if _, ok := newHeaving(heaveRecord(pipe.Soil{Texture: "moon dust"}, 1, always(1), always(1))); ok {
		t.Error("heave of an unknown class")
	}
}

// Deeper frost heaves more, as do a wetter ground and a longer winter; the low end never passes the high one.
func TestHeaveDirections(t *testing.T) {
	for _, texture := range pipe.TextureNames() {
		soil := heaveSoil(t, texture, 0.8)
		lastLow, lastHigh := 0.0, 0.0
		for z := 0.1; z < 1.6; z += 0.1 {
			low, high := greatest(t, heaveRecord(soil, 5, always(z), always(8)), 0)
			if low > high || low < lastLow || high < lastHigh {
				t.Errorf("%s, frost to %.1f m: %g to %g m after %g to %g", texture, z, low, high, lastLow, lastHigh)
			}
			lastLow, lastHigh = low, high
		}
		lastLow, lastHigh = 0, 0
		for wet := 0.0; wet <= 1; wet += 0.1 {
			low, high := greatest(t, heaveRecord(heaveSoil(t, texture, wet), 5, always(0.5), always(8)), 0)
			if low > high || low < lastLow || high < lastHigh {
				t.Errorf("%s, %.0f %% full: %g to %g m after %g to %g", texture, 100*wet, low, high, lastLow, lastHigh)
			}
			lastLow, lastHigh = low, high
		}
	}
}

// Thaw lets the ground down, and a second frost does not add to the first.
func TestHeaveEndsWithTheFrost(t *testing.T) {
	soil := heaveSoil(t, "silt", 1)
	twice := func(t float64) float64 {
		if t >= 10*day && t < 12*day {
			return 0
		}
		return 0.5
	}
	r := heaveRecord(soil, 22, twice, always(10))
	h, _ := newHeaving(r)
	var all []float64
	h.follow(func(int) {
		_, high := h.under(0)
		all = append(all, high)
	})
	if thawed := all[11*24]; thawed != 0 {
		t.Errorf("thawed ground stands %g m high", thawed)
	}
	if one, two := all[10*24-1], all[len(all)-1]; two > 1.1*one || two < one {
		t.Errorf("second frost heaves %g m, the first %g m, of the same length to an hour", two, one)
	}
}

// Only the front grows lenses, and only what stays frozen holds them: a layer thawed from above loses
// the swelling of its upper part, not the lenses below.
func TestThawFromAbove(t *testing.T) {
	soil := heaveSoil(t, "silt loam", 1)
	r := heaveRecord(soil, 20, always(0.5), always(10))
	for i, at := range r.time {
		if at >= 10*day {
			r.frost[i].top, r.frost[i].thickness = 0.3, 0.2
			r.temperature = func(k, row int) float64 {
				if r.time[row] >= 10*day {
					return 0
				}
				return (r.depths[k] - 0.5) * 10
			}
		}
	}
	h, _ := newHeaving(r)
	var all []float64
	h.follow(func(int) {
		_, high := h.under(0)
		all = append(all, high)
	})
	before, after := all[10*24-1], all[len(all)-1]
	lens := 1.09 * 400e-11 * 10 * 3600 // of the last hour before
	if want := before + lens - 0.09*soil.Porosity*0.3; math.Abs(after-want) > 1e-5 {
		t.Errorf("after thaw to 0.3 m %.5f m; want %.5f", after, want)
	}
}

// Every texture class has a range, the more susceptible groups no smaller ones.
func TestFrostClasses(t *testing.T) {
	for _, texture := range pipe.TextureNames() {
		c, ok := FrostClassOf(texture)
		if !ok || c.Low < 0 || c.Low > c.High || c.Source == "" {
			t.Errorf("%s: %+v", texture, c)
		}
		if (c.Group == "NFS") != (c.High == 0) {
			t.Errorf("%s: group %s with up to %g", texture, c.Group, c.High)
		}
	}
}
