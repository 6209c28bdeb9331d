package report

import (
	"bytes"
	"encoding/csv"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
)

func groundRows(t *testing.T, r *sim.GroundResult) [][]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(rendered(t, GroundTable(r)))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// A few rows by hand: no frost, frost thawed from above, a thermometer without a value, and
// a depth above the one that drives the ground.
func TestGroundTable(t *testing.T) {
	nan := math.NaN()
	r := &sim.GroundResult{
		Start: time.Date(2026, time.March, 3, 23, 0, 0, 0, time.UTC),
		Time:  []float64{0, 3600}, Air: []float64{1, 2},
		FrostTop: []float64{nan, 0.0312}, FrostBottom: []float64{nan, 0.4218}, Frozen: []float64{0, 0.3904},
		Tracks:   []sim.GroundTrack{{Depth: 0.05, Temp: []float64{nan, nan}}, {Depth: 0.5, Temp: []float64{-0.00004, 0.0816}}},
		Measured: []sim.MeasuredDepth{{Depth: 0.5, Temp: []float64{nan, 0.3}}},
	}
	want := [][]string{
		{"time", "hour", "snow_m", "frost_top_m", "frost_bottom_m", "frozen_m", "soil_0.05m_c", "soil_0.50m_c", "measured_0.50m_c"},
		{"2026-03-03 23:00", "0.0000", "", "", "", "0.000", "", "0.000", ""},
		{"2026-03-04 00:00", "1.0000", "", "0.031", "0.422", "0.390", "", "0.082", "0.300"},
	}
	for i, got := range groundRows(t, r) {
		if !slices.Equal(got, want[i]) {
			t.Errorf("row %d:\ngot  %q\nwant %q", i, got, want[i])
		}
	}
	r.Snow = []float64{0.1, 0.0988}
	if got := groundRows(t, r)[2][2]; got != "0.099" {
		t.Errorf("snow is %q", got)
	}
}

// What the table list promises is what the file holds.
func TestGroundTableList(t *testing.T) {
	i := slices.IndexFunc(TableList(), func(table Table) bool { return table.File == groundName })
	if i < 0 {
		t.Fatal("ground.csv is not in the list")
	}
	var want []string
	for _, c := range TableList()[i].Columns {
		if c.Meaning == "" {
			t.Errorf("%s has no meaning", c.Name)
		}
		want = append(want, c.Name)
	}
	r := oneWinter()
	r.Tracks, r.Measured = r.Tracks[1:2], r.Measured[:1]
	got := strings.ReplaceAll(strings.Join(groundRows(t, r)[0], ","), "0.10m", "<depth>m")
	if got != strings.Join(want, ",") {
		t.Errorf("file has %s, list has %s", got, strings.Join(want, ","))
	}
}

// A run writes the table where the ground had a part in it.
func TestGroundAmongTables(t *testing.T) {
	r := sample(sampleSpec{sim.Clear, 3, 1})
	has := func() bool {
		return slices.ContainsFunc(Tables(r), func(f File) bool { return f.Name == groundName })
	}
	if has() {
		t.Error("ground.csv without ground")
	}
	if r.Ground = threeDays(); !has() {
		t.Error("no ground.csv")
	}
}

// Depths print to the centimetre, finer only where two would print alike.
func TestDepthNames(t *testing.T) {
	for _, c := range []struct {
		depths []float64
		want   string
	}{
		{sim.DefaultDepths, "0.05 0.10 0.20 0.30 0.50 0.75 1.00 1.50 2.00"},
		{[]float64{0.075, 0.127, 0.25}, "0.08 0.13 0.25"},
		{[]float64{0.1, 0.102, 0.2}, "0.100 0.102 0.20"},
		{[]float64{0.1, 0.1}, "0.10 0.10"},
		{[]float64{12.5}, "12.50"},
	} {
		if got := strings.Join(depthNames(c.depths), " "); got != c.want {
			t.Errorf("%v: got %s, want %s", c.depths, got, c.want)
		}
	}
}

// A winter goes from July to June and bears both years.
func TestWinterNames(t *testing.T) {
	for _, c := range []struct {
		at   time.Time
		want string
	}{
		{time.Date(2024, time.June, 30, 23, 0, 0, 0, time.UTC), "2023-24"},
		{time.Date(2024, time.July, 1, 0, 0, 0, 0, time.UTC), "2024-25"},
		{time.Date(1999, time.December, 31, 0, 0, 0, 0, time.UTC), "1999-00"},
	} {
		if got := winterName(winterOf(c.at, 0)); got != c.want {
			t.Errorf("%v: got %s, want %s", c.at, got, c.want)
		}
	}
}

