package sim

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// oneRow is a heat balance of a single row.
func oneRow(air, sun, sky, wind, vapour float64) *energy {
	e := &energy{air: []float64{air}, sun: []float64{sun}, sky: []float64{sky}, wind: []float64{wind}}
	if !math.IsNaN(vapour) {
		e.vapour = []float64{vapour}
	}
	return e
}

// By hand for air and surface of 10 °C, sun 500, sky 300 W/m², wind 3 m/s at 2 m. Bare soil takes in 0.80·500 + 0.97·300 −
// 0.97·5.670374e−8·283.15⁴ = 400 + 291 − 353.549 = 337.451 W/m². For each kelvin it takes in less by 4·353.549/283.15 = 4.9945 of
// radiation, 1.24636·1013/98.54 = 12.8127 of convection (air density times heat capacity over the resistance of
// evaporation_test.go) and 1 in calm air. Vapour of 800 Pa: (1227.96 − 800)·1262.56/67.4/(98.54 + 200) = 26.854 W/m² and,
// with a slope of 82.283 Pa/K, 5.1631 W/(m² K). A kelvin more makes the air less stable by 10·9.81·2/(283.15·3²) = 0.07699, and its
// share of the resistance to vapour less by as much: 26.854·98.54/298.54·0.07699 = 0.682 W/(m² K).
func TestBareSurfaceByHand(t *testing.T) {
	x := oneRow(10, 500, 300, 3, math.NaN()).exchange(0, pipe.Bare, 0)
	gain, slope := x.gain(10)
	within(t, "gain, vapour unknown", gain, 337.451, 0.01)
	within(t, "slope, vapour unknown", slope, 4.9945+12.8127+1, 0.001)
	x = oneRow(10, 500, 300, 3, 800).exchange(0, pipe.Bare, 0)
	gain, slope = x.gain(10)
	within(t, "gain", gain, 337.451-26.854, 0.02)
	within(t, "slope", slope, 4.9945+12.8127+1+5.1631+0.682, 0.002)
}

// By hand for grass in the same weather: of 0.77·500 = 385 W/m² of sun 15 % reach the ground, 57.75; 327.25 are taken in at
// the top. Evaporation: resistance ln(1.92/0.0148)·ln(1.92/0.00148)/(0.1681·3) = 69.157 s/m, and of the leaves at 10 °C
// 50/(1 − 0.0016·15²) = 78.125: 427.96·1262.56/67.4/147.28 = 54.432 W/m². Taken in: 327.25 + 291 − 353.549 − 54.432 = 210.269.
func TestGrassSurfaceByHand(t *testing.T) {
	x := oneRow(10, 500, 300, 3, 800).exchange(0, pipe.Grass, 0)
	gain, _ := x.gain(10)
	within(t, "gain", gain, 210.269, 0.02)
	within(t, "sun on the ground", x.under, 57.75, 1e-9)
	within(t, "Beer's law through a leaf area of 2.88", throughGrass, math.Exp(-0.65*2.88), 0.005)
}

// By hand for snow on grass under a sun of 500 W/m². 2.5 cm hide half: albedo (0.23 + 0.75)/2 = 0.49, 255 W/m² taken in, of
// which 0.15/2 on the ground, 19.125; roughness √(0.0148·0.001) = 3.847 mm. 10 cm hide all: 125 W/m² in frost; in air
// above 0 °C the snow is wet, 200 W/m².
func TestSnowHidesTheGround(t *testing.T) {
	half := oneRow(-5, 500, 200, 3, math.NaN()).exchange(0, pipe.Grass, 0.025)
	within(t, "taken in through 2.5 cm", half.sun+half.under, 255, 1e-9)
	within(t, "on the ground", half.under, 19.125, 1e-9)
	within(t, "roughness", half.roughness, 0.003847, 1e-6)
	within(t, "displacement", half.displacement, 0.04, 1e-12)
	dry := oneRow(-5, 500, 200, 3, math.NaN()).exchange(0, pipe.Grass, 0.10)
	wet := oneRow(5, 500, 200, 3, math.NaN()).exchange(0, pipe.Grass, 0.10)
	within(t, "taken in by dry snow", dry.sun, 125, 1e-9)
	within(t, "taken in by wet snow", wet.sun, 200, 1e-9)
	if dry.under != 0 || dry.roughness != snowRoughness || dry.displacement != 0 {
		t.Errorf("grass is felt through 10 cm of snow: %+v", dry)
	}
}

