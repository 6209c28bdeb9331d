package verify

import (
	"math"
	"strconv"
	"strings"

	"winterline/weather/chance"
)

var chanceChecks = map[string]evaluator{
	"lmoment-1": closed(func(r *record) float64 { return chance.SampleLMoments(chanceSample(r)).L1 }),
	"lmoment-2": closed(func(r *record) float64 { return chance.SampleLMoments(chanceSample(r)).L2 }),
	"lmoment-3": closed(func(r *record) float64 { return chance.SampleLMoments(chanceSample(r)).T3 }),
	"lmoment-4": closed(func(r *record) float64 { return chance.SampleLMoments(chanceSample(r)).T4 }),

	"fit-location": closed(func(r *record) float64 { return chance.Fit(chanceSample(r)).Location }),
	"fit-scale":    closed(func(r *record) float64 { return chance.Fit(chanceSample(r)).Scale }),
	"fit-shape":    closed(func(r *record) float64 { return chance.Fit(chanceSample(r)).Shape }),
	"fit-level":    closed(func(r *record) float64 { return chance.Fit(chanceSample(r)).Level(r.number("at")) }),
	"fit-exceed":   closed(func(r *record) float64 { return chance.Fit(chanceSample(r)).Exceed(r.number("at")) }),

	"moments-location": closed(func(r *record) float64 { return lawOfMoments(r).Location }),
	"moments-scale":    closed(func(r *record) float64 { return lawOfMoments(r).Scale }),
	"moments-shape":    closed(func(r *record) float64 { return lawOfMoments(r).Shape }),

	"law-cdf":      closed(func(r *record) float64 { return extremeLaw(r).CDF(r.number("at")) }),
	"law-exceed":   closed(func(r *record) float64 { return extremeLaw(r).Exceed(r.number("at")) }),
	"law-quantile": closed(func(r *record) float64 { return extremeLaw(r).Quantile(r.number("at")) }),

	"share-low":  closed(func(r *record) float64 { return countedShare(r).Low }),
	"share-high": closed(func(r *record) float64 { return countedShare(r).High }),

	"range-at": closed(func(r *record) float64 {
		of := chance.Range{Low: r.number("low"), Usual: r.number("usual"), High: r.number("high"), Log: r.text("spacing") == "log"}
		return of.At(r.number("at"))
	}),
}

// chanceSample returns the sample of the row's name, with turned signs after a minus.
func chanceSample(r *record) []float64 {
	name, turned := strings.CutPrefix(r.text("sample"), "-")
	for _, s := range mustRead("chance_samples.csv") {
		if s.text("sample") != name {
			continue
		}
		var sample []float64
		for _, field := range strings.Fields(s.text("values")) {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil {
				r.fail("sample %s: found %q; expected a number", name, field)
			}
			if turned {
				v = -v
			}
			sample = append(sample, v)
		}
		return sample
	}
	r.fail("no sample %q", name)
	return []float64{math.NaN()}
}

// lawOfMoments is the law with the row's L-moments; of NaN if there is none.
func lawOfMoments(r *record) chance.GEV {
	g, ok := chance.FitGEV(chance.LMoments{L1: r.number("l1"), L2: r.number("l2"), T3: r.number("t3")})
	if !ok {
		return chance.GEV{Location: math.NaN(), Scale: math.NaN(), Shape: math.NaN()}
	}
	return g
}

// extremeLaw is the law that the row describes.
func extremeLaw(r *record) chance.GEV {
	return chance.GEV{Location: r.number("location"), Scale: r.number("scale"), Shape: r.number("shape")}
}

// countedShare is the share that the row's k of n make.
func countedShare(r *record) chance.Share {
	return chance.Binomial(r.number("k"), int(r.number("n")), r.number("confidence"))
}
