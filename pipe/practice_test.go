package pipe

import (
	"math"
	"slices"
	"testing"
)

func kinds(t *testing.T, l *Layout) []string {
	t.Helper()
	var all []string
	for _, f := range Practice(l, makeProfile(t, l)) {
		if f.Sentence == "" || f.Source == "" {
			t.Errorf("%s has no sentence or no source", f.Kind)
		}
		all = append(all, f.Kind)
	}
	return all
}

// TestPractice starts from a house in which little is amiss and breaks one thing at a time.
func TestPractice(t *testing.T) {
	good := []Edit{{"yard run.sag", "0 in"}, {"extra_inflow", ""}, {"pocket", ""}, {"wall stub.slope", "1/8 in/ft"}}
	if got := kinds(t, load(t, "full.toml", good...)); len(got) != 0 {
		t.Errorf("a sound house gets %q", got)
	}
	for _, c := range []struct {
		want  string
		edits []Edit
	}{
		{"no-relief", []Edit{{"relief", ""}}},
		{"backup-same-line", []Edit{{"relief", ""}}},
		{"relief-faces-house", []Edit{{"relief[0].faces_house", "true"}}},
		{"no-air-gap", []Edit{{"standpipe.house_pipe_end", "9 in"}}},
		{"small-air-gap", []Edit{{"standpipe.house_pipe_end", "11 in"}}},
		{"glued-line", []Edit{{"standpipe", ""}, {"relief", ""}}},
		{"no-check-valve", []Edit{{"basin.check_valve", "false"}}},
		{"shared-downspout", []Edit{{"extra_inflow[0]", `{ kind = "roof", area = "40 m2", joins = "yard run" }`}}},
		{"small-line", []Edit{{"yard run.pipe", "3 in D3034"}}},
		{"corrugated", []Edit{{"yard run.pipe", "4 in HDPE corrugated"}}},
		{"sag", []Edit{{"yard run.sag", "1 in"}}},
		{"flat-run", []Edit{{"yard run.slope", "1/16 in/ft"}}},
		{"no-weep", []Edit{{"outlet.weep", ""}}},
		{"narrow-weep", []Edit{{"outlet.weep", "1/8 in x 2 in"}}},
		{"outlet-near", []Edit{{"outlet.distance_to_house", "9 ft"}}},
		{"pocket-in-clay", []Edit{{"pocket.length", "3 ft"}, {"pocket.width", "2 ft"}, {"pocket.depth", "2 ft"}, {"pocket.void", "40 %"}, {"site.soil_override", ""}, {"site.layer", ""}}},
		{"cleared-paving", []Edit{{"site.soil_override", ""}, {"yard run.surface", "paved"}, {"yard run.insulation", ""}}},
		{"unpainted-pvc", []Edit{{"standpipe.painted", "false"}}},
		{"no-backup", []Edit{{"pump[1]", ""}}},
		{"small-relief", []Edit{{"relief[0].width", "1 in"}}},
		{"eroding-outlet", []Edit{{"outlet.kind", "open"}, {"outlet.level", ""}, {"outlet.lid_opening_head", ""}, {"outlet.weep", ""}, {"yard run.slope", "3 %"}, {"yard run.cover", "14 in"}}},
		{"icing-walk", []Edit{{"site.soil_override", ""}, {"yard run.surface", "paved"}}},
	} {
		if got := kinds(t, load(t, "full.toml", slices.Concat(good, c.edits)...)); !slices.Contains(got, c.want) {
			t.Errorf("%v gives %q, want %s among them", c.edits, got, c.want)
		}
	}
	if got := kinds(t, load(t, "cell.toml")); len(got) != 0 {
		t.Errorf("a single cell gets %q", got)
	}
}

// TestReliefSize takes the blocked lines of a table worked out with orifice, rim weir and a level
// that balances them: of 40 gal/min into a 4 in standpipe, an opening of 50 mm with its bottom at
// 0.30 m passes 77 % under a rim at 0.45 m and the rest goes over, one of 77.9 mm passes all. The
// openings here are squares of the same area.
func TestReliefSize(t *testing.T) {
	const sent = 0.00252361 // 40 gal/min
	for _, c := range []struct {
		diameter float64
		short    bool
	}{{0.050, true}, {0.0779, false}} {
		side := c.diameter * math.Sqrt(math.Pi) / 2
		l := &Layout{Standpipe: &Standpipe{Rim: 0.45, HousePipeEnd: 0.40}, Basin: &Basin{FloorBelowGround: 2.0, BottomBelowFloor: 0.6, FloatOn: 0.2},
			Pumps:   []Pump{{Curve: []CurvePoint{{Head: 0, Flow: 2 * sent}, {Head: 5.7, Flow: 0}}}}, // 40 gal/min at 2.85 m, from the float to the rim
			Reliefs: []Relief{{Segment: -1, Height: 0.30, Width: side, OpeningHeight: side}}}
		flow, known := l.flowAtRim()
		if near(t, "pump", flow, sent, 1e-9); !known {
			t.Error("the pump is not known")
		}
		if got := len(reliefSize(l, nil)) == 1; got != c.short {
			t.Errorf("%g m: found %v, want %v", c.diameter, got, c.short)
		}
	}
	// By hand: 0.61 · 50 cm² · √(2 · 9.80665 · 0.125 m) = 4.776 L/s.
	near(t, "orifice", Relief{Height: 0.30, Width: 0.10, OpeningHeight: 0.05}.flowBelow(0.45), 4.776e-3, 2e-6)
	near(t, "an opening above the rim", Relief{Height: 0.50, Width: 0.10, OpeningHeight: 0.05}.flowBelow(0.45), 0, 0)
}