// FAO 56, example 14 (from memory): a wind of 3.2 m/s at 10 m is one of 2.4 m/s at 2 m; half as exposed as open ground, half of
// that. By hand a sky of 0 °C and a dew point of 0 °C: 5.670374e−8·273.15⁴ = 315.66 W/m² times 0.711 clear (Berdahl and Martin
// 1984) and 0.16·0.711 + 0.84 = 0.95376 overcast. A sky that was recorded is taken as it is.
func TestEnergyReadsTheRecord(t *testing.T) {
	s := &weather.Series{Time: []float64{0, 3600}, Air: []float64{0, 0}, Sun: []float64{0, 0}, DewPoint: []float64{0, 0}, Wind: []float64{3.2, 0}}
	e := newEnergy(s, openExposure, pipe.Soil{})
	within(t, "wind", e.wind[0], 2.4, 0.05)
	within(t, "calm", e.wind[1], leastWind, 0)
	within(t, "vapour", e.vapour[0], 610.8, 0.1)
	within(t, "clear sky", e.sky[0], 0.711*315.66, 0.01)
	within(t, "half as exposed", newEnergy(s, openExposure/2, pipe.Soil{}).wind[0], 1.2, 0.025)
	within(t, "on a hill, no more than at 10 m", newEnergy(s, 1, pipe.Soil{}).wind[0], 3.2, 0)
	s.DewPoint[1] = 5
	within(t, "vapour that air of 0 °C cannot hold", newEnergy(s, openExposure, pipe.Soil{}).vapour[1], 610.8, 0.1)
	s.Cloud = []float64{1, 1}
	within(t, "overcast sky", newEnergy(s, openExposure, pipe.Soil{}).sky[0], 0.95376*315.66, 0.01)
	s.LongWave, s.DewPoint, s.Wind = []float64{222, 222}, nil, nil
	e = newEnergy(s, openExposure, pipe.Soil{})
	within(t, "recorded sky", e.sky[0], 222, 0)
	within(t, "no wind recorded", e.wind[0], 0.748*calmAssumed, 1e-12)
	if e.vapour != nil || e.water != nil {
		t.Error("vapour and drought without a dew point")
	}
}

// Without sun, under a sky as black and as warm as the air, and with vapour unknown, nothing but the ground can warm or cool a
// surface: over ground as warm as the air all of it is.
func TestSurfaceIsTheAir(t *testing.T) {
	for _, cover := range []pipe.Surface{pipe.Grass, pipe.Bare, pipe.Gravel, pipe.Paved} {
		for _, air := range []float64{-25, -0.5, 8, 30} {
			_, temp, under := oneRow(air, 0, black(air), 2, math.NaN()).at(0, cover, 0, air, 0.1)
			within(t, "temperature behind", temp, air, 1e-9)
			within(t, "sun on the ground", under, 0, 0)
		}
	}
}

// draw is a row of weather with what lies on the ground and under it.
type draw struct {
	cover                       pipe.Surface
	air, sun, sky, wind, vapour float64
	snow, top, below            float64 // [m], [°C], [m² K/W]
}

// drawRow draws one; the wind is at 2 m.
func drawRow(t *rapid.T, leastWind float64) draw {
	d := draw{cover: rapid.SampledFrom([]pipe.Surface{pipe.Grass, pipe.Bare, pipe.Gravel, pipe.Paved}).Draw(t, "cover")}
	d.air = rapid.Float64Range(-30, 30).Draw(t, "air")
	d.sun = rapid.SampledFrom([]float64{0, 1}).Draw(t, "day") * rapid.Float64Range(21, 900).Draw(t, "sun")
	d.sky = rapid.Float64Range(0.6, 1).Draw(t, "sky's emissivity") * black(d.air)
	d.wind = leastWind * math.Exp(rapid.Float64Range(0, 1.8).Draw(t, "logarithm of wind"))
	d.vapour = heat.VapourPressure(d.air - rapid.Float64Range(0, 15).Draw(t, "dew point below air"))
	d.top = d.air + rapid.Float64Range(-8, 8).Draw(t, "ground over air")
	d.below = coverResistance[d.cover] + 0.003
	return d
}

func (d draw) energy() *energy { return oneRow(d.air, d.sun, d.sky, d.wind, d.vapour) }

