package report

import (
	"fmt"
	"math"
	"strings"

	"winterline/sim/verify"
)

// evidenceMeasured is the comparison with thermometers in the ground on the evidence page.
type evidenceMeasured struct {
	Verdict string
	Sites   []pageFact
	Limited int
	Warm    string // which way the sites lean
	Poor    string // where little is gained over the air alone
	Depths  []measuredDepth
	Others  []measuredDepth // computed by other assumptions
	Frost   []measuredFrost
	Misses  []pageFact
}

// measuredDepth is a thermometer, or several together.
type measuredDepth struct {
	Site, Depth, Count, Bias, Side, RMSE, Air, Limit string
	Bad                                              bool
}

// measuredFrost is one winter's frost in clay.
type measuredFrost struct {
	Winter, Measured, Computed, Off, Side, Limit, Reached, Froze, Thawed string
	Bad                                                                  bool
}

func newEvidenceMeasured(rows []verify.MeasuredRow) evidenceMeasured {
	m := evidenceMeasured{Frost: measuredFrosts(rows)}
	for _, s := range measuredSites {
		m.Sites = append(m.Sites, pageFact{s.name, s.words})
	}
	for _, r := range rows {
		if r.Limited() {
			m.Limited++
		}
		if r.Missed() {
			m.Misses = append(m.Misses, pageFact{capital(r.ID), missedWords(r) + " " + r.Why})
		}
		switch row := newMeasuredDepth(r); {
		case r.Figure != "temperature":
		case assumedOtherwise(r.Site):
			m.Others = append(m.Others, row)
		default:
			m.Depths = append(m.Depths, row)
		}
	}
	m.Verdict = fmt.Sprintf("Beside thermometers in the ground, %d of %s are missed.", len(m.Misses), plural(float64(m.Limited), "limit"))
	m.Warm, m.Poor = sitesLean(rows), littleGained(rows)
	return m
}

// assumedOtherwise says whether a site's rows show what another assumption would have made of it.
func assumedOtherwise(site string) bool {
	return strings.Contains(site, " ") && !strings.HasPrefix(site, "plot ")
}

func newMeasuredDepth(r verify.MeasuredRow) measuredDepth {
	d := measuredDepth{
		Site: measuredNames[r.Site], Depth: "together", Bias: signed(r.Bias, 2), Side: sideOf(-r.Bias), RMSE: number(r.RMSE, 2),
		Air: number(r.AirRMSE, 2), Limit: measuredLimit(r), Bad: r.Missed(),
	}
	if r.N > 0 {
		d.Count = number(float64(r.N), 0)
	}
	if !math.IsNaN(r.Depth) {
		d.Depth = fmt.Sprintf("%s cm (%s in)", trimmed(r.Depth), number(r.Depth/2.54, 0))
	}
	if math.IsNaN(r.Bias) {
		d.Depth, d.Side = "mean of plots and winters", ""
	}
	return d
}

// sideOf is the side on which a result errs whose ground is so much colder, or frozen so much deeper, than the real one.
func sideOf(colder float64) string {
	switch {
	case colder > 0:
		return "safe"
	case colder < 0:
		return "unsafe"
	}
	return ""
}

// measuredLimit says what a row is held to.
func measuredLimit(r verify.MeasuredRow) string {
	var words []string
	if !math.IsNaN(r.MostBias) {
		words = append(words, "mean "+trimmed(r.MostBias))
	}
	if !math.IsNaN(r.MostRMSE) {
		words = append(words, "root mean square "+trimmed(r.MostRMSE))
	}
	if !math.IsNaN(r.MostShare) {
		words = append(words, fmt.Sprintf("%.0f %% of that of the air", 100*r.MostShare))
	}
	if len(words) == 0 {
		return "shown only"
	}
	return strings.Join(words, ", ")
}

// missedWords say by how much a limit is missed.
func missedWords(r verify.MeasuredRow) string {
	if math.Abs(r.Bias) > r.MostBias {
		return fmt.Sprintf("Off by %s %s, limit %s.", signed(r.Bias, digitsOf(r.Unit)), r.Unit, trimmed(r.MostBias))
	}
	if r.RMSE > r.MostRMSE {
		return fmt.Sprintf("Root mean square difference %s %s, limit %s.", number(r.RMSE, 2), r.Unit, trimmed(r.MostRMSE))
	}
	return fmt.Sprintf("%.0f %% of what the air alone is off by, limit %.0f %%.", 100*r.RMSE/r.AirRMSE, 100*r.MostShare)
}

