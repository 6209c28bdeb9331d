package report

import (
	"slices"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// groundHeadline is the answer in one breath: how deep the frost went, when, and under what.
func groundHeadline(r *sim.GroundResult, s System) string {
	words := "Nothing froze: no frost in the ground " + surfacePhrase(r, s) + "."
	if w, froze := deepestFrost(r); froze {
		words = "Deepest frost: " + s.bothDepths(w.Deepest) + " on " + groundDay(r, w.DeepestAt) + ", " + surfacePhrase(r, s) + "."
	}
	if r.Invented {
		return "An invented house: " + lowerFirst(words)
	}
	return words
}

// coverWords names what covers the ground.
var coverWords = map[pipe.Surface]string{
	pipe.Grass: "grass", pipe.Bare: "bare soil", pipe.Gravel: "gravel", pipe.Paved: "paving",
}

// surfacePhrase says what lies over the ground, "under grass with natural snow".
func surfacePhrase(r *sim.GroundResult, s System) string {
	over := r.Surface
	if over.Drive == sim.ThermometerDrive {
		return "driven by the thermometer at " + s.bothDepths(over.Depth)
	}
	if !snowCounts(r) {
		over.SnowKind = weather.SnowNone
	}
	return underWords(over)
}

// underWords names a cover and the snow upon it.
func underWords(over sim.GroundSurface) string {
	under := "under " + coverWords[over.Cover]
	switch {
	case over.SnowKind == weather.SnowNone:
		return under
	case over.SnowOn == 0:
		return under + " kept clear of snow"
	case over.SnowOn == 1:
		return under + " with natural snow"
	}
	return under + " with " + percent(over.SnowOn) + " of the natural snow"
}

// groundDay prints a day, with its year in a record longer than one.
func groundDay(r *sim.GroundResult, t float64) string {
	const year = 366 * 86400
	if t0, t1 := spanOf(r.Time); t1-t0 > year {
		return spokenDate(r.Start, t)
	}
	return stamp(r.Start, t).Format("Jan 2")
}

// driveWords says how the ground was driven and what came before the record.
func driveWords(r *sim.GroundResult, s System) []string {
	lines := surfaceDriveWords(r, s)
	if r.SpinUpYears > 0 && !warned(r, "short-record") {
		lines = append(lines, "before the record its first year, "+plural(float64(r.SpinUpYears), "time")+" over")
	}
	return lines
}

func warned(r *sim.GroundResult, kind string) bool {
	return slices.ContainsFunc(r.Warnings, func(w sim.Warning) bool { return w.Kind == kind })
}

func surfaceDriveWords(r *sim.GroundResult, s System) []string {
	switch r.Surface.Drive {
	case sim.EnergyDrive:
		return []string{"sun, sky, wind and evaporation over " + coverWords[r.Surface.Cover]}
	case sim.NFactorDrive:
		return []string{"the air's temperature times stated n-factors" + nFactors(r) + ", in which cover and snow are contained"}
	case sim.ThermometerDrive:
		return []string{"the thermometer at " + s.bothDepths(r.Surface.Depth) + "; what lies above it was not needed and not computed"}
	}
	if statedResistance(r) {
		return []string{"the air's temperature through a stated resistance, in which cover and snow are contained"}
	}
	return []string{"the air's temperature through air film, " + coverWords[r.Surface.Cover] + " and snow; sun and sky are left out"}
}

// nFactors gives the factors in use.
func nFactors(r *sim.GroundResult) string {
	if r.Layout == nil || r.Layout.Site.NFactor == nil {
		return ""
	}
	n := r.Layout.Site.NFactor
	return " (" + shortest(n.Freezing) + " in frost, " + shortest(n.Thawing) + " in thaw)"
}

// snowCounts says whether the record's snow had a part in driving the ground.
func snowCounts(r *sim.GroundResult) bool {
	switch r.Surface.Drive {
	case sim.NFactorDrive, sim.ThermometerDrive:
		return false
	}
	return !statedResistance(r)
}

func statedResistance(r *sim.GroundResult) bool {
	return r.Surface.Drive == sim.AirDrive && r.Layout != nil && r.Layout.Site.SurfaceResistance != nil
}

// snowWords says what is known of snow and how much lay on the ground.
func snowWords(r *sim.GroundResult, s System) []string {
	kind := r.Surface.SnowKind
	switch {
	case !snowCounts(r):
		return nil
	case kind == weather.SnowNone:
		if warned(r, "no-snow-record") {
			return nil // said there
		}
		return []string{"not known: the ground is taken as bare, where frost goes deepest"}
	case r.Surface.SnowOn == 0:
		return []string{"kept clear"}
	}
	words := "depth as measured"
	if kind == weather.SnowModelled {
		words = "depth worked out from snowfall, settling and melt"
	}
	if r.Surface.SnowOn != 1 {
		words += ", " + percent(r.Surface.SnowOn) + " of it left on the ground"
	}
	_, most := extent(r.Snow)
	if most <= 0 {
		return []string{words + "; none fell"}
	}
	highest := r.Time[slices.Index(r.Snow, most)]
	return []string{words + "; most on " + groundDay(r, highest) + ": " + s.bothDepths(most)}
}