// balance is what a surface at ts [°C] takes in [W/m²], written down anew: albedo, roughness and displacement [m], share of the sun
// taken in at the top, and the resistance [s/m] of what evaporates; −1: it is snow.
func (d draw) balance(ts, albedo, rough, displacement, atTop, own float64) float64 {
	capacity := 101325 * 0.0289586 / (8.314462618 * (d.air + 273.15)) * 1013
	z := 2 - displacement
	resistance := math.Log(z/rough) * math.Log(10*z/rough) / (0.41 * 0.41 * d.wind)
	ri := 9.81 * 2 * (d.air - ts) / ((d.air + 273.15) * d.wind * d.wind)
	if ri >= 0 {
		resistance *= 1 + 10*ri
	} else {
		resistance /= math.Min(3, 1-10*ri)
	}
	wet := 610.8*math.Exp(17.27*ts/(ts+237.3)) - d.vapour
	ice := (611.21*math.Exp(22.587*ts/(ts+273.86)) - d.vapour) * 2.834 / 2.501 / resistance // MJ/kg, ice and water to vapour
	if wet < 0 {
		wet /= resistance // dew
	} else {
		wet /= resistance + math.Max(0, own)
	}
	vapour := wet
	switch frost := math.Min(0, ice); {
	case own < 0:
		vapour = ice
	case ts <= -0.3:
		vapour = frost
	case ts < 0:
		vapour += (frost - wet) * -ts / 0.3
	}
	return (1-albedo)*atTop*d.sun + 0.97*(d.sky-black(ts)) - (capacity/resistance+1)*(ts-d.air) - capacity/67.4*vapour
}

// taken is the balance of the draw's own surface, without snow, or under snow that hides it.
func (d draw) taken(ts float64) float64 {
	switch {
	case d.snow >= 0.05 && d.air > 0:
		return d.balance(ts, 0.60, 0.001, 0, 1, -1)
	case d.snow >= 0.05:
		return d.balance(ts, 0.75, 0.001, 0, 1, -1)
	case d.cover == pipe.Gravel:
		return d.balance(ts, 0.25, 0.005, 0, 1, math.Inf(1))
	case d.cover == pipe.Paved:
		return d.balance(ts, 0.15, 0.002, 0, 1, math.Inf(1))
	case d.cover == pipe.Bare:
		return d.balance(ts, 0.20, 0.005, 0, 1, 200)
	}
	leaf := 200.0
	if d.sun > 20 {
		leaf = 50
	}
	return d.balance(ts, 0.23, 0.0148, 0.08, 0.85, leaf/math.Max(1e-3, 1-0.0016*math.Pow(math.Max(0, 25-d.air), 2)))
}

// solved is the temperature [°C] at which the surface passes down what it takes in, by bisection.
func (d draw) solved() float64 {
	low, high := -90.0, 90.0
	for range 60 {
		if mid := 0.5 * (low + high); d.taken(mid) > (mid-d.top)/d.below {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// gentlest is the wind of the gentlest draws [m/s at 2 m]: the least that is ever reckoned with.
const gentlest = 0.3

// The coefficient and the temperature behind it bring as much heat into the ground as the balance does at the surface
// temperature that closes it, which bisection finds from the balance written down anew: to 0.2 W/m² and 1 %. Snow that comes to 0 °C to a
// thousandth is left out, which may count as melting or not.
func TestSurfaceBalanceAsAStraightLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawRow(t, gentlest)
		if rapid.Bool().Draw(t, "snow lies") {
			d.snow = rapid.Float64Range(0.05, 0.4).Draw(t, "snow")
			d.below += d.snow / 0.15
		}
		ts := d.solved()
		if d.snow > 0 && math.Abs(ts) < 1e-3 {
			return
		}
		h, temp, _ := d.energy().at(0, d.cover, d.snow, d.top, d.below)
		if d.snow > 0 && ts > 0 {
			if !math.IsInf(h, 1) || temp != 0 {
				t.Fatalf("snow that would come to %.2f °C does not melt: %g W/(m² K) to %g °C", ts, h, temp)
			}
			return
		}
		want := (ts - d.top) / d.below
		if got := (temp - d.top) / (1/h + d.below); math.Abs(got-want) > 0.2+0.01*math.Abs(want) {
			t.Fatalf("%.2f W/m² into the ground; want %.2f, with the surface at %.2f °C", got, want, ts)
		}
	})
}

