package sim_test

import (
	"context"
	"crypto/sha256"
	"encoding/gob"
	"fmt"
	"runtime"
	"runtime/metrics"
	"slices"
	"testing"
	"time"

	"golang.org/x/sync/errgroup"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// winterRuns is one invented winter of some lines, which share its weather and its ground.
type winterRuns struct {
	winter   uint64
	layouts  []string
	settings sim.Settings
	hours    int  // of the winter
	margins  bool // how close each was, too
}

// winterFigures are what is kept of a run; results themselves would not fit in memory.
type winterFigures struct {
	state          sim.State
	cells, cycles  int
	frost, iceTime float64 // deepest frost [m], longest time with ice of a segment [h]
	sum            [sha256.Size]byte
	margin         answers.Margin
}

// run simulates the winter for one line after the other. What they share is gone with them.
func (j winterRuns) run(ctx context.Context) ([]winterFigures, error) {
	weather := first(inventedWinter(j.winter), j.hours)
	settings := j.settings
	settings.Ground = sim.NewGroundStore()
	var all []winterFigures
	for _, text := range j.layouts {
		l, problems := pipe.ReadLayout("layout.toml", []byte(text))
		if len(problems) > 0 {
			return nil, problems
		}
		p, problems := l.MakeProfile("layout.toml")
		if len(problems) > 0 {
			return nil, problems
		}
		k, err := sim.NewCase(fmt.Sprintf("winter %d", j.winter), l, p, weather, sim.Supply{})
		if err != nil {
			return nil, err
		}
		r, err := sim.Run(ctx, k, settings)
		if err != nil {
			return nil, err
		}
		f, err := figuresOf(r)
		if err != nil {
			return nil, err
		}
		if j.margins {
			e := answers.Engine{Workers: 1, Settings: settings}
			if f.margin, err = e.Margin(ctx, k, sim.OutcomeOf(r)); err != nil {
				return nil, err
			}
		}
		all = append(all, f)
	}
	return all, nil
}

// figuresOf boils a result down.
func figuresOf(r *sim.Result) (winterFigures, error) {
	f := winterFigures{state: r.Verdict.State, cells: r.Stats.Cells, cycles: r.Stats.Cycles}
	for _, s := range r.Segments {
		f.iceTime = max(f.iceTime, s.HoursWithIce)
	}
	for _, z := range r.Hourly.Frost {
		f.frost = max(f.frost, z)
	}
	var err error
	f.sum, err = sumOf(r)
	return f, err
}

// sumOf is a check sum of all numbers of a result.
func sumOf(r *sim.Result) (sum [sha256.Size]byte, err error) {
	digest := sha256.New()
	text := gob.NewEncoder(digest)
	for _, part := range []any{r.Verdict, r.Segments, r.Events, r.Hourly, r.Ledger, r.Balance, r.Stats, r.Worst, r.Cycles} {
		if err := text.Encode(part); err != nil {
			return sum, err
		}
	}
	return [sha256.Size]byte(digest.Sum(nil)), nil
}

// runWinters takes winters by a number of workers; figures come in the order of the winters and their lines.
func runWinters(ctx context.Context, runs []winterRuns, workers int) ([]winterFigures, error) {
	each := make([][]winterFigures, len(runs))
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(workers)
	for i, j := range runs {
		group.Go(func() (err error) {
			each[i], err = j.run(ctx)
			return err
		})
	}
	err := group.Wait()
	return slices.Concat(each...), err
}

// winterVariant is how the winters are run.
type winterVariant struct {
	name, cycles string
	settings     sim.Settings
	margins      bool
}

// oneSimulation leaves out the winter that goes on beside a run for dendritic ice.
var oneSimulation = sim.Settings{WithoutDendritic: true}

// winterVariants: as a user's run does it; without the second simulation; with a pump that runs
// sixty times a day; and with margins.
var winterVariants = []winterVariant{
	{"6h", "every 6 h for 45 s", sim.Settings{}, false},
	{"6h-single", "every 6 h for 45 s", oneSimulation, false},
	{"24min-single", "every 24 min for 45 s", oneSimulation, false},
	{"6h-margins", "every 6 h for 45 s", oneSimulation, true},
}

// runs are so many winters of the first lines.
func (v winterVariant) runs(winters, lines, hours int) []winterRuns {
	var layouts []string
	for _, l := range winterLines[:lines] {
		layouts = append(layouts, l.text(v.cycles))
	}
	var all []winterRuns
	for w := range winters {
		all = append(all, winterRuns{uint64(w), layouts, v.settings, hours, v.margins})
	}
	return all
}

// heapLimit is what the winters may keep on the heap at any time [bytes].
const heapLimit = 300e6

// BenchmarkThirtyWinters times thirty invented winters of four lines, with one worker and with two:
// 4,344 h each, ground included, which the lines of a winter share. Without WINTERLINE_LONG it takes two winters. It fails where the heap
// grows beyond 300 MB or two workers find other results than one.
func BenchmarkThirtyWinters(b *testing.B) {
	winters := 2
	if long() {
		winters = 30
	}
	for _, v := range winterVariants {
		var before []winterFigures
		alone := 0.0
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("%s/workers=%d", v.name, workers), func(b *testing.B) {
				runs := v.runs(winters, len(winterLines), winterHours)
				var all []winterFigures
				heap := watchHeap()
				for b.Loop() {
					var err error
					if all, err = runWinters(context.Background(), runs, workers); err != nil {
						b.Fatal(err)
					}
				}
				took := b.Elapsed().Seconds() / float64(b.N)
				reportWinters(b, all, took, heap.stop())
				switch {
				case workers == 1:
					before, alone = all, took
				case before != nil:
					b.ReportMetric(alone/took, "speed-up")
					sameWinters(b, before, all)
				}
			})
		}
	}
}

