package report

import (
	"math"
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// Spans run from closed to reopened at the same place, or to the end of the record; what
// shut twice has to open twice.
func TestClosedSpans(t *testing.T) {
	r := &sim.Result{
		Segments: []sim.SegmentResult{{Name: "a"}, {Name: "b"}, {Name: "c"}},
		Hourly:   sim.Hourly{Time: []float64{0, 3600, 7200}},
		Events: []sim.Event{
			{Time: 100, Kind: sim.EventClosed, Where: "a"}, {Time: 150, Kind: sim.EventClosed, Where: "a"},
			{Time: 200, Kind: sim.EventClosed, Where: "b"}, {Time: 250, Kind: sim.EventReopened, Where: "a"},
			{Time: 300, Kind: sim.EventReopened, Where: "a"},
			{Time: 400, Kind: sim.EventReopened, Where: "c"}, {Time: 500, Kind: sim.EventClosed, Where: "a"},
			{Time: 600, Kind: sim.EventReopened, Where: "a"},
		},
	}
	want := [][]span{{{100, 300}, {500, 600}}, {{200, 7200}}, nil}
	for i, got := range closedSpans(r) {
		if !slices.Equal(got, want[i]) {
			t.Errorf("segment %d: got %v, want %v", i, got, want[i])
		}
	}
}

// A column of the map shows the most ice of the rows in it, and no water as such.
func TestIceColumns(t *testing.T) {
	r := &sim.Result{Hourly: sim.Hourly{
		Time: []float64{0, 1, 2, 3, 4},
		Segments: []sim.SegmentHourly{{
			Ice: []float64{0, 0.2, 0.9, 0.1, 0.3}, Fill: []float64{1, 1, 1, 0, 1},
		}},
	}}
	if got, want := iceColumns(r, 0, 2), []float64{0.2, 0.9}; !slices.Equal(got, want) {
		t.Errorf("two columns: got %v, want %v", got, want)
	}
	// Between rows stands the row before.
	if got, want := iceColumns(r, 0, 8), []float64{0, 0, 0.2, 0.2, 0.9, 0.9, noWater, 0.3}; !slices.Equal(got, want) {
		t.Errorf("eight columns: got %v, want %v", got, want)
	}
	if got, want := iceColumns(r, 0, 4), []float64{0, 0.2, 0.9, 0.3}; !slices.Equal(got, want) {
		t.Errorf("four columns: got %v, want %v", got, want)
	}
}

// The bands stand on each other and end at the totals of the ledger.
func TestPathBands(t *testing.T) {
	r := plain(sim.Flooded)
	bands := pathBands(r)
	l := r.Ledger
	want := []float64{l.Outlet, l.PocketToSoil, l.Relief, l.Rim, l.Floor}
	if len(bands) != len(want) {
		t.Fatalf("%d bands", len(bands))
	}
	sum := 0.0
	for i, b := range bands {
		if got := b.final() / 1000; math.Abs(got-want[i]) > 1e-12 {
			t.Errorf("%s ends at %v m³, want %v", b.words, got, want[i])
		}
		sum += want[i]
	}
	edges := stack(bands)
	top := edges[len(edges)-1]
	if got := top[len(top)-1] / 1000; math.Abs(got-sum) > 1e-9 {
		t.Errorf("top edge ends at %v, want %v", got, sum)
	}
	for row := range top {
		for i := 1; i < len(edges); i++ {
			if edges[i][row] < edges[i-1][row] {
				t.Fatalf("band %d dips below its lower edge in row %d", i, row)
			}
		}
	}
	// What stayed dry is shown only where people ask about it.
	if got := len(pathBands(verificationCell())); got != 1 {
		t.Errorf("one pipe has %d bands, want the outlet alone", got)
	}
}

// The coldest come first; what held no water is not drawn.
func TestWaterTracks(t *testing.T) {
	nan := math.NaN()
	r := &sim.Result{
		Segments: []sim.SegmentResult{{}, {LargestIce: 0.1}, {}, {LargestIce: 0.5}},
		Hourly: sim.Hourly{Segments: []sim.SegmentHourly{
			{Water: []float64{5, 4}}, {Water: []float64{0, nan}}, {Water: []float64{nan, nan}}, {Water: []float64{3, 0}},
		}},
	}
	var got []int
	for _, track := range waterTracks(r) {
		got = append(got, track.segment)
	}
	if !slices.Equal(got, []int{3, 1, 0}) {
		t.Errorf("order is %v", got)
	}
}

// Each kind of event is named once, at its first time, and at most eight kinds.
func TestEventMarks(t *testing.T) {
	r := plain(sim.Spilled)
	marks, left := eventMarks(r)
	if left != 0 {
		t.Errorf("%d kinds left out", left)
	}
	for _, m := range marks {
		switch m.words {
		case "over the rim":
			if m.t != *r.Verdict.Spill || m.count != r.Verdict.SpillRuns || !strings.HasSuffix(m.label(), ")") {
				t.Errorf("rim: %+v, first %v, %d runs", m, *r.Verdict.Spill, r.Verdict.SpillRuns)
			}
		case "frozen shut":
			if m.t != *r.Verdict.Closed || m.label() != "frozen shut" {
				t.Errorf("shut: %+v, first %v", m, *r.Verdict.Closed)
			}
		case "open again":
			if m.t != *r.Verdict.Reopened {
				t.Errorf("open: %+v", m)
			}
		}
	}
	crowd := &sim.Result{}
	for _, m := range markedKinds {
		crowd.Events = append(crowd.Events, sim.Event{Kind: m.kind})
	}
	marks, left = eventMarks(crowd)
	if len(marks) != markLimit || left != len(markedKinds)-markLimit || marks[0].words != "floor wet" {
		t.Errorf("%d marks, %d left out, first %v", len(marks), left, marks[0])
	}
}

func TestStartsByDay(t *testing.T) {
	r := &sim.Result{
		Hourly: sim.Hourly{Time: []float64{0, 2.5 * 86400}},
		Cycles: []sim.CycleRecord{{Time: 0}, {Time: 86399}, {Time: 86400}, {Time: 2.4 * 86400}, {Time: 9 * 86400}},
	}
	if got := startsByDay(r); !slices.Equal(got, []int{2, 1, 1}) {
		t.Errorf("got %v", got)
	}
}

// Labels with equal or close wishes do not overlap, whatever their number.
func TestPlacedMarksDoNotOverlap(t *testing.T) {
	r := plain(sim.Flooded)
	for i, m := range markedKinds {
		r.Events = append(r.Events, sim.Event{Kind: m.kind, Time: 86400 * float64(59+i%2)})
	}
	marks, _ := eventMarks(r)
	p := testPanel(r)
	placed := placeMarks(marks, p)
	style := lettering(textSize, ink, 0, 0)
	for i, a := range placed {
		if a.left+style.Width(a.label()) > p.Max.X+rightMargin {
			t.Errorf("%q leaves the page", a.label())
		}
		for _, b := range placed[:i] {
			if a.row == b.row && a.left < b.left+style.Width(b.label()) && b.left < a.left+style.Width(a.label()) {
				t.Errorf("%q and %q overlap", a.label(), b.label())
			}
		}
	}
}

// A basin that stands still, as under given pump cycles, gets no panel.
func TestLevelPanels(t *testing.T) {
	r := plain(sim.Clear)
	names := func() string {
		var out []string
		for _, p := range levelPanels(r) {
			out = append(out, p.name)
		}
		return strings.Join(out, ", ")
	}
	if got := names(); got != "standpipe, rock pit, basin" {
		t.Errorf("got %s", got)
	}
	for i := range r.Hourly.Basin {
		r.Hourly.Basin[i] = 0.2
	}
	if got := names(); got != "standpipe, rock pit" {
		t.Errorf("with a still basin: got %s", got)
	}
}

// The scale of the profile is honest: heights grow only while pipes are too thin to be
// seen, and only where there is room.
func TestProfileScale(t *testing.T) {
	r := plain(sim.Clear)
	for _, c := range []struct {
		length, height float64
		want           float64
	}{
		{4, 2, 1},    // already legible
		{11, 1.5, 2}, // thin at true scale
		{11, 9, 1},   // no room to grow
		{100, 2, 20}, // a 3 in pipe needs 16.6 times to be 9 points thick
	} {
		frame := testPanel(r).Canvas
		w := window{0, c.length, 0, c.height}
		got := w.fit(&frame)
		if got != c.want {
			t.Errorf("%v m by %v m: drawn %v times, want %v", c.length, c.height, got, c.want)
		}
		// One metre across and one metre up differ by just that factor.
		across := float64(frame.Size().X) / (w.x1 - w.x0)
		up := float64(frame.Size().Y) / (w.z1 - w.z0)
		if math.Abs(up/across-got) > 1e-9 {
			t.Errorf("%v m by %v m: scale is %v", c.length, c.height, up/across)
		}
	}
}

// Pipes indoors are set behind the wall, the stub reaches through it, and what has no
// extent in the profile is left out.
func TestPlaceIndoors(t *testing.T) {
	r := &sim.Result{Segments: []sim.SegmentResult{
		{Setting: pipe.Indoor}, {Setting: pipe.ThroughWall}, {Setting: pipe.OpenAir}, {Setting: pipe.Buried},
	}}
	cells := placeIndoors(r, []sim.CellState{
		{Segment: 0, Z0: -2, Z1: 0.3}, {Segment: 0, Z0: 0.3, Z1: 0.3},
		{Segment: 1, Z0: 0.3, Z1: 0.3}, {Segment: 1, Z0: 0.3, Z1: 0.3},
		{Segment: 2, Z0: -0.4, Z1: 0.4}, {Segment: 3, X1: 5, Z0: -0.4, Z1: -0.5},
	})
	if len(cells) != 5 {
		t.Fatalf("%d cells drawn", len(cells))
	}
	if riser := cells[0]; riser.X0 != indoorPipe || !riser.Vertical {
		t.Errorf("riser: %+v", riser)
	}
	if a, b := cells[1], cells[2]; a.X0 != indoorPipe || a.X1 != b.X0 || b.X1 != 0 || a.Vertical {
		t.Errorf("stub: %+v %+v", a, b)
	}
	if standpipe := cells[3]; standpipe.X0 != 0 || !standpipe.Vertical {
		t.Errorf("standpipe: %+v", standpipe)
	}
	if yard := cells[4]; yard.X1 != 5 || yard.Vertical {
		t.Errorf("yard run: %+v", yard)
	}
}