// The coefficient is how much less the surface takes in for each kelvin. With vapour unknown it follows from the balance
// by differentiation, d being how much warmer than the air the surface is and c = 10·9.81·2/(T u²): 4·0.97 σ T³ of radiation,
// 1 in calm air, and of convection the neutral coefficient times 1 + 2cd over a warmer surface and 1/(1 − cd)² over a colder.
func TestSurfaceSlope(t *testing.T) {
	for _, d := range []float64{-3, -0.4, 0.4, 3} {
		const air, wind = 12.0, 3.0
		x := oneRow(air, 400, 300, wind, math.NaN()).exchange(0, pipe.Gravel, 0)
		c := 10 * 9.81 * 2 / ((air + 273.15) * wind * wind)
		turbulent := 1 + 2*c*d
		if d < 0 {
			turbulent = 1 / ((1 - c*d) * (1 - c*d))
		}
		neutral := math.Log(2/0.005) * math.Log(2/0.0005) / (0.41 * 0.41 * wind)
		capacity := 101325 * 0.0289586 / (8.314462618 * (air + 273.15)) * 1013
		_, slope := x.gain(air + d)
		within(t, "slope", slope, 4*0.97*5.670374e-8*math.Pow(air+d+273.15, 3)+1+capacity/neutral*turbulent, 1e-4)
	}
}

// What a surface takes in never rises with its temperature, so that one temperature closes its balance; and it has no jump:
// not at 0 °C, not where ground has frozen over, not where snow begins or comes to hide the ground.
func TestSurfaceBalanceFallsWithoutJumps(t *testing.T) {
	const small = 1e-6 // [K], [m]
	rapid.Check(t, func(t *rapid.T) {
		d := drawRow(t, gentlest)
		snow := rapid.SampledFrom([]float64{0, 0.005, 0.03, 0.0499, 0.05, 0.2}).Draw(t, "snow")
		x := d.energy().exchange(0, d.cover, snow)
		more := d.energy().exchange(0, d.cover, snow+small)
		ts := rapid.OneOf(rapid.Float64Range(d.air-15, d.air+25), rapid.Float64Range(-0.5, 0.2), rapid.SampledFrom([]float64{0, -0.3})).Draw(t, "surface")
		before := x.taken(ts - small)
		if after := x.taken(ts + small); after > before+1e-9 {
			t.Fatalf("%.9f W/m² at %g °C, more a little above: %.9f", before, ts, after)
		} else if before-after > 0.01 {
			t.Fatalf("a jump of %.4f W/m² at %g °C", before-after, ts)
		}
		if jump := math.Abs(more.taken(ts) + more.under - x.taken(ts) - x.under); jump > 0.1 {
			t.Fatalf("a jump of %.4f W/m² as %g m of snow become more", jump, snow)
		}
	})
}

// Snow that begins to melt gives ground that is colder no more heat than it did just before.
func TestMeltSetsInWithoutAJump(t *testing.T) {
	const ground = -4
	f := &surface{cover: pipe.Bare, snowOn: 1, drive: EnergyDrive, air: []float64{-2}, snow: []float64{0.1}, density: []float64{300}}
	into := func(sun float64) (heat float64, melts bool) {
		f.energy = oneRow(-2, sun, 230, 3, 300)
		_, resistance := f.snowAt(0)
		h, _, _ := f.energy.at(0, f.cover, 0.1, ground, resistance+half)
		return -outward(f, ground), math.IsInf(h, 1)
	}
	frozen, wet := 0.0, 900.0
	for range 50 {
		mid := 0.5 * (frozen + wet)
		if _, melts := into(mid); melts {
			wet = mid
		} else {
			frozen = mid
		}
	}
	before, melts := into(frozen)
	after, melting := into(wet)
	if melts || !melting {
		t.Fatal("no sun begins to melt the snow")
	}
	within(t, "heat into the ground", after, before, 0.01)
}

// surfaceAt is the temperature of the surface [°C] that goes with what stands for all exchange.
func (d draw) surfaceAt() float64 {
	h, temp, _ := d.energy().at(0, d.cover, d.snow, d.top, d.below)
	if math.IsInf(h, 1) {
		return temp
	}
	ts := (h*temp + d.top/d.below) / (h + 1/d.below)
	if d.snow > 0 {
		ts = math.Min(ts, 0)
	}
	return ts
}