// Two winters: 1 K off all the time, then 3 K off the other way for three times as long:
// bias (1 − 3·3)/4 = −2, mean square (1 + 3·9)/4 = 7.
func TestPooledMisfit(t *testing.T) {
	got := pooled([]sim.WinterMisfit{{Winter: 2025, Misfit: sim.Misfit{N: 10, Bias: 1, RMSE: 1}}, {Winter: 2026, Misfit: sim.Misfit{N: 30, Bias: -3, RMSE: 3}}})
	if got.N != 40 || math.Abs(got.Bias+2) > 1e-12 || math.Abs(got.RMSE-math.Sqrt(7)) > 1e-12 {
		t.Errorf("got %+v", got)
	}
	if got := pooled(nil); got != (sim.Misfit{}) {
		t.Errorf("of nothing: %+v", got)
	}
}

// The depth that drives the ground agrees with itself, so it is not compared.
func TestComparisons(t *testing.T) {
	r := oneWinter()
	r.Measured[2].All.N = 0
	var got []float64
	for _, m := range comparisons(r) {
		got = append(got, m.Depth)
	}
	if !slices.Equal(got, []float64{0.1, 0.2, 1}) {
		t.Errorf("got %v", got)
	}
	r.Surface.Drive, r.Surface.Depth = sim.ThermometerDrive, 0.1
	if got := comparisons(r); len(got) != 2 || got[0].Depth != 0.2 {
		t.Errorf("driven at 0.1 m: %d depths", len(got))
	}
}

// A pipe of 0.10 m outside diameter under level ground: 0.30 m of cover at one end, 0.50 m at
// the other, so it lies from 0.30 m to 0.60 m.
func TestBuriedRanges(t *testing.T) {
	l, p := buriedPipe(t)
	got := buriedRanges(l, p)
	if len(got) != 1 || got[0].name != "run" || math.Abs(got[0].top-0.3) > 1e-9 || math.Abs(got[0].bottom-0.6) > 1e-9 {
		t.Errorf("got %+v", got)
	}
	if got := buriedRanges(l, nil); got != nil {
		t.Errorf("without a profile: %+v", got)
	}
}

func buriedPipe(t *testing.T) (*pipe.Layout, *pipe.Profile) {
	t.Helper()
	size := pipe.Size{OutsideDiameter: 0.1, Wall: 0.003}
	l := &pipe.Layout{
		Site: pipe.Site{GroundWritten: true},
		Segments: []pipe.Segment{
			{Name: "run", Size: size, Setting: pipe.Buried, Length: 10, Drop: 0.2, Cover: &[2]float64{0.3, 0.5}, CoverPair: true},
			{Name: "tail", Size: size, Setting: pipe.OpenAir, Length: 1},
		},
		Outlet: pipe.Outlet{Kind: pipe.Open},
	}
	p, problems := l.MakeProfile("layout.toml")
	if problems.Err() != nil {
		t.Fatal(problems)
	}
	return l, p
}

// Frost that goes past a pipe at 0.3 to 0.6 m and thaws from above.
func TestFrostVisit(t *testing.T) {
	nan := math.NaN()
	r := &sim.GroundResult{
		Time:        []float64{0, 1, 2, 3, 4, 5, 6, 7},
		FrostTop:    []float64{nan, 0, 0, 0, 0.1, 0.4, 0.7, nan},
		FrostBottom: []float64{nan, 0.2, 0.4, 0.7, 0.8, 0.8, 0.8, nan},
	}
	b := buriedRange{name: "run", top: 0.3, bottom: 0.6}
	if got, want := b.visit(r, sim.FrostSeason{From: 1, To: 6}), (frostVisit{true, true, 2, 5, span{3, 5}}); got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
	if got := b.visit(r, sim.FrostSeason{From: 1, To: 1}); got.reached {
		t.Errorf("before the frost is there: %+v", got)
	}
	if got := b.visit(r, sim.FrostSeason{From: 1, To: 2}); !got.reached || got.below {
		t.Errorf("frost at the pipe alone: %+v", got)
	}
}
