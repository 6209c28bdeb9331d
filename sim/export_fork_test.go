package sim

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"winterline/pipe"
)

// WinterType is that of a winter, with all that it holds.
var WinterType = reflect.TypeFor[winter]()

// winterOf is a winter brought to the first weather row.
func winterOf(k *Case, s Settings) (*winter, error) {
	return ready(context.Background(), k, s)
}

// Unforked runs a winter alone, without the one whose water supercools.
func Unforked(k *Case, s Settings) (*Result, error) {
	w, err := winterOf(k, s)
	if err != nil {
		return nil, err
	}
	return w.simulate(context.Background(), nil)
}

// Forked runs a winter and takes a fork at each of some rows, which runs to the end at once. Last comes that of a
// fork whose memory was taken at all of these rows, and which runs when the winter has ended.
func Forked(k *Case, s Settings, rows ...int) (parent *Result, forks []*Result, err error) {
	w, err := winterOf(k, s)
	if err != nil {
		return nil, nil, err
	}
	run := func(f *fork) error {
		r, err := f.w.simulateFrom(context.Background(), f.row, f.t, nil)
		forks = append(forks, r)
		return err
	}
	var rolling fork
	w.record.row(0)
	t := 0.0
	for i := range len(w.sky.time) - 1 {
		if slices.Contains(rows, i) {
			rolling.take(w, i, t)
			var once fork
			once.take(w, i, t)
			if err := run(&once); err != nil {
				return nil, nil, err
			}
		}
		if t, err = w.advance(i, t); err != nil {
			return nil, nil, err
		}
		w.record.row(i + 1)
	}
	if parent, err = w.finish(); err != nil {
		return nil, nil, err
	}
	return parent, forks, run(&rolling)
}

// ForkOf runs a winter to each of some rows and shows it there beside a fork of it.
func ForkOf(k *Case, show func(row int, winter, fork reflect.Value), rows ...int) error {
	w, err := winterOf(k, Settings{})
	if err != nil {
		return err
	}
	var f fork
	w.record.row(0)
	t := 0.0
	for i := range len(w.sky.time) - 1 {
		if slices.Contains(rows, i) {
			f.take(w, i, t)
			show(i, reflect.ValueOf(w), reflect.ValueOf(f.w))
		}
		if t, err = w.advance(i, t); err != nil {
			return err
		}
		w.record.row(i + 1)
	}
	return nil
}

// ForkAllocations is how often a fork allocates that is taken anew of a winter at a row.
func ForkAllocations(k *Case, row int) (n float64, err error) {
	w, err := winterOf(k, Settings{})
	if err != nil {
		return 0, err
	}
	w.record.row(0)
	t := 0.0
	for i := range row {
		if t, err = w.advance(i, t); err != nil {
			return 0, err
		}
		w.record.row(i + 1)
	}
	var f fork
	f.take(w, row, t)
	return testing.AllocsPerRun(5, func() { f.take(w, row, t) }), nil
}

// Supercooled runs a case to its end with water that supercools, from the last row at which a fork may be taken, and
// says which that is.
func Supercooled(k *Case, to float64) (r *Result, row int, err error) {
	w, err := winterOf(k, Settings{})
	if err != nil {
		return nil, 0, err
	}
	var f fork
	w.record.row(0)
	t := 0.0
	for i := 0; i+1 < len(w.sky.time) && !w.chilled(); i++ {
		f.take(w, i, t)
		if t, err = w.advance(i, t); err != nil {
			return nil, 0, err
		}
		w.record.row(i + 1)
	}
	f.w.supercool(to)
	r, err = f.w.simulateFrom(context.Background(), f.row, f.t, nil)
	return r, f.row, err
}

// NoticesIce tells of each place that notices water near its first ice, in still water of 0.3 °C against air of
// −20 °C, whether it did: a step that is tried, the search for the first ice, and ice that running water left.
func NoticesIce(a *OpenAir, s pipe.Segment) map[string]bool {
	out := map[string]bool{}
	fresh := func() *OpenCell { return a.Pipe(s, 0.3, Shells{}) }
	c := fresh()
	d := c.drive(a.sky, 0, 3600, atStages)
	a.step.attempt(c.mesh, &d, c.u, 3600)
	out["a step that was tried"] = c.mesh.chilled && slices.Min(c.u[:c.mesh.water]) > 0
	c = fresh()
	copy(a.step.next, c.u)
	c.landing(a.step, a.sky, 0, 1)
	out["the search"] = c.mesh.chilled
	c = fresh()
	out["no ice"] = !c.mesh.chilled
	c.noteIce(0)
	out["ice that was left"] = c.mesh.chilled
	return out
}
