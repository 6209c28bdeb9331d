package report

import (
	"math"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

var nan = math.NaN()

// causeCase is a line that froze shut five times, each for a reason of its own; figures invented.
func causeCase() *sim.Result {
	const hour = 3600.0
	at := func(h float64) *float64 { t := h * hour; return &t }
	r := &sim.Result{
		Start:    causeStart,
		Layout:   &pipe.Layout{Segments: []pipe.Segment{{Name: "riser"}, {Name: "yard run", Sag: 0.07}, {Name: "hose"}}, Outlet: pipe.Outlet{Kind: pipe.Lid}},
		Segments: []sim.SegmentResult{{Name: "riser"}, {Name: "yard run"}, {Name: "hose"}},
	}
	for h := range 241 {
		r.Hourly.Time = append(r.Hourly.Time, float64(h)*hour)
	}
	met := sim.Met{
		Air: -15, Wind: 1.2, Outside: -3.2, LowestSince: -18, MeanSince: -12, Spell: 6 * hour, LowestSpell: -18, MeanSpell: -11,
		Ground: -3.2, Depth: 0.388, Frost: 0.55, Snow: 0.10,
	}
	inOpen := met
	inOpen.Outside, inOpen.Ground, inOpen.Depth, inOpen.Frost, inOpen.MeanSince, inOpen.LowestSince, inOpen.Spell = -15, nan, nan, nan, -15, -15, nan
	sheltered := inOpen
	sheltered.Outside, sheltered.Air = -5, -1
	bare := met
	bare.Snow = 0
	soil := []sim.Layer{
		{Kind: sim.LayerIce, Thickness: nan, Resistance: 0.09, Share: 0.15}, {Kind: sim.LayerWall, Thickness: 0.0039, Resistance: 0.12, Share: 0.20},
		{Kind: sim.LayerSoil, Thickness: 0.358, Resistance: 0.36, Share: 0.60}, {Kind: sim.LayerCover, Thickness: nan, Resistance: 0.03, Share: 0.05, Beyond: true},
	}
	foam := []sim.Layer{
		{Kind: sim.LayerIce, Thickness: nan, Resistance: 0.04, Share: 0.02}, {Kind: sim.LayerWall, Thickness: 0.0039, Resistance: 0.14, Share: 0.05},
		{Kind: sim.LayerInsulation, Material: "closed-cell foam", Thickness: 0.0254, Resistance: 2.5, Share: 0.83}, {Kind: sim.LayerAir, Thickness: nan, Resistance: 0.3, Share: 0.10},
	}
	r.Closures = []sim.Closure{
		{ // in a sag, among snow, with a relief that then ran
			Where: 1, Distance: 4, Length: 0.5, From: 2, To: 5, Shut: 100 * hour, Grew: 120 * hour, Reopened: at(148), After: -1,
			Stood:  sim.Stood{Volume: 0.0011, Fill: 1, Stretch: 0.0089, From: 0.5, To: 6, Barrier: sim.BarrierSag, At: 6, Part: 1},
			Warm:   sim.WarmWater{Time: 89 * hour, Temperature: 7.5, Volume: 0.018},
			Heat:   sim.HeatHeld{Standing: 0.0011, Mean: 6, AboveZero: 27_720, ToShut: 333_000, FirstIce: 92 * hour, LossToIce: 2.57, Loss: 9.1},
			Layers: soil, Met: met, Relief: &sim.ReliefThen{Snow: 0.1, Clear: 0.1},
			During: sim.WhileShut{Cycles: 8, ReliefRuns: 8, Relief: 0.16},
		},
		{ // behind it, later, ice left over, buried relief, rim
			Where: 0, Length: 0.13, From: 0, To: 0.1, Shut: 130 * hour, After: 0, Slush: true,
			Stood:  sim.Stood{Volume: 0.001, Fill: 0.92, Stretch: 0.016, From: 0, To: 6, Barrier: sim.BarrierPlug, At: 2.5, Part: 1},
			Warm:   sim.WarmWater{Time: 128.7 * hour, Temperature: 12, Volume: 0.008},
			Heat:   sim.HeatHeld{Standing: 0.001, IceBefore: 0.8, Mean: 0, ToShut: 37_800, FirstIce: 104 * hour, LossToIce: nan, Loss: 8},
			Layers: soil, Met: bare, Relief: &sim.ReliefThen{Snow: 0.3, Clear: -0.1, Blocked: true},
			Pocket: &sim.PocketThen{Full: 0.998, Temperature: 3.5, Drinking: 4.18e-7},
			During: sim.WhileShut{Cycles: 13, Rim: 0.6, Refused: 0.05},
		},
		{ // a full pocket, partly buried relief
			Where: 1, Distance: 6, Length: 0.14, From: 5.9, To: 6, Shut: 150 * hour, Reopened: at(151), After: -1,
			Stood:  sim.Stood{Volume: 0.0012, Fill: 1, Stretch: 0.0012, From: 5.9, To: 6, Barrier: sim.BarrierPocket, At: 6, Part: 1},
			Warm:   sim.WarmWater{Time: 149.6 * hour, Temperature: 3, Volume: 0.007},
			Heat:   sim.HeatHeld{Standing: 0.0012, Mean: 2, AboveZero: 10_000, ToShut: 360_000, FirstIce: 149.8 * hour, LossToIce: 14, Loss: 260},
			Layers: soil, Met: met, Relief: &sim.ReliefThen{Snow: 0.25, Clear: -0.02}, Pocket: &sim.PocketThen{Full: 1, Ice: 0.9, Temperature: 0},
		},
		{ // in the open air, insulated, as the layout says; never any warm water
			Where: 2, Distance: 7, Length: 0.5, From: 7, To: 7.5, Shut: 20 * hour, After: -1,
			Stood:  sim.Stood{Volume: 0.0007, Fill: 1, Stretch: 0.0007, From: 7, To: 7.5, Barrier: sim.BarrierWritten, At: nan, Part: -1},
			Warm:   sim.WarmWater{Time: nan, Temperature: nan, Volume: nan},
			Heat:   sim.HeatHeld{Standing: 0.0007, Mean: 5, AboveZero: 13_850, ToShut: 196_000, FirstIce: 2 * hour, LossToIce: 1.9, Loss: 2.9},
			Layers: foam, Met: inOpen,
		},
		{ // ice from passing water, under a shelter; the relief already running
			Where: 2, Distance: 7, Length: 0.5, From: 7, To: 7.5, Shut: 200 * hour, After: -1,
			Stood:  sim.Stood{Volume: 0.0004, Fill: 0.9, Stretch: 0.0004, From: 7, To: 7.5, Barrier: sim.BarrierLaid, At: nan, Part: -1},
			Warm:   sim.WarmWater{Time: 152 * hour, Temperature: 7, Volume: 0.018},
			Heat:   sim.HeatHeld{Standing: 0.0003, IceBefore: 0.96, Mean: 1, ToShut: 35_500, FirstIce: 9 * hour, LossToIce: nan, Loss: 0.19},
			Layers: foam[:2], Met: sheltered, Relief: &sim.ReliefThen{Running: true, Snow: nan, Clear: 0.2},
			During: sim.WhileShut{Cycles: 1},
		},
		{ // ice on the ground over the lid
			Where: 2, Distance: 7.5, Length: 0.5, From: 7, To: 7.5, Shut: 210 * hour, After: -1, Mound: true,
			Stood: sim.Stood{Volume: 0.001, Fill: 1, Stretch: 0.0534, From: 0, To: 7.5, Barrier: sim.BarrierLid, At: 7.5, Part: 2},
			Warm:  sim.WarmWater{Time: 209 * hour, Temperature: 4, Volume: 0.01}, Met: met, Relief: &sim.ReliefThen{Snow: 0, Clear: 0.2},
			During: sim.WhileShut{Cycles: 4, ReliefRuns: 4, Relief: 0.05},
		},
	}
	return r
}

// The sentences on every one of them, in both systems of units. By hand: 27,720 J are 26 BTU or 7.7 Wh, 9.1 W are
// 31 BTU/h, 4.18e-7 m³/s are 36 L a day, and the first froze shut on the fifth day at 04:00.
func TestCauseWords(t *testing.T) {
	r := causeCase()
	for _, s := range []struct {
		name   string
		system System
	}{{"us", US}, {"si", SI}} {
		var out strings.Builder
		for i := range r.Closures {
			out.WriteString(strings.Join(causeWords(r, i, s.system), "\n") + "\n\n")
		}
		golden(t, "cause-"+s.name+".txt", []byte(out.String()))
	}
	first := strings.Join(causeWords(r, 0, SI), " ")
	for _, want := range []string{"7.7 Wh (26 BTU)", "9.1 W (31 BTU/h)", "Fri Jan 9 04:00"} {
		if !strings.Contains(first, want) {
			t.Errorf("lacks %q: %s", want, first)
		}
	}
	if causeWords(r, len(r.Closures), US) != nil || causeWords(r, -1, US) != nil {
		t.Error("words on a closure that is none")
	}
}

// Nothing that holds water, and no layer, is without words; and no sentence shows what is no number.
func TestCauseWordsAreComplete(t *testing.T) {
	r := causeCase()
	for _, b := range []sim.Barrier{
		sim.BarrierSag, sim.BarrierGrade, sim.BarrierOutlet, sim.BarrierLid, sim.BarrierPocket, sim.BarrierSlot, sim.BarrierSlow,
		sim.BarrierPlug, sim.BarrierEnd, sim.BarrierValve, sim.BarrierLaid, sim.BarrierWritten,
	} {
		r.Closures[0].Stood.Barrier = b
		if barrierWords[b] == "" || len(barrierWords) != 12 {
			t.Errorf("no words for %q", b)
		}
		for _, line := range causeWords(r, 0, US) {
			if strings.Contains(line, "%!") || strings.Contains(line, "unknown") {
				t.Errorf("%s: %s", b, line)
			}
		}
	}
	for _, kind := range []string{sim.LayerWall, sim.LayerSoil, sim.LayerAir, sim.LayerCover, sim.LayerSnow} {
		if layerWords[kind] == "" {
			t.Errorf("no words for %q", kind)
		}
	}
	for i := range r.Closures {
		text := strings.Join(causeWords(r, i, SI), " ")
		if strings.Contains(text, "%!") || strings.Contains(text, "unknown") || strings.Contains(text, "NaN") {
			t.Errorf("closure %d: %s", i, text)
		}
	}
}
