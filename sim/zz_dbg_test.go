package sim

import ("testing";"math";"time";"winterline/pipe";"winterline/weather";"fmt")

func TestZZ(t *testing.T) {
	soil := pipe.Soil{ConductivityUnfrozen: 1.2, ConductivityFrozen: 1.9, HeatCapacityUnfrozen: 2.6e6, HeatCapacityFrozen: 2.0e6, Latent: 80e6}
	for _, r := range []float64{1e-6,1e-5,1e-4,1e-3,0.01, 0.05,0.1} {
	site := &pipe.Site{Soil: soil, SurfaceResistance: &r}
	fails := 0
	for k := 0; k < 20; k++ {
	air := func(t float64) float64 { d := t/86400; return 2-9*math.Sin(2*math.Pi*d/180)-(3+0.3*float64(k))*math.Cos(2*math.Pi*d) }
	s := &weather.Series{Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for h := 0; h < 150*24; h++ { s.Time = append(s.Time, float64(h)*3600); s.Air = append(s.Air, air(float64(h)*3600)) }
	g, err := NewGround(site, s, 4, 0.15)
	if err != nil { fails++
		if fails == 1 { fmt.Println(r, k, err) }
	}
	_ = g
	}
	fmt.Println("R", r, "fails", fails, "of 20")
	}
}
