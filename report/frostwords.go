package report

import "winterline/sim"

// frostWords says when frost stood in the ground: a sentence for one winter, a table for
// several.
func frostWords(r *sim.GroundResult, s System) []string {
	switch len(r.Seasons) {
	case 0:
		if coldest := coldestGround(r, s); coldest != "" {
			return []string{"none; the ground came down to " + coldest}
		}
		return []string{"none"}
	case 1:
		w := r.Seasons[0]
		return []string{frostStart(r, w) + "; " + frostEnd(r, w) + "; freezing degree-days of the air in between (each day's mean below freezing, added up): " +
			s.pair(System.degreeDays, w.FreezingDays)}
	}
	table := [][]string{{"winter", "first", "last", "deepest", "on", "degree-days"}}
	for _, w := range r.Seasons {
		table = append(table, []string{
			winterName(winterOf(r.Start, w.From)), shortDay(r, w.From) + mark(begunBefore(r, w)), shortDay(r, w.To) + mark(goesOn(r, w)),
			s.bothDepths(w.Deepest), shortDay(r, w.DeepestAt), s.degreeDays(w.FreezingDays),
		})
	}
	lines := append(rowsOf(table), "degree-days: of the air in between; each day's mean below freezing, added up")
	if first, last := r.Seasons[0], r.Seasons[len(r.Seasons)-1]; begunBefore(r, first) || goesOn(r, last) {
		lines = append(lines, "* the record begins or ends with frost in the ground")
	}
	return lines
}

func mark(set bool) string {
	if set {
		return "*"
	}
	return ""
}

// begunBefore says whether frost stood in the ground at the first row, goesOn whether it
// did at the last.
func begunBefore(r *sim.GroundResult, w sim.FrostSeason) bool { return w.From <= r.Time[0] }
func goesOn(r *sim.GroundResult, w sim.FrostSeason) bool      { return w.To >= r.Time[len(r.Time)-1] }

func frostStart(r *sim.GroundResult, w sim.FrostSeason) string {
	if begunBefore(r, w) {
		return "already in the ground when the record begins"
	}
	return "first in the ground " + groundDay(r, w.From)
}

func frostEnd(r *sim.GroundResult, w sim.FrostSeason) string {
	switch last := len(r.Time) - 1; {
	case !goesOn(r, w):
		return "last " + groundDay(r, w.To)
	case r.FrostBottom[last] >= w.Deepest:
		return "still going down when the record ends"
	}
	return "still there when the record ends"
}

// shortDay prints a day without its year.
func shortDay(r *sim.GroundResult, t float64) string { return stamp(r.Start, t).Format("Jan 2") }
