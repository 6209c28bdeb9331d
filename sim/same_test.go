package sim_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"sync"
	"testing"
	"time"

	"winterline/sim"
)

// A case is read only and a run keeps nothing behind: the same case gives the same result, bit by
// bit, after another run and beside three others.
func TestSameCaseSameResult(t *testing.T) {
	want := 1
	if long() {
		want = 10
	}
	icy := 0
	for seed := uint64(1); icy < want; seed++ {
		if seed > 100 {
			t.Fatalf("%d of 100 draws made ice; want %d", icy, want)
		}
		k := drawCase(t, seed)
		if k == nil {
			continue
		}
		first := mustRun(t, k)
		if first.Verdict.FirstIce == nil {
			continue
		}
		icy++
		results := []*sim.Result{mustRun(t, k), nil, nil, nil, nil}
		errs := make([]error, len(results))
		var wait sync.WaitGroup
		for i := 1; i < len(results); i++ {
			wait.Go(func() { results[i], errs[i] = sim.Run(context.Background(), k, sim.Settings{}) })
		}
		wait.Wait()
		for i, r := range results {
			if errs[i] != nil {
				t.Fatal(errs[i])
			}
			if where := difference(reflect.ValueOf(*first), reflect.ValueOf(*r), "Result"); where != "" {
				t.Errorf("seed %d, run %d: %s", seed, i, where)
			}
		}
	}
}

func mustRun(t *testing.T, k *sim.Case) *sim.Result {
	t.Helper()
	r, err := sim.Run(context.Background(), k, sim.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// difference names the first place where two values of one type differ; "" for none. NaN is
// equal to NaN, which reflect.DeepEqual would not have.
func difference(a, b reflect.Value, path string) string {
	if a.Type() == reflect.TypeFor[time.Time]() && a.CanInterface() {
		if !a.Interface().(time.Time).Equal(b.Interface().(time.Time)) {
			return path
		}
		return ""
	}
	switch a.Kind() {
	case reflect.Float64:
		if math.Float64bits(a.Float()) != math.Float64bits(b.Float()) && !(math.IsNaN(a.Float()) && math.IsNaN(b.Float())) {
			return fmt.Sprintf("%s: %v and %v", path, a.Float(), b.Float())
		}
	case reflect.Pointer:
		switch {
		case a.IsNil() || b.IsNil():
			if a.IsNil() != b.IsNil() {
				return path + ": one is nil"
			}
		case a.Pointer() != b.Pointer():
			return difference(a.Elem(), b.Elem(), path)
		}
	case reflect.Slice, reflect.Array:
		if a.Len() != b.Len() {
			return fmt.Sprintf("%s: %d and %d long", path, a.Len(), b.Len())
		}
		for i := range a.Len() {
			if where := difference(a.Index(i), b.Index(i), fmt.Sprintf("%s[%d]", path, i)); where != "" {
				return where
			}
		}
	case reflect.Struct:
		for i := range a.NumField() {
			if where := difference(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name); where != "" {
				return where
			}
		}
	case reflect.Map, reflect.Interface, reflect.Func, reflect.Chan:
		return path + ": a kind that cannot be compared"
	default:
		if !a.Equal(b) {
			return path
		}
	}
	return ""
}

// The comparison sees what it should.
func TestDifference(t *testing.T) {
	x, y := 1.0, 1.0
	a := sim.Verdict{FirstIce: &x, ShutFor: math.NaN()}
	b := sim.Verdict{FirstIce: &y, ShutFor: math.NaN()}
	at := func() string { return difference(reflect.ValueOf(a), reflect.ValueOf(b), "v") }
	if where := at(); where != "" {
		t.Errorf("equal values differ at %s", where)
	}
	y = math.Nextafter(1, 2)
	if at() == "" {
		t.Error("the last bit behind a pointer is not seen")
	}
	y, b.ReliefRuns = 1, 1
	if at() == "" {
		t.Error("an integer is not seen")
	}
}
