package report

import (
	"math"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// groundSpec asks for ground through a record. Weather and soil are invented, and the soil
// is followed roughly: the results have the shape of true ones, not their figures.
type groundSpec struct {
	start    time.Time
	days     int
	mild     float64 // added to the air [K]
	snow     bool
	measured []float64 // depths with a thermometer [m]
	segments int       // of the layout, as in sampleSpec
}

// Samples that most tests use: one winter with snow and thermometers, three days of a
// first frost, four years, and a winter in which nothing freezes.
func oneWinter() *sim.GroundResult {
	return groundSample(groundSpec{start: time.Date(2025, time.October, 1, 0, 0, 0, 0, time.UTC), days: 212, snow: true,
		measured: []float64{0.1, 0.2, 0.5, 1}, segments: 5})
}

func threeDays() *sim.GroundResult {
	return groundSample(groundSpec{start: time.Date(2025, time.November, 14, 6, 0, 0, 0, time.UTC), days: 3, mild: -6, segments: 5})
}

func fourYears() *sim.GroundResult {
	return groundSample(groundSpec{start: time.Date(2021, time.July, 1, 0, 0, 0, 0, time.UTC), days: 1461, snow: true,
		measured: []float64{0.05, 0.1, 0.2, 0.3, 0.5, 0.75, 1, 1.5}, segments: 8})
}

func mildWinter() *sim.GroundResult {
	return groundSample(groundSpec{start: time.Date(2025, time.November, 1, 0, 0, 0, 0, time.UTC), days: 120, mild: 18, segments: 3})
}

// The slab of soil behind the samples, in equal volumes.
const (
	slabStep   = 0.05 // thickness of a volume [m]
	slabCount  = 64
	slabHeat   = 2.4e6 // [J/(m³ K)]
	slabConduc = 1.5   // [W/(m K)]
	slabLatent = 5.0e7 // [J/m³]
	slabTick   = 900.0 // [s]
)

// slab is its state: energy over that of water-filled soil at 0 °C [J/m³].
type slab [slabCount]float64

func (s *slab) temp(i int) float64 {
	switch e := s[i]; {
	case e > 0:
		return e / slabHeat
	case e < -slabLatent:
		return (e + slabLatent) / slabHeat
	}
	return 0
}

// tick lets heat flow for one tick under a surface at a temperature behind a resistance.
func (s *slab) tick(surface, resistance float64) {
	in := (surface - s.temp(0)) / (resistance + slabStep/2/slabConduc)
	for i := range s {
		out := 0.0
		if i+1 < slabCount {
			out = (s.temp(i) - s.temp(i+1)) * slabConduc / slabStep
		}
		s[i] += (in - out) * slabTick / slabStep
		in = out
	}
}

// frost reads the frozen layers, the last volume in parts.
func (s *slab) frost() (top, bottom, thickness float64) {
	top, bottom = math.NaN(), math.NaN()
	for i := range s {
		share := math.Min(1, math.Max(0, -s[i]/slabLatent))
		if share == 0 {
			continue
		}
		thickness += share * slabStep
		from := float64(i) * slabStep
		if math.IsNaN(top) {
			top = from
			if i > 0 || s.temp(i+1) < 0 || s[i+1] < 0 {
				top = from + (1-share)*slabStep
			}
		}
		bottom = from + share*slabStep
		if i+1 < slabCount && s[i+1] < 0 {
			bottom = from + slabStep
		}
	}
	return math.Min(top, bottom), bottom, thickness
}

// at interpolates the temperature at a depth.
func (s *slab) at(depth float64) float64 {
	x := math.Max(0, depth/slabStep-0.5)
	i := min(int(x), slabCount-2)
	return s.temp(i) + (x-float64(i))*(s.temp(i+1)-s.temp(i))
}

func groundSample(spec groundSpec) *sim.GroundResult {
	layout, profile := sampleLayout(sampleSpec{segments: spec.segments})
	r := &sim.GroundResult{
		Name: "larkspur-hollow", Title: layout.Title, Start: spec.start, Layout: layout, Profile: profile,
		Guesses: layout.Guesses, HeatRelative: 3.4e-13, SpinUpYears: 3,
		Surface: sim.GroundSurface{Cover: pipe.Grass, Drive: sim.EnergyDrive, SnowOn: 1},
	}
	if spec.snow {
		r.Surface.SnowKind = weather.SnowMeasured
	}
	for _, depth := range sim.DefaultDepths {
		r.Tracks = append(r.Tracks, sim.GroundTrack{Depth: depth})
	}
	r.Field.Depths = []float64{0.01}
	for z := 0.05; z < 3; z += 0.05 {
		r.Field.Depths = append(r.Field.Depths, z)
	}
	runSlab(r, spec)
	sampleSeasons(r)
	sampleMeasured(r, spec.measured)
	return r
}

// runSlab makes the rows.
func runSlab(r *sim.GroundResult, spec groundSpec) {
	var ground slab
	for i := range ground {
		z := (float64(i) + 0.5) * slabStep
		ground[i] = slabHeat * math.Max(1, 7+spec.mild+13*sampleSeason(spec.start, 0)*math.Exp(-z/2.2))
	}
	snow, stride := 0.0, max(1, spec.days*24/1500)
	for i := range spec.days*24 + 1 {
		t := float64(i) * 3600
		air := sampleAir(spec, t)
		snow = math.Max(0, snow*math.Pow(0.985, 1.0/24)-0.0012*math.Max(0, air))
		if spec.snow && math.Mod(t/86400+3, 17) < 1.4 && air < 0 {
			snow += 0.0035
		}
		for range int(3600 / slabTick) {
			ground.tick(air+1, 0.08+snow/0.4)
		}
		top, bottom, thickness := ground.frost()
		r.Time, r.Air = append(r.Time, t), append(r.Air, air)
		r.FrostTop, r.FrostBottom, r.Frozen = append(r.FrostTop, top), append(r.FrostBottom, bottom), append(r.Frozen, thickness)
		r.Snow = appendIf(spec.snow, r.Snow, snow)
		for k := range r.Tracks {
			r.Tracks[k].Temp = append(r.Tracks[k].Temp, ground.at(r.Tracks[k].Depth))
		}
		if i%stride == 0 {
			var slice []float64
			for _, z := range r.Field.Depths {
				slice = append(slice, ground.at(z))
			}
			r.Field.Time, r.Field.Temp = append(r.Field.Time, t), append(r.Field.Temp, slice)
		}
	}
}

// sampleSeason swings from -1 in mid-January to 1 in mid-July.
func sampleSeason(start time.Time, t float64) float64 {
	day := float64(start.YearDay()) + t/86400
	return -math.Cos(2 * math.Pi * (day - 16) / 365.25)
}

func sampleAir(spec groundSpec, t float64) float64 {
	day := t / 86400
	return 4 + spec.mild + 17*sampleSeason(spec.start, t) + 4*math.Sin(2*math.Pi*(day-0.4)) +
		4*math.Sin(2*math.Pi*day/9.3+1) + 3*math.Sin(2*math.Pi*day/31) + 2*math.Sin(2*math.Pi*day/540)
}

// sampleSeasons sums up the frost winter by winter.
func sampleSeasons(r *sim.GroundResult) {
	winter := 0
	for i, t := range r.Time {
		if math.IsNaN(r.FrostBottom[i]) {
			continue
		}
		if w := winterOf(r.Start, t); w != winter || len(r.Seasons) == 0 {
			winter = w
			r.Seasons = append(r.Seasons, sim.FrostSeason{From: t})
		}
		s := &r.Seasons[len(r.Seasons)-1]
		s.To = t
		s.FreezingDays += math.Max(0, -r.Air[i]) / 24
		if r.FrostBottom[i] > s.Deepest {
			s.Deepest, s.DeepestAt = r.FrostBottom[i], t
		}
	}
}

// sampleMeasured makes thermometers that read a little otherwise than what was computed,
// with a week without readings.
func sampleMeasured(r *sim.GroundResult, depths []float64) {
	for k, depth := range depths {
		m := sim.MeasuredDepth{Depth: depth}
		var computed []float64
		for _, track := range r.Tracks {
			if track.Depth == depth {
				computed = track.Temp
			}
		}
		for i, v := range computed {
			day := r.Time[i] / 86400
			v += 0.3 - 0.25*float64(k) + 0.9*math.Exp(-2*depth)*math.Sin(2*math.Pi*day/17+float64(k))
			if day > 40 && day < 47 {
				v = math.NaN()
			}
			m.Temp = append(m.Temp, v)
		}
		m.All = sampleMisfit(computed, m.Temp, func(int) bool { return true })
		for _, s := range r.Seasons {
			w := winterOf(r.Start, s.From)
			inWinter := func(i int) bool {
				month := stamp(r.Start, r.Time[i]).Month()
				return winterOf(r.Start, r.Time[i]) == w && (month >= time.November || month <= time.March)
			}
			m.Winters = append(m.Winters, sim.WinterMisfit{Winter: w, Misfit: sampleMisfit(computed, m.Temp, inWinter)})
		}
		r.Measured = append(r.Measured, m)
	}
}

func sampleMisfit(computed, measured []float64, counts func(int) bool) sim.Misfit {
	var m sim.Misfit
	sum, squares := 0.0, 0.0
	for i := range measured {
		if math.IsNaN(measured[i]) || !counts(i) {
			continue
		}
		d := computed[i] - measured[i]
		m.N++
		sum += d
		squares += d * d
	}
	m.Bias, m.RMSE = sum/float64(m.N), math.Sqrt(squares/float64(m.N))
	return m
}
