package pipe

import (
	"math"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// typicalCurves are submersible sump pumps by rated power: shut-off head and flow at 10 ft. The
// 1/3 hp row follows trade pages (about 40 gal/min at 10 ft, shut-off 18 to 26 ft); the others are
// common practice, no source. Between, H = H0 − a Q².
var typicalCurves = []struct {
	name    string
	shutOff float64 // [ft]
	at10    float64 // [gal/min]
}{
	{"1/4 hp", 18, 30}, {"1/3 hp", 20, 40}, {"1/2 hp", 25, 55}, {"3/4 hp", 30, 70}, {"1 hp", 35, 85},
}

// findPower returns the row of a power such as "1/3 hp", or -1.
func findPower(power string) int {
	low := strings.ToLower(strings.Join(strings.Fields(power), " "))
	low = strings.NewReplacer("½", "1/2", "¼", "1/4", "¾", "3/4").Replace(low)
	low = strings.TrimSuffix(strings.TrimSuffix(low, "hp"), " ") + " hp"
	return slices.Index(powerNames(), low)
}

func powerNames() []string {
	names := make([]string, len(typicalCurves))
	for i, c := range typicalCurves {
		names[i] = c.name
	}
	return names
}

// TypicalCurve returns the typical curve of a sump pump by its power, such as "1/3 hp".
func TypicalCurve(power string) ([]CurvePoint, bool) {
	i := findPower(power)
	if i < 0 {
		return nil, false
	}
	c := typicalCurves[i]
	return parabola(si(units.Length, "1 ft")*c.shutOff, si(units.Length, "10 ft"), si(units.Flow, "1 gal/min")*c.at10), true
}

// parabola samples H = H0 − a Q² through a shut-off head h0 and one point, evenly in flow so that
// straight lines between the samples stay within half a percent of the curve.
func parabola(h0, h, q float64) []CurvePoint {
	const points = 13
	largest := q * math.Sqrt(h0/(h0-h))
	curve := make([]CurvePoint, points)
	for i := range curve {
		flow := largest * float64(points-1-i) / (points - 1)
		curve[i] = CurvePoint{Head: h0 * (1 - flow*flow/(largest*largest)), Flow: flow}
	}
	return curve
}

// curve binds a list of [head, flow] pairs or a typical curve by power.
func (s *scope) curve() []CurvePoint {
	n, st := s.get("curve")
	const expected = `pairs of head and flow such as [["0 ft","55 gal/min"],["25 ft","0 gal/min"]], or a power such as "1/3 hp"`
	switch {
	case st == faulty:
		return nil
	case st != given:
		return s.typical(defaults["pump.curve"])
	case n.kind == stringNode:
		i := findPower(n.text)
		if i < 0 {
			s.problem("curve", describe(n), expected+"; known: "+strings.Join(powerNames(), ", "))
			return nil
		}
		f := defaults["pump.curve"]
		f.value = typicalCurves[i].name
		f.low, f.high = typicalCurves[max(i-1, 0)].name, typicalCurves[min(i+1, len(typicalCurves)-1)].name
		return s.typical(f)
	case n.kind != arrayNode || len(n.items) < 2 || len(n.items) > 100:
		s.problem("curve", describe(n), expected+" (2 to 100 pairs)")
		return nil
	}
	return s.pairs(n, expected)
}

// typical takes a curve by power and lists it as a guess.
func (s *scope) typical(f fallback) []CurvePoint {
	s.guessWord("curve", f)
	curve, _ := TypicalCurve(f.value)
	return curve
}

func (s *scope) pairs(n *node, expected string) []CurvePoint {
	var curve []CurvePoint
	for _, pair := range n.items {
		if pair.kind != arrayNode || len(pair.items) != 2 {
			s.problemAt(pair.line, "curve", describe(pair), expected)
			return nil
		}
		head, ok1 := s.measure(pair.items[0], "curve", units.Length, limit{0, 200, "from 0 to 200 m (656 ft) of head"})
		flow, ok2 := s.measure(pair.items[1], "curve", units.Flow, limit{0, 0.1, "from 0 to 0.1 m3/s (1585 gal/min)"})
		if !ok1 || !ok2 {
			continue
		}
		if last := len(curve) - 1; last >= 0 && (head <= curve[last].Head || flow >= curve[last].Flow) {
			s.problemAt(pair.line, "curve", describe(pair.items[0])+" with "+describe(pair.items[1])+" after the point before it",
				"heads that rise and flows that fall from point to point")
			return nil
		}
		curve = append(curve, CurvePoint{head, flow})
	}
	if len(curve) == len(n.items) && curve[len(curve)-1].Flow != 0 {
		last := n.items[len(n.items)-1]
		s.problemAt(last.line, "curve", "a last flow of "+describe(last.items[1]), "a last point at no flow: the pump's shut-off head")
	}
	return curve
}