// More sun never makes a surface colder; drawn by day, when the leaves' resistance is that of the day.
func TestMoreSunIsNeverColder(t *testing.T) {
	const numeric = 0.1 // that Newton's last step may be off [K]
	rapid.Check(t, func(t *rapid.T) {
		d := drawRow(t, gentlest)
		d.snow = rapid.SampledFrom([]float64{0, 0.2}).Draw(t, "snow")
		d.below += d.snow / 0.15
		d.sun = rapid.Float64Range(21, 800).Draw(t, "less sun")
		before := d.surfaceAt()
		d.sun += rapid.Float64Range(1, 200).Draw(t, "more sun")
		if after := d.surfaceAt(); after < before-numeric {
			t.Fatalf("%.3f °C; with more sun %.3f", before, after)
		}
	})
}

// half is the resistance from the uppermost node to the surface in the tests below [m² K/W].
const half = 0.003

// outward is the heat that leaves ground of a temperature [°C] under a surface [W/m²].
func outward(f *surface, top float64) float64 {
	b := f.at(0, top, half)
	return (top - b.temperature) / (b.resistance + half)
}

// More snow that does not melt never lets more heat out of ground that is warmer than the air, in frost at night: driven by the air, whatever
// the snow; by the heat balance, with vapour unknown whatever the snow, and with vapour where snow hides the ground.
func TestMoreSnowKeepsMoreHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawRow(t, gentlest)
		d.air, d.sun = rapid.Float64Range(-30, -0.1).Draw(t, "frost"), 0
		d.sky = rapid.Float64Range(0.6, 1).Draw(t, "sky in frost") * black(d.air)
		d.vapour = heat.VapourPressureIce(d.air) * rapid.Float64Range(0.3, 1).Draw(t, "humidity")
		top := rapid.Float64Range(0, 5).Draw(t, "ground")
		less := rapid.Float64Range(0, 0.5).Draw(t, "less snow")
		more := less + rapid.Float64Range(0.001, 0.5).Draw(t, "more snow")
		f := &surface{cover: d.cover, snowOn: 1, air: []float64{d.air}, snow: []float64{less}, density: []float64{200}}
		compare := func(what string) {
			f.snow[0] = less
			before := outward(f, top)
			f.snow[0] = more
			if f.at(0, top, half).temperature == 0 {
				return // ground so near 0 °C melts it from below
			}
			if after := outward(f, top); after > before*1.001 && before > 0.1 {
				t.Fatalf("%s: %.4f W/m² under %.3f m of snow, %.4f under %.3f", what, before, less, after, more)
			}
		}
		compare("air")
		f.drive, f.energy = EnergyDrive, oneRow(d.air, 0, d.sky, d.wind, math.NaN())
		compare("balance, vapour unknown")
		if less >= 0.05 {
			f.energy = d.energy()
			compare("balance")
		}
	})
}

// Snow that takes in more than it passes on at 0 °C melts and holds 0 °C, be the air warm or the sun strong; a clear cold night
// keeps it frozen in air above 0 °C.
func TestSnowHoldsZero(t *testing.T) {
	for _, c := range []struct {
		what          string
		air, sun, sky float64
		melts         bool
	}{
		{"warm air", 6, 0, black(6), true}, {"sun in light frost", -2, 700, 250, true},
		{"a clear night", 2, 0, 210, false}, {"a frosty day", -15, 300, 180, false},
	} {
		f := &surface{cover: pipe.Grass, snowOn: 1, drive: EnergyDrive, air: []float64{c.air}, snow: []float64{0.2}, density: []float64{250},
			energy: oneRow(c.air, c.sun, c.sky, 3, 400)}
		b := f.at(0, -0.3, half)
		switch wet := b == (behind{0.10, 0}); {
		case wet != c.melts:
			t.Errorf("%s: the ground sees %+v; melting is %t", c.what, b, c.melts)
		case !c.melts && !(b.resistance > 0.2/0.1495 && b.temperature < 0):
			t.Errorf("%s: the ground sees %+v through 20 cm of snow", c.what, b)
		}
	}
}

