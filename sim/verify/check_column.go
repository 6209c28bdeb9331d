package verify

import (
	"context"
	"fmt"
	"math"
	"strings"
)

// columnChecks put the transient column through the winters of the modified Berggren method.
var columnChecks = map[string]evaluator{
	"column-berggren": func(_ context.Context, r *record) (float64, error) {
		r.beside = fmt.Sprintf("Stefan %.3f ft; modified Berggren with the exact λ %.3f ft", siteStefan(r), siteLambda(r)*siteStefan(r))
		frost, err := berggrenSite(r).frostAfterSeason()
		return frost / foot, err
	},
	"column-stefan": func(_ context.Context, r *record) (float64, error) {
		r.beside = fmt.Sprintf("modified Berggren with the exact λ %.3f ft", siteLambda(r)*siteStefan(r))
		frost, err := berggrenSite(r).withoutSensibleHeat().frostAfterSeason()
		return frost / foot, err
	},
	"column-frost-depth": func(_ context.Context, r *record) (float64, error) {
		return stefanSite(r).withoutSensibleHeat().frostAfterSeason()
	},
}

// inTurn evaluates the rows of a table whose checks march one column after another: begin makes the
// column of a case at its first row, and every row takes it on to its own time.
func inTurn[T any](ctx context.Context, table string, begin func(r *record) (T, error), checks map[string]func(T, *record) (float64, error)) []Outcome {
	records, err := readTable(table)
	if err != nil {
		return []Outcome{{Check: table, Err: err}}
	}
	var all []Outcome
	var state T
	last := ""
	for _, r := range records {
		var compute evaluator
		if read := checks[r.text("check")]; read != nil {
			compute = func(_ context.Context, r *record) (float64, error) {
				if name := r.text("case"); name != last {
					made, err := begin(r)
					if err != nil {
						return 0, err
					}
					state, last = made, name
				}
				return read(state, r)
			}
		}
		all = append(all, evaluate(ctx, r, compute))
	}
	return all
}

// stepOutcomes holds the column against ground whose surface is held at a temperature from
// the first moment on: Neumann's freezing and thawing, and freezing along a curve.
func stepOutcomes(ctx context.Context) []Outcome {
	frost, thaw, temperature, heat := (*stepRun).frost, (*stepRun).thaw, (*stepRun).temperature, (*stepRun).heat
	columns := inTurn(ctx, "column_step.csv", beginStep, map[string]func(*stepRun, *record) (float64, error){
		"column-neumann-front": frost, "column-neumann-temperature": temperature, "column-neumann-heat": heat,
		"column-thaw-front": thaw, "column-thaw-temperature": temperature, "column-thaw-heat": heat,
		"column-curve-front": frost, "column-curve-temperature": temperature, "column-curve-heat": heat,
	})
	exact := inTurn(ctx, "column_step.csv", beginExactStep, map[string]func(similarity, *record) (float64, error){
		"column-neumann-front": exactFront, "column-neumann-temperature": exactTemperature, "column-neumann-heat": exactHeat,
		"column-thaw-front": exactFront, "column-thaw-temperature": exactTemperature, "column-thaw-heat": exactHeat,
		"column-curve-front": exactFront, "column-curve-temperature": exactTemperature, "column-curve-heat": exactHeat,
	})
	return append(columns, asExact(exact)...)
}

// waveOutcomes holds the column against a yearly wave without phase change, in ground of one
// soil and of two.
func waveOutcomes(ctx context.Context) []Outcome {
	column := (*waveRun).temperature
	columns := inTurn(ctx, "column_wave.csv", beginWave, map[string]func(*waveRun, *record) (float64, error){
		"column-wave": column, "column-wave-bottom": column, "column-wave-layers": column,
	})
	exact := inTurn(ctx, "column_wave.csv", beginExactWave, map[string]func(LayeredWave, *record) (float64, error){
		"column-wave": exactWave, "column-wave-bottom": exactWave, "column-wave-layers": exactWave,
	})
	return append(columns, asExact(exact)...)
}

