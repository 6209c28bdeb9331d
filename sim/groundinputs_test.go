package sim

import (
	"slices"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/weather"
)

// Courses is how many columns a store has computed and still has.
func (s *GroundStore) Courses() int {
	n := 0
	for _, k := range s.kept {
		if k.course != nil {
			n++
		}
	}
	return n
}

// What changes the ground tells columns apart, and nothing else does.
func TestGroundInputs(t *testing.T) {
	loam, clay := pipe.Soil{ConductivityUnfrozen: 1.5, HeatCapacityUnfrozen: 2.5e6}, pipe.Soil{ConductivityUnfrozen: 1.2, HeatCapacityUnfrozen: 3e6}
	some, other := 1.0, 2.0
	snowy := &weather.Series{Start: time.Date(2025, 12, 1, 0, 0, 0, 0, time.UTC), Time: []float64{0, 3600}, Air: []float64{-3, -3}, SnowDepth: []float64{0.1, 0.1}}
	dry := &weather.Series{Start: snowy.Start, Time: snowy.Time, Air: snowy.Air}
	sunny := &weather.Series{Start: snowy.Start, Time: snowy.Time, Air: snowy.Air, Sun: snowy.Air, DewPoint: snowy.Air}
	site := pipe.Site{Soil: loam, Surface: pipe.Grass, SnowOnLine: 1, WindExposure: 0.4, Layers: []pipe.SoilLayer{{To: 0.5, Soil: clay}}}
	inputs := func(s *weather.Series, change func(*pipe.Site)) groundInputs {
		changed := site
		change(&changed)
		return inputsOf(newGrounds(&changed, s, newSky(s, 1)).own(), Stepping{})
	}
	twin := *snowy
	for _, c := range []struct {
		what   string
		s      *weather.Series
		same   bool
		change func(*pipe.Site)
	}{
		{"nothing", snowy, true, func(*pipe.Site) {}},
		{"room, water table and slope", snowy, true, func(s *pipe.Site) { s.RoomTemperature, s.WaterTable, s.GroundSlope = 20, &some, 0.1 }},
		{"layers written alike", snowy, true, func(s *pipe.Site) { s.Layers = []pipe.SoilLayer{{To: 0.5, Soil: clay}} }},
		{"wind where no heat balance drives", snowy, true, func(s *pipe.Site) { s.WindExposure = 1 }},
		{"wind where one does", sunny, false, func(s *pipe.Site) { s.WindExposure = 1 }},
		{"snow where there is none", dry, true, func(s *pipe.Site) { s.SnowOnLine = 0 }},
		{"snow", snowy, false, func(s *pipe.Site) { s.SnowOnLine = 0 }},
		{"cover", snowy, false, func(s *pipe.Site) { s.Surface = pipe.Bare }},
		{"soil", snowy, false, func(s *pipe.Site) { s.Soil = clay }},
		{"a layer's depth", snowy, false, func(s *pipe.Site) { s.Layers = []pipe.SoilLayer{{To: 0.6, Soil: clay}} }},
		{"mean", snowy, false, func(s *pipe.Site) { s.GroundMean = &some }},
		{"swing", snowy, false, func(s *pipe.Site) { s.GroundSwing = &some }},
		{"resistance", snowy, false, func(s *pipe.Site) { s.SurfaceResistance = &some }},
		{"n-factors", snowy, false, func(s *pipe.Site) { s.NFactor = &pipe.NFactor{Freezing: 0.5, Thawing: 1} }},
	} {
		if got := inputs(c.s, c.change).same(inputs(c.s, func(*pipe.Site) {})); got != c.same {
			t.Errorf("%s: same course %t", c.what, got)
		}
	}
	if inputs(snowy, func(*pipe.Site) {}).same(inputs(&twin, func(*pipe.Site) {})) {
		t.Error("another record has the same course")
	}
	if inputs(snowy, func(s *pipe.Site) { s.SurfaceResistance = &some }).same(inputs(snowy, func(s *pipe.Site) { s.SurfaceResistance = &other })) {
		t.Error("another resistance has the same course")
	}
}

// What was used least recently goes when a store is full, but never what was computed last.
func TestGroundStoreIsBounded(t *testing.T) {
	s := NewGroundStore()
	in := func(mean float64) groundInputs { return groundInputs{mean: mean} }
	for _, mean := range []float64{1, 2, 3} {
		s.account(s.find(in(mean)), storeRoom/3)
	}
	s.find(in(1)) // used again
	s.account(s.find(in(4)), storeRoom/3)
	var left []float64
	for _, k := range s.kept {
		left = append(left, k.of.mean)
	}
	if len(left) != 3 || left[0] != 3 || left[1] != 1 || left[2] != 4 {
		t.Errorf("left are %v; want 3, 1, 4", left)
	}
	s.account(s.find(in(5)), storeRoom)
	if len(s.kept) != 1 || s.kept[0].of.mean != 5 {
		t.Errorf("%d left beside one that fills the store", len(s.kept)-1)
	}
}

// Courses under shifted weather have a room of their own, and go for one another before any other goes.
func TestShiftedGroundIsBounded(t *testing.T) {
	s := NewGroundStore()
	in := func(shift float64) groundInputs { return groundInputs{shift: shift} }
	for _, shift := range []float64{0, 1, 2, 3, 4} {
		s.account(s.find(in(shift)), shiftedRoom/3)
	}
	var left []float64
	for _, k := range s.kept {
		left = append(left, k.of.shift)
	}
	if !slices.Equal(left, []float64{0, 2, 3, 4}) {
		t.Errorf("left are %v; want 0, 2, 3, 4", left)
	}
}

// A store of depths is emptied rather than let grow without end.
func TestKeptTracksAreBounded(t *testing.T) {
	k := &keptGround{tracks: map[float64][]float64{}}
	for i := range 3 * keptTracks {
		if k.take([]*track{{depth: float64(i), u: []float64{1}}}); len(k.tracks) > keptTracks || k.tracks[float64(i)] == nil {
			t.Fatalf("%d depths after %d", len(k.tracks), i+1)
		}
	}
}
