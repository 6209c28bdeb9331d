package sim_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"sync/atomic"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/verify"
	"winterline/weather"
)

// forkCases shows draws, more of them when long, and layouts of scenarios to a test, side by side.
func forkCases(t *testing.T, seeds []uint64, check func(t *testing.T, k *sim.Case)) {
	t.Helper()
	if long() {
		for seed := uint64(2000); seed < 2030; seed++ {
			seeds = append(seeds, seed)
		}
	}
	t.Run("each", func(t *testing.T) {
		for _, seed := range seeds {
			t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
				t.Parallel()
				if k := drawCase(t, seed); k != nil {
					check(t, k)
				}
			})
		}
		for _, name := range []string{"backup-same-line", "downspout-joins", "relief-water-mounds"} {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				check(t, scenarioCase(t, name))
			})
		}
	})
}

// scenarioCase is the layout of a scenario under a day of rain and a week of frost.
func scenarioCase(t *testing.T, name string) *sim.Case {
	t.Helper()
	return scenarioUnder(t, name, "rain-then-hard-week.csv")
}

// scenarioUnder is the layout of a scenario under one of the shared weathers.
func scenarioUnder(t *testing.T, name, under string) *sim.Case {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "scenario", name, "layout.toml"))
	if err != nil {
		t.Fatal(err)
	}
	return caseOf(t, string(text), scenarioWeather(t, under), sim.Supply{})
}

