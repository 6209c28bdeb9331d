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
	for _, rule := range []func(*sim.Result) []pipe.Finding{snowOverRelief, frostShutsRelief, manyStarts, shortRuns} {
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
			US.BothDepths(*deep), US.BothDepths(-*margin))}}
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
					i+1, area/(metresPerInch*metresPerInch), area*1e4, US.BothTemperatures(coldest))})
		}
	}
	return all
}

// mostStarts is how often an hour a sump pump's motor may start.
const mostStarts = 20

func manyStarts(r *sim.Result) []pipe.Finding {
	busiest := 0
	for _, n := range startsByHour(r) {
		busiest = max(busiest, n)
	}
	if busiest <= mostStarts {
		return nil
	}
	return []pipe.Finding{{Kind: pipe.FindingManyStarts, Source: commonPractice,
		Sentence: fmt.Sprintf("The pump started %d times in the busiest hour; over %d starts an hour wear out its switch and motor. A wider basin, or floats farther apart, makes fewer.", busiest, mostStarts)}}
}

// startsByHour counts the pump's starts by hour since the first weather row.
func startsByHour(r *sim.Result) map[int]int {
	starts := map[int]int{}
	for _, c := range r.Cycles {
		starts[int(c.Time/3600)]++
	}
	return starts
}

const (
	shortRun        = 10.0 // [s]
	fewRuns         = 0.01 // share of short runs that is no fault, such as one cut by the record's end [-]
	fewestShortRuns = 2
)

// runsUnder counts the pump's whole runs, and the short ones among them: what ice cut short does
// not count.
func runsUnder(r *sim.Result) (short, all int, shortest float64) {
	shortest = math.Inf(1)
	for _, c := range r.Cycles {
		if c.Run <= 0 || c.Refused > 0 {
			continue
		}
		all++
		if c.Run < shortRun {
			short++
		}
		shortest = math.Min(shortest, c.Run)
	}
	return short, all, shortest
}

func shortRuns(r *sim.Result) []pipe.Finding {
	short, all, shortest := runsUnder(r)
	if short < fewestShortRuns || float64(short) <= fewRuns*float64(all) {
		return nil
	}
	return []pipe.Finding{{Kind: pipe.FindingShortRuns, Source: commonPractice,
		Sentence: fmt.Sprintf("Pump runs last as little as %.0f s; under %.0f s the pump starts and stops too often and the line gets its water in small cold lots. Floats farther apart make longer runs.", shortest, shortRun)}}
}