// reportWinters reports speed, memory and what became of the lines.
func reportWinters(b *testing.B, all []winterFigures, took, heap float64) {
	cells, iced, shut := 0, 0, 0
	for _, f := range all {
		cells += f.cells
		if f.state >= sim.Iced {
			iced++
		}
		if f.state >= sim.ShutRelieved {
			shut++
		}
	}
	b.ReportMetric(float64(cells*winterHours)/took, "cell-h/s")
	b.ReportMetric(heap/1e6, "MB-heap")
	b.ReportMetric(float64(len(all)), "runs")
	b.ReportMetric(float64(iced), "iced")
	b.ReportMetric(float64(shut), "shut")
	if heap > heapLimit {
		b.Errorf("%.0f MB on the heap, limit %.0f", heap/1e6, heapLimit/1e6)
	}
}

// sameWinters wants the same figures twice.
func sameWinters(t testing.TB, a, b []winterFigures) {
	t.Helper()
	for i := range a {
		if a[i] != b[i] {
			t.Errorf("run %d: %+v and %+v", i, a[i], b[i])
		}
	}
}

// heapWatch looks at the heap every so often.
type heapWatch struct {
	end  chan struct{}
	most chan float64
}

func watchHeap() heapWatch {
	runtime.GC()
	w := heapWatch{make(chan struct{}), make(chan float64)}
	go func() {
		const every = 20 * time.Millisecond
		// Unlike runtime.ReadMemStats this does not stop the workers.
		heap := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
		most := 0.0
		for {
			metrics.Read(heap)
			most = max(most, float64(heap[0].Value.Uint64()))
			select {
			case <-w.end:
				w.most <- most
				return
			case <-time.After(every):
			}
		}
	}()
	return w
}

// stop returns the most that was on the heap [bytes], garbage not yet collected included.
func (w heapWatch) stop() float64 {
	close(w.end)
	return <-w.most
}

// Two workers find what one finds, to the last bit, and winters and lines differ.
func TestWintersSameForWorkers(t *testing.T) {
	hours := 15 * 24
	if long() {
		hours = winterHours
	}
	runs := winterVariants[1].runs(2, 2, hours)
	one, err := runWinters(context.Background(), runs, 1)
	if err != nil {
		t.Fatal(err)
	}
	two, err := runWinters(context.Background(), runs, 2)
	if err != nil {
		t.Fatal(err)
	}
	sameWinters(t, one, two)
	for i, f := range one {
		for j, g := range one[:i] {
			if f.sum == g.sum {
				t.Errorf("runs %d and %d give one result", j, i)
			}
		}
	}
}

// Every line has twelve segments and forty cells.
func TestWinterLines(t *testing.T) {
	for _, l := range winterLines {
		k := caseOf(t, l.text("every 6 h for 45 s"), first(inventedWinter(0), 1), sim.Supply{})
		if n := len(k.Layout.Segments); n != 12 {
			t.Errorf("%s: %d segments", l.title, n)
		}
		if r := resultOf(t, k); r.Stats.Cells != 40 || r.Ground == nil {
			t.Errorf("%s: %d cells, ground %v", l.title, r.Stats.Cells, r.Ground != nil)
		}
	}
}
