package report

import "winterline/sim"

// coldestTable gives the lowest temperature at each depth and when it was reached.
func coldestTable(r *sim.GroundResult, s System) []string {
	table := [][]string{{"depth", "lowest", "", "when"}}
	for _, t := range r.Tracks {
		low, at := lowest(t.Temp)
		if at < 0 {
			continue
		}
		table = append(table, []string{s.bothDepths(t.Depth), padLeft(s.tenths(low), 8), "(" + s.other().tenths(low) + ")",
			groundDay(r, r.Time[at])})
	}
	if len(table) == 1 {
		return nil
	}
	return rowsOf(table)
}

// coldestGround says how cold the ground came at the shallowest depth with a temperature; "" without any.
func coldestGround(r *sim.GroundResult, s System) string {
	for _, t := range r.Tracks {
		if low, at := lowest(t.Temp); at >= 0 {
			return s.tenths(low) + " (" + s.other().tenths(low) + ") at " + s.bothDepths(t.Depth) + ", " + groundDay(r, r.Time[at])
		}
	}
	return ""
}
