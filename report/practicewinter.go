package report

import (
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/sim"
)

const commonPractice = "common practice, no source"

// foundInWinter are the findings that the layout alone does not show: they need the weather or the
// pump's runs.
func foundInWinter(r *sim.Result) []pipe.Finding {
	var all []pipe.Finding
	for _, rule := range []func(*sim.Result) []pipe.Finding{snowOverRelief, frostShutsRelief, airGapLost, manyStarts, shortRuns} {
		all = append(all, rule(r)...)
	}
	return all
}

// snowOverRelief compares the relief openings' bottoms with the snow of the record, each opening's
// drift counted in.
func snowOverRelief(r *sim.Result) []pipe.Finding {
	margin, deep := r.Verdict.ReliefMargin, r.Verdict.HighestSnow
	if margin == nil || deep == nil || *margin >= 0 {
		return nil
	}
	return []pipe.Finding{{Kind: pipe.FindingReliefUnderSnow, Where: pipe.AtRelief, Source: commonPractice,
		Sentence: fmt.Sprintf("Snow beside the relief, with drift, stood up to %s deep in this record: %s over the bottom of the lowest opening.",
			US.bothDepths(*deep), US.bothDepths(-*margin))}}
}

// A relief opening below frostShutArea [m²] can freeze over where the air falls to hardFrost [°C].
const (
	frostShutArea = 45e-4
	hardFrost     = -18.0
)

func frostShutsRelief(r *sim.Result) []pipe.Finding {
	coldest := math.Inf(1)
	for _, air := range r.Hourly.Air {
		coldest = math.Min(coldest, air)
	}
	if coldest > hardFrost || r.Layout == nil {
		return nil
	}
	var all []pipe.Finding
	for i, o := range r.Layout.Reliefs {
		if area := o.Width * o.OpeningHeight; area < frostShutArea {
			all = append(all, pipe.Finding{Kind: pipe.FindingReliefFrosts, Where: pipe.AtRelief, Source: commonPractice,
				Sentence: fmt.Sprintf("Relief opening %d is small (%.1f in², %.0f cm²), and the air fell to %s: under 7 in² (45 cm²) it can frost shut below 0 °F (-18 °C).",
					i+1, area/(metresPerInch*metresPerInch), area*1e4, US.bothTemperatures(coldest))})
		}
	}
	return all
}

func manyStarts(r *sim.Result) []pipe.Finding {
	s := sim.CountShortCycling(r.Cycles)
	if s.BusyHours == 0 {
		return nil
	}
	return []pipe.Finding{{Kind: pipe.FindingManyStarts, Source: commonPractice,
		Sentence: fmt.Sprintf("The pump started %d times in the busiest hour; over %d starts an hour wear out its switch and motor. A wider basin, or floats farther apart, makes fewer.", s.Busiest, sim.MostStarts)}}
}

func shortRuns(r *sim.Result) []pipe.Finding {
	s := sim.CountShortCycling(r.Cycles)
	if s.Short == 0 {
		return nil
	}
	return []pipe.Finding{{Kind: pipe.FindingShortRuns, Source: commonPractice,
		Sentence: fmt.Sprintf("Pump runs last as little as %.0f s; under %.0f s the pump starts and stops too often and the line gets its water in small cold lots. Floats farther apart make longer runs.", s.Shortest, sim.ShortRun)}}
}