// digitsOf are the decimals that a unit of the comparison is told with.
func digitsOf(unit string) int { return map[string]int{"K": 2, "cm": 1}[unit] }

// measuredFrosts put the rows of each winter's frost on one line.
func measuredFrosts(rows []verify.MeasuredRow) (out []measuredFrost) {
	for _, r := range rows {
		if r.Winter == 0 {
			continue
		}
		for len(out) < r.Winter {
			out = append(out, measuredFrost{Winter: fmt.Sprintf("Winter %d", len(out)+1)})
		}
		f := &out[r.Winter-1]
		days := signed(r.Bias, 0) + " days"
		f.Bad = f.Bad || r.Missed()
		switch r.Figure {
		case "deepest frost":
			f.Measured, f.Computed = bothDepths(r.Measured), bothDepths(r.Computed)
			f.Off, f.Side, f.Limit = signed(r.Bias, 1)+" cm", sideOf(r.Bias), trimmed(r.MostBias)+" cm"
		case "day of the deepest frost":
			f.Reached = days + ", limit " + trimmed(r.MostBias)
		case "day when 50 cm froze":
			f.Froze = days
		default:
			f.Thawed = days
		}
	}
	return out
}

// bothDepths prints a depth [cm] in both units.
func bothDepths(cm float64) string {
	return fmt.Sprintf("%s cm (%s in)", number(cm, 0), number(cm/2.54, 0))
}

// sitesLean says which way each site is off, all its winters and the depths that count together.
func sitesLean(rows []verify.MeasuredRow) string {
	var words []string
	for _, r := range rows {
		if strings.HasSuffix(r.ID, ", together") && !assumedOtherwise(r.Site) {
			way := "too warm, on the unsafe side"
			if r.Bias < 0 {
				way = "too cold, on the safe side"
			}
			words = append(words, fmt.Sprintf("%s by %s K %s", lowerFirst(measuredNames[r.Site]), number(math.Abs(r.Bias), 2), way))
		}
	}
	if words == nil {
		return ""
	}
	return "On average the ground is computed: " + strings.Join(words, "; ") + "."
}

// littleGained says where the computed ground is off by more than three quarters of what the air alone is off by.
func littleGained(rows []verify.MeasuredRow) string {
	const most = 0.75
	var places []string
	for _, r := range rows {
		if r.Figure == "temperature" && !assumedOtherwise(r.Site) && r.RMSE > most*r.AirRMSE {
			places = append(places, fmt.Sprintf("%s, %s: %.1f %%", lowerFirst(measuredNames[r.Site]), newMeasuredDepth(r).Depth, 100*r.RMSE/r.AirRMSE))
		}
	}
	if places == nil {
		return ""
	}
	return "Where the root mean square is more than 75 % of that of the air, little is gained by computing the ground at all: " + strings.Join(places, "; ") + "."
}

// measuredSentence tells the comparison with thermometers in one sentence, as the README has it.
func measuredSentence(rows []verify.MeasuredRow) string {
	spans := map[string][2]float64{}
	for _, r := range rows {
		if site, _, _ := strings.Cut(r.Site, " "); r.Figure == "temperature" && !assumedOtherwise(r.Site) && !math.IsNaN(r.Depth) && r.Limited() {
			s, known := spans[site]
			if !known {
				s = [2]float64{math.Inf(1), 0}
			}
			spans[site] = [2]float64{math.Min(s[0], r.RMSE), math.Max(s[1], r.RMSE)}
		}
	}
	span := func(site string) string { return number(spans[site][0], 1) + " to " + number(spans[site][1], 1) + " K" }
	return fmt.Sprintf("With one set of defaults, root mean square differences from November to March are %s below a thermometer in clay, %s under a field, %s under prairie and %s just below the surface of three plots whose snow was measured elsewhere.",
		span("clay"), span("field"), span("prairie"), span("plot"))
}
