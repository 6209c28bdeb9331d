package sim_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"winterline/weather"
)

// winterHours is 1 November to 30 April.
const winterHours = 181 * 24

// inventedWinter makes the weather of a winter by the hour, the same for a number every time.
func inventedWinter(number uint64) *weather.Series {
	return inventedWeather(number, time.Date(2025, 11, 1, 0, 0, 0, 0, time.UTC), winterHours)
}

// inventedWeather makes weather by the hour, the same for a number every time. It is
// measured nowhere; its figures are those of a cold continental place, by common practice, without
// a source:
//
//	air    7 °C − 15 K · cos of the year, coldest on 20 January; ± 1.5 K for a year on end;
//	       weather systems, AR(1) of 60 h and 5 K; a daily wave of 1 K under cloud to 4 K without
//	cloud  half the sky, AR(1) of 30 h, held to 0 … 1
//	wind   log-normal about 3 m/s, AR(1) of 20 h
//	dew    1 to 4 K below the air, the more the less cloud
//	snow   every third day on average 5 mm of water when the air is below 0.5 °C, ten times as
//	       deep; it melts by 4 mm of water a day and kelvin above 0 °C and settles by 3 % a day
func inventedWeather(number uint64, start time.Time, hours int) *weather.Series {
	d := rand.New(rand.NewPCG(number, 0x736e6f77))
	systems, cloudy, windy := newWander(d, 60), newWander(d, 30), newWander(d, 20)
	s := &weather.Series{Source: "invented weather", Start: start}
	before := time.Date(start.Year()+1, 1, 20, 0, 0, 0, 0, time.UTC).Sub(start).Hours() / 24 // the coldest day
	year := 1.5 * d.NormFloat64()
	depth := 0.0
	for h := range hours + 1 {
		if h > 0 && h%(365*24) == 0 {
			year = 1.5 * d.NormFloat64()
		}
		day := float64(h)/24 - before
		cloud := math.Min(1, math.Max(0, 0.5+0.4*cloudy.next()))
		air := 7 - 15*math.Cos(2*math.Pi*day/365) + year + 5*systems.next() -
			(4-3*cloud)*math.Cos(2*math.Pi*(float64(h)-3)/24)
		if d.Float64() < 1.0/3/24 && air < 0.5 {
			depth += 0.05 * d.ExpFloat64()
		}
		depth = math.Max(0, depth*(1-0.03/24)-0.04/24*math.Max(0, air))
		s.Time = append(s.Time, 3600*float64(h))
		s.Air = append(s.Air, air)
		s.Cloud = append(s.Cloud, cloud)
		s.Wind = append(s.Wind, 3*math.Exp(0.5*windy.next()))
		s.DewPoint = append(s.DewPoint, air-4+3*cloud)
		s.SnowDepth = append(s.SnowDepth, depth)
	}
	return s
}

// wander is a first-order autoregressive walk of unit deviation.
type wander struct {
	d           *rand.Rand
	keep, at    float64
	disturbance float64
}

// newWander has a memory in hours.
func newWander(d *rand.Rand, hours float64) *wander {
	keep := math.Exp(-1 / hours)
	return &wander{d, keep, d.NormFloat64(), math.Sqrt(1 - keep*keep)}
}

func (w *wander) next() float64 {
	w.at = w.keep*w.at + w.disturbance*w.d.NormFloat64()
	return w.at
}

// first is a record's first hours.
func first(s *weather.Series, hours int) *weather.Series {
	short := *s
	for _, v := range []*[]float64{&short.Time, &short.Air, &short.Cloud, &short.Wind, &short.DewPoint, &short.SnowDepth} {
		*v = (*v)[:hours+1]
	}
	return &short
}

// The winters are as long as they should be, cold but not all alike, and the same every time.
func TestInventedWinters(t *testing.T) {
	coldest, mildest := math.Inf(1), math.Inf(-1)
	for n := range uint64(30) {
		s := inventedWinter(n)
		if len(s.Time) != winterHours+1 || s.End() != 4344*3600 {
			t.Fatalf("winter %d: %d rows to %g s", n, len(s.Time), s.End())
		}
		january, snow := 0.0, 0.0
		for h := 61 * 24; h < 92*24; h++ {
			january += s.Air[h] / (31 * 24)
		}
		for _, d := range s.SnowDepth {
			snow = math.Max(snow, d)
		}
		if snow < 0.02 || snow > 2 {
			t.Errorf("winter %d: deepest snow %.2f m", n, snow)
		}
		coldest, mildest = math.Min(coldest, january), math.Max(mildest, january)
	}
	if coldest < -18 || mildest > 0 || mildest-coldest < 4 {
		t.Errorf("Januaries from %.1f to %.1f °C", coldest, mildest)
	}
	if a, b := inventedWinter(3), inventedWinter(3); a.Air[4000] != b.Air[4000] || a.SnowDepth[2000] != b.SnowDepth[2000] {
		t.Error("a winter is not the same twice")
	}
}