// What evaporates: nothing where vapour is unknown, none off frozen ground or paving; dew falls on all of them without
// resistance; drought holds grass back in proportion; snow gives off what its ice does, and half of that beside half of bare soil's where it hides half of it.
func TestWhatEvaporates(t *testing.T) {
	const resistance = 100.0
	off := func(e *energy, cover pipe.Surface, snow, ts float64) float64 {
		x := e.exchange(0, cover, snow)
		return x.evaporation(ts, resistance)
	}
	dry, damp := oneRow(12, 300, 250, 3, 300), oneRow(12, 300, 250, 3, 1300)
	within(t, "vapour unknown", off(oneRow(12, 300, 250, 3, math.NaN()), pipe.Grass, 0, 12), 0, 0)
	for _, cover := range []pipe.Surface{pipe.Gravel, pipe.Paved} {
		within(t, "paving and gravel", off(dry, cover, 0, 12), 0, 0)
	}
	for _, cover := range []pipe.Surface{pipe.Grass, pipe.Bare, pipe.Gravel, pipe.Paved} {
		within(t, "frozen ground", off(dry, cover, 0, -3), 0, 0)
		within(t, "dew", off(damp, cover, 0, 5), heat.LatentFlux(12, 872.4, 1300, resistance), 0.1) // 872 Pa at 5 °C (FAO 56)
	}
	within(t, "snow at −5 °C", off(dry, pipe.Grass, 0.1, -5), heat.LatentFlux(12, 401.5, 300, resistance)*2.834/2.501, 0.1) // 4.015 hPa over ice, MJ/kg to sublime and to evaporate
	half := 0.5*heat.LatentFlux(12, heat.VapourPressure(2), 300, resistance+200) +
		0.5*heat.LatentFlux(12, heat.VapourPressureIce(2), 300, resistance)*2.834/2.501
	within(t, "bare soil half under snow", off(dry, pipe.Bare, 0.025, 2), half, 1e-9)
	leaves := 50 / (1 - 0.0016*13*13)
	for _, stress := range []float64{1, 0.5, 0.1} {
		dry.water = &drought{stress: []float64{stress}}
		within(t, "grass in drought", off(dry, pipe.Grass, 0, 12), heat.LatentFlux(12, heat.VapourPressure(12), 300, resistance+leaves/stress), 1e-9)
	}
	dry.water.stress[0] = 0
	if left := off(dry, pipe.Grass, 0, 12); left > 0.5 {
		t.Errorf("without water grass still gives off %g W/m²", left)
	}
}

// Leaves resist with 50 s/m by day and 200 by night (ASCE 2005) at 25 °C and above; at 10 °C by 1/0.64 more, and from 0 °C down
// grass is dormant.
func TestCanopy(t *testing.T) {
	for _, c := range []struct{ air, sun, want float64 }{{25, 500, 50}, {31, 500, 50}, {25, 0, 200}, {10, 500, 78.125}, {10, 5, 312.5}} {
		within(t, "leaves", canopy(c.air, c.sun), c.want, 1e-9)
	}
	for _, air := range []float64{0, -10, -30} {
		if r := canopy(air, 500); r < 40_000 {
			t.Errorf("leaves resist with %g s/m at %g °C", r, air)
		}
	}
}

// Cloud that was not recorded comes from the sun: of twelve days of which two are dull, the dull ones have the warmer sky.
func TestSkyFromTheSun(t *testing.T) {
	s := &weather.Series{Start: time.Date(2021, 6, 1, 0, 0, 0, 0, time.UTC)}
	for h := range 12*24 + 1 {
		sun := 700 * math.Max(0, math.Sin(2*math.Pi*float64(h-6)/24))
		if day := h / 24; day == 5 || day == 6 {
			sun *= 0.3
		}
		s.Time, s.Air, s.DewPoint, s.Sun = append(s.Time, 3600*float64(h)), append(s.Air, 10), append(s.DewPoint, 4), append(s.Sun, sun)
	}
	e := newEnergy(s, openExposure, pipe.Soil{})
	clear, dull := e.sky[2*24+12], e.sky[6*24]
	within(t, "clear sky", clear, heat.SkyBerdahlMartin(4)*black(10), 1)
	if cloud := (dull - clear) / (0.84 * (black(10) - clear)); !(cloud > 0.9 && cloud <= 1.001) { // 30 % of the sun: (0.7/0.75)^(1/3.4) = 0.98
		t.Errorf("the dull days' sky, %.0f W/m² beside %.0f, is that of %.2f of cloud", dull, clear, cloud)
	}
}
