package sim_test

import (
	"fmt"
	"math"
	"runtime"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// Forty cells of one kind through a month of frost, without water that moves.

const kindCells, kindHours = 40, 720

// kind is a line of one kind of cells.
type kind struct {
	name    string
	setting string
	pieces  int                    // segments that it is cut into
	length  float64                // of all cells together [m]
	segment func(i int) string     // further keys of a segment
	iced    func(ice float64) bool // what has to become of it, by its largest ice share
}

func noIce(f float64) bool { return f == 0 }
func ice(f float64) bool   { return f > 0.02 }

// kinds are told apart by what a cell has to compute. Cells that are not to be twins differ in how
// full they are, or in their depth.
var kinds = []kind{
	{"indoor", "indoor", 1, kindCells * 3, fixed("standing = \"full\""), noIce},
	{"dry", "open-air", 1, kindCells * 0.5, fixed("standing = \"0 %\""), noIce},
	{"twins", "open-air", 1, kindCells * 0.5, fixed("standing = \"full\""), ice},
	{"open-air-wet", "open-air", kindCells, kindCells * 0.5, varied("standing = \"%.1f %%\"", 30, 100), ice},
	{"buried-wet", "buried", kindCells, kindCells * 0.5, varied("standing = \"full\"\ncover = \"%.1f cm\"", 300, 400), noIce},
	{"buried-iced", "buried", kindCells, kindCells * 0.5, varied("standing = \"full\"\ncover = \"%.1f cm\"", 10, 30), ice},
}

func fixed(text string) func(int) string { return func(int) string { return text } }

// varied writes a value that goes from low to high along the line.
func varied(format string, low, high float64) func(int) string {
	return func(i int) string { return fmt.Sprintf(format, low+(high-low)*float64(i)/(kindCells-1)) }
}

// layout is the line as a layout.
func (k kind) layout() string {
	var t strings.Builder
	t.WriteString("title = \"cells\"\n[site]\nsoil = \"loam\"\nsoil_moisture = \"20 %\"\nground_mean = \"6 degC\"\nground_swing = \"14 K\"\nsurface = \"bare\"\nwind_exposure = 0.4\nroom_temperature = \"15 degC\"\n")
	for i := range k.pieces {
		fmt.Fprintf(&t, "[[segment]]\nname = \"part %d\"\npipe = \"2 in sch 40 PVC\"\nlength = \"%g m\"\ndrop = \"0 m\"\nsetting = %q\n", i, k.length/float64(k.pieces), k.setting)
		if k.setting != "indoor" {
			t.WriteString("start_temperature = \"4 degC\"\n")
		}
		t.WriteString(k.segment(i) + "\n")
	}
	t.WriteString("[outlet]\nkind = \"open\"\n")
	return t.String()
}

// frostMonth is an hourly record of a month: −7 °C with a daily wave and one of five days, wind.
func frostMonth(hours int) *weather.Series {
	s := &weather.Series{Source: "a month of frost", Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	for h := range hours + 1 {
		at := 2 * math.Pi * float64(h)
		s.Time = append(s.Time, 3600*float64(h))
		s.Air = append(s.Air, -7-5*math.Cos(at/24)+6*math.Sin(at/120))
		s.Wind = append(s.Wind, 3+2*math.Sin(at/31))
	}
	return s
}

// noCycles is a pump that never runs.
var noCycles = sim.Supply{Given: true, Cycles: []pipe.Cycle{}}

// prepare makes the case and its ground, and checks that it is forty cells of that kind.
func (k kind) prepare(t testing.TB, hours int) *sim.Prepared {
	t.Helper()
	p, err := sim.Prepare(caseOf(t, k.layout(), frostMonth(hours), noCycles), sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// run takes the line through the record and says whether it was what its name says.
func (k kind) run(t testing.TB, p *sim.Prepared) *sim.Result {
	r, err := p.Run()
	if err != nil {
		t.Fatal(err)
	}
	if r.Stats.Cells != kindCells {
		t.Fatalf("%s: %d cells; want %d", k.name, r.Stats.Cells, kindCells)
	}
	for _, s := range r.Segments {
		if !k.iced(s.LargestIce) {
			t.Fatalf("%s: largest ice share %g in %s", k.name, s.LargestIce, s.Name)
		}
	}
	return r
}

// BenchmarkCellKinds times forty cells of each kind through a month, the undisturbed ground left
// out.
func BenchmarkCellKinds(b *testing.B) {
	for _, k := range kinds {
		b.Run(k.name, func(b *testing.B) {
			p := k.prepare(b, kindHours)
			b.ReportAllocs()
			var r *sim.Result
			for b.Loop() {
				r = k.run(b, p)
			}
			cellHours := float64(kindCells * kindHours)
			b.ReportMetric(cellHours*float64(b.N)/b.Elapsed().Seconds(), "cell-h/s")
			b.ReportMetric(float64(r.Stats.Steps)/cellHours, "steps/cell-h")
			b.ReportMetric(float64(r.Stats.Newton)/cellHours, "newton/cell-h")
		})
	}
}

// BenchmarkRowAllocations reports what a thousand further rows of a record allocate once a run is
// warm: what 3,000 rows take beyond 2,000. The result's own rows, which grow, are part of it.
func BenchmarkRowAllocations(b *testing.B) {
	for _, k := range kinds {
		b.Run(k.name, func(b *testing.B) {
			short, long := k.prepare(b, 2000), k.prepare(b, 3000)
			var count, bytes float64
			for b.Loop() {
				n, size := allocated(func() { k.run(b, long) })
				m, less := allocated(func() { k.run(b, short) })
				count, bytes = count+n-m, bytes+size-less
			}
			b.ReportMetric(count/float64(b.N), "allocs/1000rows")
			b.ReportMetric(bytes/float64(b.N), "B/1000rows")
		})
	}
}

// allocated counts what a function allocates, and its bytes.
func allocated(f func()) (count, bytes float64) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f()
	runtime.ReadMemStats(&after)
	return float64(after.Mallocs - before.Mallocs), float64(after.TotalAlloc - before.TotalAlloc)
}

// Every kind is what it is called.
func TestCellKinds(t *testing.T) {
	for _, k := range kinds {
		k.run(t, k.prepare(t, kindHours))
	}
}
