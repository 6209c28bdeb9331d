package verify

import (
	"context"
	"fmt"
	"math"

	"winterline/pipe"
)

var pipeChecks = map[string]evaluator{
	"outside-diameter": ofSize(func(s pipe.Size) float64 { return s.OutsideDiameter / inch }),
	"wall":             ofSize(func(s pipe.Size) float64 { return s.Wall / inch }),
	"wall-mm":          ofSize(func(s pipe.Size) float64 { return s.Wall * 1000 }),
	"bore":             ofSize(func(s pipe.Size) float64 { return s.Bore() / inch }),
	"bore-mm":          ofSize(func(s pipe.Size) float64 { return s.Bore() * 1000 }),
	"manning":          ofSize(func(s pipe.Size) float64 { return s.Manning }),
	"bore-volume": ofSize(func(s pipe.Size) float64 { // [L/m]
		return 1000 * math.Pi / 4 * s.Bore() * s.Bore()
	}),
	"material-conductivity":  ofMaterial(func(m pipe.Material) float64 { return m.Conductivity }),
	"material-density":       ofMaterial(func(m pipe.Material) float64 { return m.Density }),
	"material-heat-capacity": ofMaterial(func(m pipe.Material) float64 { return m.HeatCapacity }),
}

// ofSize makes an evaluator of a figure of the pipe that the row names.
func ofSize(f func(pipe.Size) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) {
		size, ok := pipe.FindSize(r.text("pipe"))
		if !ok {
			return 0, fmt.Errorf("no pipe %q", r.text("pipe"))
		}
		return f(size), nil
	}
}

// ofMaterial makes an evaluator of a figure of the material that the row names.
func ofMaterial(f func(pipe.Material) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) {
		material, ok := pipe.FindMaterial(r.text("material"))
		if !ok {
			return 0, fmt.Errorf("no material %q", r.text("material"))
		}
		return f(material), nil
	}
}

var sectionChecks = map[string]evaluator{
	"segment-area":     ofFill(pipe.SegmentArea),
	"wetted-perimeter": ofFill(pipe.WettedPerimeter),
	"hydraulic-radius": ofFill(pipe.HydraulicRadius),
	"top-width":        ofFill(pipe.TopWidth),
}

// ofFill makes an evaluator of a bore of diameter 1 filled to the row's share of it.
func ofFill(f func(d, depth float64) float64) evaluator {
	return closed(func(r *record) float64 { return f(1, r.number("fill")) })
}

var soilChecks = map[string]evaluator{
	"johansen": closed(func(r *record) float64 {
		return pipe.SoilConductivity(r.text("kind") == "coarse", r.number("porosity"), r.number("quartz"),
			r.number("saturation"), r.text("state") == "frozen")
	}),
	"soil-porosity": ofSoil(func(s pipe.Soil) float64 { return s.Porosity }),
	"soil-saturated-conductivity": ofSoil(func(s pipe.Soil) float64 { // [mm/h]
		return s.SaturatedConductivity * 1000 / perHour
	}),
	"soil-latent-heat":    func(_ context.Context, r *record) (float64, error) { return latentHeat(r) },
	"soil-field-capacity": ofMoisture(func(field, _ float64) float64 { return field }),
	"soil-wilting-point":  ofMoisture(func(_, wilting float64) float64 { return wilting }),
}

// ofSoil makes an evaluator of a figure of the texture that the row names, at its
// default moisture.
func ofSoil(f func(pipe.Soil) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) {
		moisture, _, _, ok := pipe.DefaultMoisture(r.text("texture"))
		if !ok {
			return 0, fmt.Errorf("no texture %q", r.text("texture"))
		}
		soil, err := pipe.MakeSoil(r.text("texture"), moisture)
		return f(soil), err
	}
}

// ofMoisture makes an evaluator of the water that the texture of the row holds at field capacity
// and at the wilting point, by volume [-].
func ofMoisture(f func(field, wilting float64) float64) evaluator {
	return func(_ context.Context, r *record) (float64, error) {
		field, wilting, ok := pipe.Retention(r.text("texture"))
		if !ok {
			return 0, fmt.Errorf("no texture %q", r.text("texture"))
		}
		return f(field, wilting), nil
	}
}

// latentHeat returns the latent heat [J/m³] of a soil of the row's dry density and moisture by weight, as a
// layout has them.
func latentHeat(r *record) (float64, error) {
	l, err := readLayout(fmt.Sprintf(soilText, 100*r.number("moisture"), r.number("dry_density_kg_m3")))
	if err != nil {
		return 0, err
	}
	return l.Site.Soil.Latent, nil
}