// TestErosion: by hand, 100 mm bore at 4 % with n = 0.009: (0.025)^(2/3) · 0.2 / 0.009 = 1.900 m/s,
// over what turf bears; at 1 % it is 0.950 m/s, over what bare soil bears and under turf.
func TestErosion(t *testing.T) {
	for _, c := range []struct {
		drop, speed float64
		cover       Surface
		found       bool
	}{{0.04, 1.900, Grass, true}, {0.01, 0.950, Grass, false}, {0.01, 0.950, Bare, true}, {0.04, 1.900, Paved, false}, {-0.04, 0, Bare, false}} {
		l := &Layout{Site: Site{Surface: c.cover}, Basin: &Basin{}, Outlet: Outlet{Kind: Open},
			Segments: []Segment{{Name: "run", Length: 1, Drop: c.drop, Size: Size{OutsideDiameter: 0.106, Wall: 0.003, Manning: 0.009}}}}
		near(t, "speed", fullFlowSpeed(l.Segments[0]), c.speed, 5e-4)
		if got := len(erosion(l, nil)) == 1; got != c.found {
			t.Errorf("drop %g over %v: found %v, want %v", c.drop, c.cover, got, c.found)
		}
	}
}

// TestIcing: a paved stretch from 5 to 8 m: 10 ft before it, beyond it, and farther.
func TestIcing(t *testing.T) {
	paved := Paved
	l := &Layout{Basin: &Basin{}, Segments: []Segment{{Setting: Buried}, {Name: "drive", Setting: Buried, Surface: &paved}, {Setting: Buried}}}
	p := &Profile{Segments: []Reach{{X0: 0, X1: 5}, {X0: 5, X1: 8}, {X0: 8, X1: 20}}}
	for _, c := range []struct {
		relief, outlet float64
		want           []string
	}{{0.3, 20, nil}, {2.5, 20, []string{AtRelief}}, {0.3, 6, []string{AtOutlet}}, {1.9, 11.1, nil}, {2.0, 11.0, []string{AtRelief, AtOutlet}}} {
		l.Reliefs, l.Outlet.DistanceToHouse = []Relief{{DistanceToHouse: c.relief}}, c.outlet
		var got []string
		for _, f := range icing(l, p) {
			got = append(got, f.Where)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("relief at %g m, outlet at %g m: got %q, want %q", c.relief, c.outlet, got, c.want)
		}
	}
}

// TestUnpainted: PVC in the open is found unless it is painted, insulated or under a roof; other
// pipe, and pipe in the ground, never.
func TestUnpainted(t *testing.T) {
	pvc, pe := Size{Material: Material{Name: "PVC"}}, Size{Material: Material{Name: "HDPE"}}
	l := &Layout{Basin: &Basin{}, Segments: []Segment{
		{Name: "riser", Size: pvc}, {Name: "bare", Size: pvc, Setting: OpenAir}, {Name: "white", Size: pvc, Setting: OpenAir, Painted: true},
		{Name: "wrapped", Size: pvc, Setting: OpenAir, Insulation: []Insulation{{Thickness: 0.02}}}, {Name: "black", Size: pe, Setting: OpenAir},
		{Name: "garage", Size: pvc, Setting: Sheltered}, {Name: "yard run", Size: pvc, Setting: Buried},
	}}
	places := func() (all []string) {
		for _, f := range unpainted(l, nil) {
			all = append(all, f.Where)
		}
		return all
	}
	if got, want := places(), []string{"bare"}; !slices.Equal(got, want) {
		t.Errorf("found %q, want %q", got, want)
	}
	l.Standpipe = &Standpipe{Size: pvc}
	if got, want := places(), []string{AtStandpipe, "bare"}; !slices.Equal(got, want) {
		t.Errorf("with a standpipe: found %q, want %q", got, want)
	}
}
