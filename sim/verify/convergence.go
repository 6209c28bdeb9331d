package verify

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"winterline/sim"
)

// The convergence study: how far figures that people read move when nodes and steps are refined.

// Fineness is how finely a case is computed: nodes are a multiple of the default ones; tolerance,
// longest and first step, and steps while water runs, are a multiple of theirs.
type Fineness struct{ Nodes, Steps float64 }

// DefaultFineness is that of every run.
var DefaultFineness = Fineness{1, 1}

// finenesses are those that the default is set beside; the last is the finest.
var finenesses = [...]struct {
	name string
	Fineness
}{
	{"nodes ×2", Fineness{2, 1}},
	{"tolerance ÷2", Fineness{1, 1. / 2}},
	{"tolerance ÷4", Fineness{1, 1. / 4}},
	{"both", Fineness{2, 1. / 4}},
}

// FinenessNames name what the default is set beside, in the order of ConvergenceRow.Finer.
func FinenessNames() (names []string) {
	for _, f := range finenesses {
		names = append(names, f.name)
	}
	return names
}

// settings are those of a run.
func (f Fineness) settings() sim.Settings {
	return sim.Settings{Shells: sim.Shells{}.Times(f.Nodes), Stepping: sim.Stepping{}.Times(f.Steps)}
}

// A need is how well people need to know a quantity: the wider of two tolerances. It is a choice of
// ours, from what is decided by it, and no measure of what the solver can do.
type need struct {
	unit               string
	scale              float64 // SI units in one of unit
	absolute, relative float64 // [unit], [-]
	digits             int     // after the point, in print
}

// What people need to know: when a line freezes, opens and shuts, to half an hour or 1 %; ice to 1 %
// of the water; frost to a centimetre or 2 %; the ground to a tenth of a kelvin; water let go to 2 %, or
// 5 L. Nobody acts upon the time with ice, told to 2 % or half an hour, the heat lost, told to 3 % or
// 10 Wh, or upon the coldest ice, told to half a kelvin.
var (
	needInstant = need{"h", 3600, 0.5, 0.01, 2}
	needLength  = need{"h", 3600, 0.5, 0.02, 2}
	needHeat    = need{"kWh", 3.6e6, 0.01, 0.03, 3}
	needIce     = need{"%", 0.01, 1, 0, 2}
	needFrost   = need{"cm", 0.01, 1, 0.02, 2}
	needGround  = need{"°C", 1, 0.1, 0, 3}
	needColdest = need{"°C", 1, 0.5, 0, 3}
	needWater   = need{"L", 0.001, 5, 0.02, 1}
)

// measure is one figure of a case, in SI; NaN where it never came to it.
type measure struct {
	quantity, part string // part: of several alike, which one
	value          float64
	need
}

// convergenceCase is a case that can be computed as finely as wanted. It gives the same measures in
// the same order whatever the fineness.
type convergenceCase struct {
	name    string
	compute func(ctx context.Context, f Fineness) ([]measure, error)
}

// convergenceCases are those of the study, in the order told.
var convergenceCases = []convergenceCase{
	{"reference line", lineMeasures},
	{"buried cell", buriedMeasures},
	{"ground columns", groundMeasures},
	{"house", houseMeasures},
}

// ConvergenceCases name the cases of the study, in the order told.
func ConvergenceCases() (names []string) {
	for _, c := range convergenceCases {
		names = append(names, c.name)
	}
	return names
}

// ConvergenceRow is one quantity at every fineness, in its unit. NaN: it never came to it.
type ConvergenceRow struct {
	Case, Quantity, Part, Unit string
	Default                    float64
	Finer                      [len(finenesses)]float64
	Limit                      float64 // of the default's difference from the finest
	Pass                       bool
	Err                        error
	digits                     int
}

// Finest is the value with all refinements.
func (r ConvergenceRow) Finest() float64 { return r.Finer[len(r.Finer)-1] }

// Off is how far a value lies from the finest; +Inf where only one of the two came to it.
func (r ConvergenceRow) Off(v float64) float64 {
	switch finest := r.Finest(); {
	case math.IsNaN(v) && math.IsNaN(finest):
		return 0
	case math.IsNaN(v) || math.IsNaN(finest):
		return math.Inf(1)
	default:
		return v - finest
	}
}

// Ratio is how much of its limit the default's difference uses up [-].
func (r ConvergenceRow) Ratio() float64 {
	if r.Err != nil {
		return math.Inf(1)
	}
	return math.Abs(r.Off(r.Default)) / r.Limit
}

// Converge computes the cases of the study, or those named, at a fineness that is to be judged, and
// finer. The cases go side by side and come in their order.
func Converge(ctx context.Context, judged Fineness, tell func(done, of int), only ...string) []ConvergenceRow {
	rows := make([][]ConvergenceRow, len(convergenceCases))
	var wait sync.WaitGroup
	var done atomic.Int64
	for i, c := range convergenceCases {
		if len(only) == 0 || slices.Contains(only, c.name) {
			wait.Go(func() {
				rows[i] = c.rows(ctx, judged)
				if tell != nil {
					tell(int(done.Add(1)), len(convergenceCases))
				}
			})
		}
	}
	wait.Wait()
	return slices.Concat(rows...)
}

// Converged reports whether every row passed.
func Converged(rows []ConvergenceRow) bool {
	for _, r := range rows {
		if !r.Pass {
			return false
		}
	}
	return len(rows) > 0
}

// rows computes a case at every fineness; an error makes a single row, which does not pass.
func (c convergenceCase) rows(ctx context.Context, judged Fineness) []ConvergenceRow {
	first, err := c.compute(ctx, judged)
	if err != nil {
		return []ConvergenceRow{{Case: c.name, Err: err}}
	}
	rows := make([]ConvergenceRow, len(first))
	for i, m := range first {
		rows[i] = ConvergenceRow{Case: c.name, Quantity: m.quantity, Part: m.part, Unit: m.unit, Default: m.value / m.scale, digits: m.digits}
	}
	for k, f := range finenesses {
		finer, err := c.compute(ctx, f.Fineness)
		if err == nil && !slices.EqualFunc(first, finer, sameFigure) {
			err = errors.New("not the same figures at every fineness")
		}
		if err != nil {
			return []ConvergenceRow{{Case: c.name, Err: fmt.Errorf("%s: %w", f.name, err)}}
		}
		for i, m := range finer {
			rows[i].Finer[k] = m.value / m.scale
		}
	}
	for i, m := range first {
		rows[i].judge(m.need)
	}
	return rows
}

// sameFigure says whether two measures are of the same thing.
func sameFigure(a, b measure) bool { return a.quantity == b.quantity && a.part == b.part }

// judge sets the limit and whether it is kept.
func (r *ConvergenceRow) judge(n need) {
	r.Limit = n.absolute
	if finest := r.Finest(); !math.IsNaN(finest) {
		r.Limit = max(r.Limit, n.relative*math.Abs(finest))
	}
	r.Pass = math.Abs(r.Off(r.Default)) <= r.Limit
}