// asExact judges what the exact solutions of this package make of the figures that the columns
// are held against, which other code worked out. The solution of column-wave has the bottom at 10 m, its
// figures have none: so that it moves them by less than waveBottom is checked too.
func asExact(all []Outcome) []Outcome {
	const (
		relative   = 1e-6 // the tables have eight digits
		kelvin     = 1e-5
		waveBottom = 2e-3 // [K]
	)
	for i := range all {
		o := &all[i]
		absolute := 0.0
		switch {
		case o.Check == "column-wave":
			absolute = waveBottom
		case o.Unit == "°C":
			absolute = kelvin
		}
		o.judge(absolute, relative)
		o.ID, o.Check = o.ID+"/exact", strings.Replace(o.Check, "column", "exact", 1)
	}
	return all
}

// similarity is an exact solution in which everything goes with depth over the root of time.
type similarity interface {
	Front(t float64) float64          // [m]
	Flux(t float64) float64           // out of the surface [W/m²]
	Temperature(z, t float64) float64 // [°C]
}

// beginExactStep solves the case of a row of column_step.csv.
func beginExactStep(r *record) (similarity, error) {
	n := stepSpace(r)
	point := r.number("freezing_point_c")
	switch {
	case !math.IsNaN(point):
		return FreezingStep{
			Surface: n.Surface, Start: n.Start, Point: point, Frozen: n.Frozen, Unfrozen: n.Unfrozen,
			FrozenCap: n.FrozenCap, UnfrozenCap: n.UnfrozenCap, Latent: n.Latent,
			Liquid: PowerLiquid(point, r.number("freezing_exponent")),
		}.Solve(), nil
	case n.Surface > 0:
		return Thaw{n}.Solve(), nil
	}
	return n.Solve(), nil
}

func exactFront(s similarity, r *record) (float64, error) { return s.Front(r.number("day") * day), nil }

func exactTemperature(s similarity, r *record) (float64, error) {
	return s.Temperature(r.number("depth_m"), r.number("day")*day), nil
}

// exactHeat is what the ground has given up [MJ/m²]; the flux goes with 1/√time.
func exactHeat(s similarity, r *record) (float64, error) {
	t := r.number("day") * day
	return 2 * s.Flux(t) * t / 1e6, nil
}

// beginExactWave reads the case of a row of column_wave.csv.
func beginExactWave(r *record) (LayeredWave, error) {
	const bottom = 10.0 // of the column [m]
	w := waveDrive(r)
	lower := WaveLayer{bottom, r.number("conductivity_w_m_k"), r.number("capacity_j_m3_k")}
	if upper := r.number("upper_m"); !math.IsNaN(upper) {
		lower.Thickness -= upper
		w.Layers = append(w.Layers, WaveLayer{upper, r.number("upper_conductivity_w_m_k"), r.number("upper_capacity_j_m3_k")})
	}
	w.Layers = append(w.Layers, lower)
	return w, nil
}

func exactWave(w LayeredWave, r *record) (float64, error) {
	return w.Temperature(r.number("depth_m"), r.number("day")*day), nil
}

// stepSpace returns the row's half space as it would freeze sharply.
func stepSpace(r *record) Neumann {
	return Neumann{
		Surface: r.number("surface_c"), Start: r.number("start_c"),
		Frozen: r.number("conductivity_frozen_w_m_k"), Unfrozen: r.number("conductivity_unfrozen_w_m_k"),
		FrozenCap: r.number("capacity_frozen_j_m3_k"), UnfrozenCap: r.number("capacity_unfrozen_j_m3_k"),
		Latent: r.number("latent_j_m3"),
	}
}

// zoneChecks hold freezing in three zones against a published benchmark.
var zoneChecks = map[string]evaluator{
	"three-zones-psi":   closed(func(r *record) float64 { return threeZones(r).Solve().Psi() }),
	"three-zones-gamma": closed(func(r *record) float64 { return threeZones(r).Solve().Gamma() }),
}

func threeZones(r *record) ThreeZones {
	c := r.number("capacity_j_m3_k")
	return ThreeZones{
		Surface: r.number("surface_c"), Start: r.number("start_c"), Frozen: r.number("frozen_c"), Freezing: r.number("freezing_c"),
		Conductivity: [3]float64{r.number("conductivity_frozen_w_m_k"), r.number("conductivity_freezing_w_m_k"), r.number("conductivity_unfrozen_w_m_k")},
		Capacity:     [3]float64{c, c, c}, Latent: r.number("latent_j_m3"),
	}
}
