package sim_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"sync"
	"testing"

	"winterline/sim"
	"winterline/weather"
)

// storeCases are cases over one weather and site that differ in depth, fall, outlet and pump cycles; the last lies
// under another surface as well.
func storeCases(t *testing.T, s *weather.Series) []*sim.Case {
	t.Helper()
	var cases []*sim.Case
	for i, c := range []struct {
		cover, setting string
		every          float64
	}{{"0.2 m", "", 3}, {"0.2 m", "", 12}, {"0.45 m", "", 6}, {"0.3 m", "", 6}, {"0.2 m", "surface = \"paved\"\n", 6}} {
		l, p := readLayout(t, fmt.Sprintf(storeLayout, c.cover, c.setting))
		l.Water.Every, l.Water.For = c.every*3600, 45
		k, err := sim.NewCase(fmt.Sprintf("case %d", i), l, p, s, sim.Supply{})
		if err != nil {
			t.Fatal(err)
		}
		cases = append(cases, k)
	}
	return cases
}

const storeLayout = `title = "t"
[site]
soil = "silt loam"
topsoil = "lawn"
surface = "grass"
snow_on_line = "cleared"
[water]
water_temperature = "8 degC"
[[segment]]
name = "house"
pipe = "1-1/2 in sch 40 PVC"
length = "3 m"
rise = "2.5 m"
setting = "indoor"
[[segment]]
name = "yard"
pipe = "4 in D3034"
length = "4 m"
slope = "1/8 in/ft"
setting = "buried"
cover = "%s"
%s[outlet]
kind = "open"
`

// coldDays are five days of frost by night; sunny ones have what the surface's heat balance takes.
func coldDays(sunny bool) *weather.Series {
	s := &weather.Series{Source: "test", Start: recordStart}
	for i := range 121 {
		at := 3600 * float64(i)
		wave := math.Sin(at / 86400 * 2 * math.Pi)
		s.Time, s.Air, s.Wind = append(s.Time, at), append(s.Air, -9+6*wave), append(s.Wind, 4)
		if sunny {
			s.Sun, s.DewPoint = append(s.Sun, math.Max(0, 300*wave)), append(s.DewPoint, -16)
		}
	}
	return s
}

// Cases that share the ground, in any order and four at a time, give what each gives by itself, to the
// bit; so do those of another weather in the same store.
func TestGroundStoreGivesTheSame(t *testing.T) {
	cases := append(storeCases(t, coldDays(false)), storeCases(t, coldDays(true))...)
	var alone []*sim.Result
	for _, k := range cases {
		alone = append(alone, mustRun(t, k))
	}
	for _, workers := range []int{1, 4} {
		store := sim.NewGroundStore()
		jobs := make(chan int, 2*len(cases))
		for range 2 { // the second time the store has all
			for _, i := range rand.Perm(len(cases)) {
				jobs <- i
			}
		}
		close(jobs)
		var wait sync.WaitGroup
		for range workers {
			wait.Go(func() {
				for i := range jobs {
					r, err := sim.Run(context.Background(), cases[i], sim.Settings{Ground: store})
					if err != nil {
						t.Error(err)
					} else if where := difference(reflect.ValueOf(*alone[i]), reflect.ValueOf(*r), "Result"); where != "" {
						t.Errorf("%d at a time, %s: %s", workers, cases[i].Name, where)
					}
				}
			})
		}
		wait.Wait()
		// Grass by air, grass by sun, and paved ground by each.
		if n := store.Courses(); n != 4 {
			t.Errorf("%d at a time: %d columns computed for ten cases; want 4", workers, n)
		}
	}
}

// After a run that was cancelled the next one computes what that left.
func TestGroundStoreAfterCancelling(t *testing.T) {
	k := storeCases(t, coldDays(false))[0]
	store := sim.NewGroundStore()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := sim.Run(ctx, k, sim.Settings{Ground: store}); !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	r, err := sim.Run(t.Context(), k, sim.Settings{Ground: store})
	if err != nil {
		t.Fatal(err)
	}
	if where := difference(reflect.ValueOf(*mustRun(t, k)), reflect.ValueOf(*r), "Result"); where != "" {
		t.Error(where)
	}
}

// What was cancelled before it was computed leaves no place behind; what was computed stays.
func TestGroundStoreForgetsTheCancelled(t *testing.T) {
	store := sim.NewGroundStore()
	k := storeCases(t, coldDays(false))[0]
	gone, cancel := context.WithCancel(context.Background())
	cancel()
	for by := range 5 {
		if _, err := sim.Run(gone, k.Warmer(-float64(by)), sim.Settings{Ground: store}); !errors.Is(err, context.Canceled) {
			t.Fatalf("error %v; want it cancelled", err)
		}
	}
	if n := store.Places(); n != 0 {
		t.Errorf("%d places for courses that nobody computed", n)
	}
	if _, err := sim.Run(context.Background(), k, sim.Settings{Ground: store}); err != nil {
		t.Fatal(err)
	}
	if n := store.Places(); n != 1 {
		t.Errorf("%d courses kept; want 1", n)
	}
}
