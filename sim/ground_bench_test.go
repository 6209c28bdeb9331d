package sim

import (
	"math"
	"os"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/weather"
)

// demonstration is the built-in house without a plan for its pump.
func demonstration(b testing.TB) *Case {
	b.Helper()
	const folder = "../cmd/winterline/demo/"
	text, err := os.ReadFile(folder + "layout.toml")
	if err != nil {
		b.Fatal(err)
	}
	l, problems := pipe.ReadLayout("layout.toml", text)
	p, more := l.MakeProfile("layout.toml")
	f, err := os.Open(folder + "weather.csv")
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	s, last := weather.Read("weather.csv", f)
	if all := append(append(problems, more...), last...); len(all) > 0 {
		b.Fatal(all)
	}
	k, err := NewCase("demonstration", l, p, s, Supply{Given: true})
	if err != nil {
		b.Fatal(err)
	}
	return k
}

// BenchmarkGround times what a run needs of the undisturbed ground: under the demonstration's two
// surfaces, driven by air and a wave before the record; and through a year and a half with the sun in it,
// whose first year is repeated. From a store it is read at depths that the store has been asked for, or at others.
func BenchmarkGround(b *testing.B) {
	k := demonstration(b)
	b.Run("winter", func(b *testing.B) { groundOf(b, k, nil) })
	store := NewGroundStore()
	b.Run("kept", func(b *testing.B) { groundOf(b, k, store) })
	b.Run("reread", func(b *testing.B) {
		groundOf(b, k, store, func() { clear(store.kept[0].tracks) })
	})
	sunny := *k
	sunny.Weather = sunnyYears(13140)
	b.Run("sun", func(b *testing.B) { groundOf(b, &sunny, nil) })
}

func groundOf(b *testing.B, k *Case, store *GroundStore, before ...func()) {
	b.ReportAllocs()
	for b.Loop() {
		for _, f := range before {
			f()
		}
		if _, err := undisturbed(b.Context(), k, Settings{Ground: store}); err != nil {
			b.Fatal(err)
		}
	}
}

// sunnyYears is an invented record of so many hours with all that the surface's heat balance takes.
func sunnyYears(hours int) *weather.Series {
	s := &weather.Series{Start: time.Date(2022, 7, 1, 0, 0, 0, 0, time.UTC)}
	for i := range hours {
		year, hour := 2*math.Pi*float64(i)/8766, 2*math.Pi*float64(i%24)/24
		high := math.Cos(year) // of the sun, by season
		air := 6 + 14*math.Cos(year-0.5) - 5*math.Cos(hour-0.8) + 4*math.Sin(float64(i)/37)
		rain, fall := 0.0, 0.0
		if i%97 < 6 {
			rain = 0.0008
			if air < 0 {
				rain, fall = 0, 0.0008
			}
		}
		s.Time = append(s.Time, float64(i)*3600)
		s.Air = append(s.Air, air)
		s.DewPoint = append(s.DewPoint, air-3-2*math.Cos(hour))
		s.Wind = append(s.Wind, 3+2*math.Sin(float64(i)/29))
		s.Cloud = append(s.Cloud, 0.5+0.5*math.Sin(float64(i)/53))
		s.Sun = append(s.Sun, math.Max(0, -math.Cos(hour))*(450+350*high))
		s.Rain = append(s.Rain, rain)
		s.SnowfallWater = append(s.SnowfallWater, fall)
	}
	return s
}