// scenarioWeather is one of the shared weathers.
func scenarioWeather(t *testing.T, name string) *weather.Series {
	t.Helper()
	files, problems := weather.Files([]string{filepath.Join("..", "testdata", "scenario", "weather", name)})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s, problems := weather.ReadFiles(files, weather.Options{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return s
}

// A fork goes on to the very result of its winter, to the last bit, wherever it was taken; and a winter is none the
// worse for its forks.
func TestForkRunsAsItsWinter(t *testing.T) {
	forkCases(t, []uint64{17, 52, 75, 114, 482}, func(t *testing.T, k *sim.Case) {
		want, err := sim.Unforked(k, sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		n := len(k.Weather.Time)
		parent, forks, err := sim.Forked(k, sim.Settings{}, 0, n/7, n/3, n/2, n-2)
		if err != nil {
			t.Fatal(err)
		}
		if len(forks) != 6 {
			t.Fatalf("%d forks", len(forks))
		}
		for i, r := range append(forks, parent) {
			if where := difference(reflect.ValueOf(*want), reflect.ValueOf(*r), "Result"); where != "" {
				t.Errorf("fork %d: %s", i, where)
			}
		}
	})
}

// Up to the last row at which a fork may be taken, water that will supercool has done what any water does: from there
// the winter goes on as one whose water supercools from the start, and its line shuts when that one's does.
func TestForkSupercools(t *testing.T) {
	const to = -4
	var late, shut atomic.Int64
	forkCases(t, []uint64{4, 52, 54, 56, 57, 58, 108}, func(t *testing.T, k *sim.Case) {
		want, err := sim.Unforked(k, sim.Settings{Nucleation: to})
		if err != nil {
			t.Fatal(err)
		}
		r, row, err := sim.Supercooled(k, to)
		if err != nil {
			t.Fatal(err)
		}
		if where := difference(reflect.ValueOf(*want), reflect.ValueOf(*r), "Result"); where != "" {
			t.Errorf("from row %d: %s", row, where)
		}
		full := resultOf(t, k)
		closed := want.Verdict.Closed
		if full.Verdict.FirstIce == nil || want.Verdict.ClosedByMound {
			closed = nil
		}
		if got := full.Verdict.ClosedDendritic; (got == nil) != (closed == nil) || got != nil && *got != *closed {
			t.Errorf("shut by slush at %s; want %s", seconds(got), seconds(closed))
		}
		if closed != nil {
			shut.Add(1)
		}
		if row > 0 && full.Verdict.FirstIce != nil {
			late.Add(1)
		}
	})
	if late.Load() < 3 || shut.Load() < 3 {
		t.Errorf("slush shut %d of the lines, and %d froze after the first row: too few to prove anything", shut.Load(), late.Load())
	}
}

func seconds(t *float64) string {
	if t == nil {
		return "no time"
	}
	return fmt.Sprintf("%v s", *t)
}

// Whatever brings water near ice is noticed, before its law matters.
func TestForkNoticesIce(t *testing.T) {
	s := verify.ReferenceWeather()
	for i := range s.Air {
		s.Air[i] = -20
	}
	size, _ := pipe.FindSize("1-1/2 in sch 40 PVC")
	for what, ok := range sim.NoticesIce(sim.NewOpenAir(s), pipe.Segment{Size: size, Liquid: pipe.Still}) {
		if !ok {
			t.Errorf("%s: not so", what)
		}
	}
}

// What becomes of a field behind which memory lies.
const (
	copied    = iota // the fork has its own
	shared           // both hold the same, which nothing changes
	series           // both hold the same rows; what is added goes to memory of the fork's own
	stateless        // both hold the same; what it answers does not depend on what it has kept
	room             // the fork has its own, in which nothing lasts
)

// forkFields are all fields of a winter, and of what it holds, with memory behind them.
var forkFields = map[string]int{
	"winter.k": shared, "winter.sky": shared, "winter.ground": shared, "winter.supply": shared,
	"winter.step": copied, "winter.line": copied, "winter.joint": copied, "winter.lift": copied, "winter.basin": copied,
	"winter.back": copied, "winter.second": copied, "winter.roofs": copied, "winter.mounds": copied, "winter.pocket": copied,
	"winter.draught": copied, "winter.heat": copied, "winter.record": copied, "winter.shut": copied, "winter.tail": copied,
	"Settings.Progress": shared, "Settings.Ground": shared,

	"scratch.node": room, "scratch.base": room, "scratch.mid": room, "scratch.bent": room, "scratch.start": room, "scratch.next": room, "scratch.knot": copied,

	"bounds.floor": room, "bounds.ceiling": room, "levelRoom.level": room, "levelRoom.mass": room, "levelRoom.held": room,
	"levelRoom.open": room, "line.flume": room, "line.kept": room,
	"line.off": room, "trap.before": room, "trap.vents": room, "trap.lengths": room, "recorder.instants": room, "winter.behind": room, "winter.parted": room,
	"line.cells": copied, "line.slab": copied, "line.transit": copied,
	"cell.mesh": copied, "past.gain": copied, "factored.before": copied, "factored.own": copied, "factored.behind": copied, "cell.even": stateless, "cell.u": copied, "tally.track": copied, "tally.slush": shared,
	"outside.film": shared, "outside.ground": shared, "outside.shelter": shared,
	"mesh.edge": shared, "mesh.part": shared, "mesh.whole": shared, "mesh.widening": shared, "mesh.kLiquid": shared, "mesh.kFrozen": shared, "phase.curve": shared,
	"mesh.cap": copied, "mesh.phase": copied, "mesh.inLiquid": copied, "mesh.outLiquid": copied, "mesh.inFrozen": copied,
	"mesh.outFrozen": copied, "mesh.scale": copied, "mesh.conducts": copied, "mesh.perCap": copied, "mesh.thawed": copied, "mesh.frozen": copied, "mesh.trace": copied,
	"mesh.ground": copied, "mesh.gain": shared, "mesh.weight": shared,

	"joint.reliefs": copied, "lift.curve": shared, "returning.queue": copied, "roof.rain": shared, "roof.melt": shared,
	"mounds.lip": copied, "mounds.outlet": copied, "mounds.reliefs": copied, "mounds.skin": shared, "mounds.w": copied,
	"pocket.warmth": copied, "pocketHeat.ground": shared, "trap.closed": copied, "trap.all": copied, "Trapped.Until": shared,
	"draught.cells": copied, "draught.rough": shared, "airway.reaches": copied, "tail.curve": copied,

	"recorder.w": copied, "recorder.segments": copied, "recorder.events": copied, "recorder.cycles": copied,
	"recorder.closings": copied, "recorder.plugOf": copied, "Closure.Reopened": shared, "Closure.Layers": shared,
	"Closure.Relief": shared, "Closure.Pocket": shared,
	"recorder.flags": copied, "recorder.airGap": copied, "segmentTally.cells": copied, "segmentTally.levels": shared,
	"Event.Value": shared, "Snapshot.Cells": copied,
	"Verdict.FirstIce": shared, "Verdict.Closed": shared, "Verdict.ClosedDendritic": shared, "Verdict.Reopened": shared,
	"Verdict.Relief": shared, "Verdict.Spill": shared, "Verdict.Floor": shared, "Verdict.ReliefMargin": copied, "Verdict.HighestSnow": copied,
	"SegmentResult.FirstIce": shared, "SegmentResult.Ice10": shared, "SegmentResult.Ice50": shared, "SegmentResult.Ice90": shared,
	"SegmentResult.Closed": shared,
	"Hourly.Time":          series, "Hourly.Air": series, "Hourly.Wind": series, "Hourly.SnowDepth": series, "Hourly.Frost": series,
	"Hourly.Basin": series, "Hourly.Standpipe": series, "Hourly.Pocket": series, "Hourly.Draught": series, "Hourly.MoundOutlet": series,
	"Hourly.MoundRelief": series, "Hourly.Outlet": series, "Hourly.Relief": series, "Hourly.Rim": series, "Hourly.ToSoil": series,
	"Hourly.Floor": series, "Hourly.Segments": copied, "SegmentHourly.Water": series, "SegmentHourly.Ice": series, "SegmentHourly.Fill": series,
}

// A field with memory behind it that is new to a winter, or to anything in it, has to be thought of in fork.go, and
// then here.
func TestForkKnowsAllFields(t *testing.T) {
	met := map[string]bool{}
	seen := map[reflect.Type]bool{}
	var walk func(u reflect.Type)
	walk = func(u reflect.Type) {
		switch u.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
			walk(u.Elem())
			return
		}
		if u.Kind() != reflect.Struct || seen[u] {
			return
		}
		seen[u] = true
		for i := range u.NumField() {
			f := u.Field(i)
			name := u.Name() + "." + f.Name
			if hasMemory(f.Type) {
				met[name] = true
				what, known := forkFields[name]
				if !known {
					t.Errorf("%s, a %v: does a fork copy it, or may it share it?", name, f.Type)
				}
				if what != copied {
					continue
				}
			}
			walk(f.Type)
		}
	}
	walk(sim.WinterType)
	for name := range forkFields {
		if !met[name] {
			t.Errorf("%s is no field of a winter any more", name)
		}
	}
}

// hasMemory reports whether a value of a type has memory behind it that is not its own; of a struct its fields tell.
func hasMemory(u reflect.Type) bool {
	switch u.Kind() {
	case reflect.Array:
		return hasMemory(u.Elem())
	case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Func, reflect.Interface, reflect.Chan, reflect.UnsafePointer:
		return true
	}
	return false
}

// A fork is equal to its winter in every field, and shares with it nothing but what nothing changes.
func TestForkSharesNoState(t *testing.T) {
	reached := map[string]bool{}
	cases := []*sim.Case{scenarioCase(t, "downspout-joins"), scenarioCase(t, "backup-same-line")}
	for _, seed := range []uint64{17, 52, 75, 114, 482} {
		if k := drawCase(t, seed); k != nil {
			cases = append(cases, k)
		}
	}
	for _, k := range cases {
		var rows []int
		for i := 0; i < len(k.Weather.Time)-1; i += 3 {
			rows = append(rows, i)
		}
		err := sim.ForkOf(k, func(row int, winter, fork reflect.Value) {
			p := &pair{t: t, seen: map[seenKey]uintptr{}, reached: reached}
			p.walk(winter, fork, fmt.Sprintf("%s, row %d: winter", k.Name, row), copied)
		}, rows...)
		if err != nil {
			t.Fatal(err)
		}
	}
	if t.Failed() {
		return
	}
	for name, what := range forkFields {
		if what == copied && !reached[name] {
			t.Errorf("%s was empty in all of these winters", name)
		}
	}
}

// pair goes through a winter and its fork side by side.
type pair struct {
	t       *testing.T
	seen    map[seenKey]uintptr
	reached map[string]bool
}

type seenKey struct {
	at uintptr
	of reflect.Type
}

// walk compares two values of a field that becomes of a fork what is said.
func (p *pair) walk(a, b reflect.Value, path string, what int) {
	if p.t.Failed() {
		return
	}
	switch a.Kind() {
	case reflect.Struct:
		p.fields(a, b, path)
	case reflect.Array:
		for i := range a.Len() {
			p.walk(a.Index(i), b.Index(i), path, what)
		}
	case reflect.Pointer, reflect.Slice, reflect.Map, reflect.Func:
		p.memory(a, b, path, what)
	case reflect.Float64:
		if math.Float64bits(a.Float()) != math.Float64bits(b.Float()) {
			p.t.Errorf("%s: %v and %v", path, a.Float(), b.Float())
		}
	default:
		if !a.Equal(b) {
			p.t.Errorf("%s: %v and %v", path, a, b)
		}
	}
}

func (p *pair) fields(a, b reflect.Value, path string) {
	for i := range a.NumField() {
		name := a.Type().Field(i).Name
		key := a.Type().Name() + "." + name
		f := a.Field(i)
		if k := f.Kind(); k == reflect.Pointer && !f.IsNil() || (k == reflect.Slice || k == reflect.Map) && f.Len() > 0 {
			p.reached[key] = true
		}
		p.walk(f, b.Field(i), path+"."+name, forkFields[key])
	}
}

// memory compares two pointers, slices or maps.
func (p *pair) memory(a, b reflect.Value, path string, what int) {
	same := a.Pointer() == b.Pointer()
	empty := a.IsNil() || a.Kind() == reflect.Slice && a.Cap() == 0
	switch {
	case what == room:
		if same && !empty {
			p.t.Errorf("%s: one room for both", path)
		}
		return
	case a.IsNil() != b.IsNil():
		p.t.Errorf("%s: one is nil", path)
		return
	case empty && (a.IsNil() || b.Len() == 0):
		return
	case what == shared, what == stateless:
		if !same {
			p.t.Errorf("%s is not shared", path)
		}
		return
	case what == series:
		if !same || a.Len() != b.Len() || b.Cap() != b.Len() {
			p.t.Errorf("%s: not the same rows, or with room behind them", path)
		}
		return
	case same:
		p.t.Errorf("%s is shared", path)
		return
	}
	key := seenKey{a.Pointer(), a.Type()}
	if was, ok := p.seen[key]; ok && a.Kind() != reflect.Slice {
		if was != b.Pointer() {
			p.t.Errorf("%s: another copy than elsewhere", path)
		}
		return
	}
	p.seen[key] = b.Pointer()
	p.behind(a, b, path)
}

// behind compares what lies behind two pointers, slices or maps.
func (p *pair) behind(a, b reflect.Value, path string) {
	switch a.Kind() {
	case reflect.Pointer:
		p.walk(a.Elem(), b.Elem(), path, copied)
	case reflect.Slice:
		if a.Len() != b.Len() {
			p.t.Errorf("%s: %d and %d long", path, a.Len(), b.Len())
			return
		}
		for i := range a.Len() {
			p.walk(a.Index(i), b.Index(i), fmt.Sprintf("%s[%d]", path, i), copied)
		}
	case reflect.Map:
		if a.Len() != b.Len() {
			p.t.Errorf("%s: %d and %d long", path, a.Len(), b.Len())
		}
		for _, k := range a.MapKeys() {
			if v := b.MapIndex(k); !v.IsValid() || !a.MapIndex(k).Equal(v) {
				p.t.Errorf("%s[%v]: %v and %v", path, k, a.MapIndex(k), v)
			}
		}
	}
}

// A fork that is taken again allocates nothing: a winter that never freezes pays for its forks by copying alone.
func TestForkUsesItsMemoryAgain(t *testing.T) {
	n, err := sim.ForkAllocations(scenarioCase(t, "downspout-joins"), 30)
	if err != nil {
		t.Fatal(err)
	}
	if n != 0 {
		t.Errorf("%v allocations", n)
	}
}

// A fork that goes its own way marches by a sky of its own throughout: two that move one row would race.
func TestForkPartsFromTheSky(t *testing.T) {
	forkCases(t, []uint64{1, 2, 3, 4, 5, 6, 7, 8}, func(t *testing.T, k *sim.Case) {
		strays, err := sim.PartedStrays(k)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range strays {
			t.Error(s)
		}
	})
}
