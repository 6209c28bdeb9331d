package report

import (
	"cmp"
	"math"
	"slices"

	"winterline/sim"
)

// misfitRow is one line of the comparison with thermometers.
type misfitRow struct {
	depth float64
	when  string
	sim.Misfit
}

// measuredTable compares with thermometers by depth and winter, then over whole records,
// the poorest first.
func measuredTable(r *sim.GroundResult, s System) []string {
	const most = 12 // rows of winters
	all := comparisons(r)
	if len(all) == 0 {
		return nil
	}
	var winters, whole []misfitRow
	for _, m := range all {
		for _, w := range m.Winters {
			winters = append(winters, misfitRow{m.Depth, winterName(w.Winter), w.Misfit})
		}
		whole = append(whole, misfitRow{m.Depth, "all rows", m.All})
	}
	poorestFirst(winters)
	poorestFirst(whole)
	left := max(0, len(winters)-most)
	table := [][]string{{"depth", "Nov to Mar", padLeft("rows", 7), padLeft("off", 7), padLeft("error", 7)}}
	for _, row := range append(winters[:len(winters)-left], whole...) {
		table = append(table, []string{s.bothDepths(row.depth), row.when, padLeft(number(float64(row.N), 0), 7),
			padLeft(signed(s.degrees(row.Bias), 1), 7), padLeft(number(s.degrees(row.RMSE), 1), 7)})
	}
	lines := append(rowsOf(table), "off: computed less measured, on average; error: root of the mean square; both in "+s.degreeName()+", the poorest first")
	if left > 0 {
		lines = append(lines, plural(float64(left), "better row")+" of winters in summary.json")
	}
	return lines
}

func poorestFirst(rows []misfitRow) {
	slices.SortStableFunc(rows, func(a, b misfitRow) int { return cmp.Compare(b.RMSE, a.RMSE) })
}

// pooled joins the misfits of several winters into one.
func pooled(winters []sim.WinterMisfit) sim.Misfit {
	var sum, squares float64
	var all sim.Misfit
	for _, w := range winters {
		n := float64(w.N)
		all.N += w.N
		sum += n * w.Bias
		squares += n * w.RMSE * w.RMSE
	}
	if all.N > 0 {
		all.Bias, all.RMSE = sum/float64(all.N), math.Sqrt(squares/float64(all.N))
	}
	return all
}

// comparisons are the measured depths that say something: not that of a thermometer which
// drove the ground, nor a column without a value.
func comparisons(r *sim.GroundResult) []sim.MeasuredDepth {
	var out []sim.MeasuredDepth
	for _, m := range r.Measured {
		if r.Surface.Drive == sim.ThermometerDrive && m.Depth <= r.Surface.Depth || m.All.N == 0 {
			continue
		}
		out = append(out, m)
	}
	return out
}
