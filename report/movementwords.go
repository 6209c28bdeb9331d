package report

import (
	"winterline/pipe"
	"winterline/sim"
)

// smallestMove is the least movement that is told of [m].
const smallestMove = 0.0005

// smallestPool is the least standing water that is told of [m³].
const smallestPool = 1e-4

// movementWords says what frost heave can do to joint, air gap, outlet and fall.
func movementWords(r *sim.Result, s System) []string {
	m := r.Movement
	switch {
	case m == nil:
		return nil
	case m.High < smallestMove && (r.Ground == nil || len(r.Ground.Seasons) == 0):
		return []string{"no heave: no frost stood in the ground"}
	case m.High < smallestMove:
		return []string{"no heave: the frozen soil is too clean or the frost too slight for it"}
	}
	lines := []string{jointMoveWords(r, s)}
	if m.Joint == nil {
		lines = []string{"frost could lift the ground " + s.moves(m.Low, m.High)}
	}
	lines = append(lines, gapMoveWords(r, s)...)
	lines = append(lines, outletMoveWords(r, s)...)
	lines = append(lines, fallWords(r, s)...)
	return append(lines, "(rough figures, from the least to the most for such soil: ground called alike heaves very differently)")
}

// jointMoveWords says what the joint must take, and whether it can.
func jointMoveWords(r *sim.Result, s System) string {
	j := r.Movement.Joint
	switch {
	case j == nil:
		return ""
	case j.High < smallestMove:
		return "frost did not reach below the joint with the house pipe"
	case j.Glued:
		return "the glued joint must take " + s.moves(j.Low, j.High)
	}
	words := "frost could lift the standpipe " + s.moves(j.Low, j.High)
	switch {
	case j.Surely != nil:
		return words + ", more than the " + s.bothThin(j.Travel) + " that the slip joint takes: used up by " + spokenTime(r.Start, *j.Surely) + " at the latest"
	case j.May != nil:
		return words + ", which may be more than the " + s.bothThin(j.Travel) + " that the slip joint takes: at the worst used up on " + spokenTime(r.Start, *j.May)
	}
	return words + "; the slip joint takes " + s.bothThin(j.Travel)
}

// gapMoveWords says what the lift leaves of the air gap.
func gapMoveWords(r *sim.Result, s System) []string {
	g := r.Movement.Gap
	switch {
	case g == nil || g.Clear-g.Least < smallestMove:
		return nil
	case g.Least > 0:
		return []string{"of the " + s.bothThin(g.Clear) + " of air between relief opening and house pipe, " + s.bothThin(g.Least) + " or more stay"}
	}
	at := g.May
	words := "the relief opening may rise past the house pipe's end"
	if g.Surely != nil {
		at, words = g.Surely, "the relief opening rises past the house pipe's end"
	}
	if at != nil {
		words += ", from " + spokenTime(r.Start, *at) + " on"
	}
	return []string{words + ": water then stands in the house pipe before it runs out"}
}

// outletMoveWords says how far the far end may rise.
func outletMoveWords(r *sim.Result, s System) []string {
	o := r.Movement.Outlet
	if o == nil || o.High < smallestMove {
		return nil
	}
	part := "the far end"
	if r.Layout.Outlet.Kind == pipe.Lid {
		part = "the lid"
	}
	return []string{part + " could rise " + s.moves(o.Low, o.High)}
}

// fallWords says of each buried segment what uneven heave can leave of its fall.
func fallWords(r *sim.Result, s System) []string {
	const most = 4
	var lines []string
	falls := r.Movement.Fall
	for _, f := range falls[:min(most, len(falls))] {
		lines = append(lines, segmentFall(r, f, s))
	}
	if rest := len(falls) - most; rest > 0 {
		lines = append(lines, plural(float64(rest), "more segment")+" in summary.json")
	}
	return lines
}

func segmentFall(r *sim.Result, f sim.FallLeft, s System) string {
	words := "the " + r.Layout.Segments[f.Segment].Name + " falls " + s.bothThin(f.Fall) + " over " + s.bothLengths(f.Length)
	if f.Fall < -smallestMove {
		words = "the " + r.Layout.Segments[f.Segment].Name + " rises " + s.bothThin(-f.Fall) + " over " + s.bothLengths(f.Length)
	}
	if f.High < smallestMove {
		return words + "; heave takes nothing off that: the frost stays above it or hardly passes it"
	}
	words += "; uneven heave of up to " + s.bothThin(f.High) + " can leave "
	if f.Left < 0 {
		words += "a back-fall of " + s.bothThin(-f.Left)
	} else {
		words += s.bothThin(f.Left) + " of fall"
	}
	switch grows := f.LowSpot - f.Sag; {
	case f.LowSpot < smallestMove || grows < smallestMove:
		return words
	case f.Sag >= smallestMove:
		words += ", and deepen its low spot from " + s.bothThin(f.Sag) + " to " + s.bothThin(f.LowSpot)
	default:
		words += ", and a low spot of " + s.bothThin(f.LowSpot) + " in it"
	}
	if f.Water < smallestPool {
		return words
	}
	return words + ", where up to " + s.bothVolumes(f.Water) + " would stand"
}
