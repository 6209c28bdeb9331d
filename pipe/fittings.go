package pipe

import (
	"strings"

	"winterline/pipe/units"
)

// fittingLosses are loss coefficients K in h = K v²/2g, turbulent, about 1-1/2 to 2 in: customary
// values as in Crane TP 410 (from memory; a friction factor of 0.020 for full turbulence).
var fittingLosses = []struct {
	name string
	k    float64
}{
	{"90 elbow", 0.6}, {"long 90 elbow", 0.32}, {"45 elbow", 0.3}, {"22 elbow", 0.15}, {"tee run", 0.4}, {"tee branch", 1.2},
	{"wye run", 0.4}, {"wye branch", 0.9}, {"union", 0.05}, {"coupling", 0.05}, {"adapter", 0.05}, {"check valve", 2},
	{"ball valve", 0.06}, {"gate valve", 0.16}, {"entry", 0.5}, {"exit", 1}, {"reducer", 0.3}, {"enlarger", 0.5},
}

// fittingLoss returns the loss coefficient of a fitting by name.
func fittingLoss(name string) (float64, bool) {
	low := strings.ToLower(strings.TrimSpace(name))
	low = strings.NewReplacer("90°", "90", "45°", "45", "degree ", "", "deg ", "", "ell", "elbow", "bend", "elbow").Replace(strings.ReplaceAll(low, "elbow", "ell"))
	for _, f := range fittingLosses {
		if f.name == low {
			return f.k, true
		}
	}
	return 0, false
}

// fittings binds the list of fittings of a segment, or a bare number: their K summed.
// The state tells a segment that says nothing from one with none.
func (s *scope) fittings() (float64, state) {
	n, st := s.get("fittings")
	if st != given {
		return 0, st
	}
	names := make([]string, len(fittingLosses))
	for i, f := range fittingLosses {
		names[i] = f.name
	}
	const expected = `a list such as ["90 elbow", "check valve"], or the sum of loss coefficients from 0 to 1000`
	if n.kind == numberNode {
		k, ok := s.measure(n, "fittings", units.Fraction, limit{0, 1000, "of loss coefficients from 0 to 1000"})
		if !ok {
			return 0, faulty
		}
		return k, given
	}
	if n.kind != arrayNode {
		s.problem("fittings", describe(n), expected)
		return 0, faulty
	}
	sum := 0.0
	for _, item := range n.items {
		k, ok := fittingLoss(item.text)
		if item.kind != stringNode || !ok {
			s.problemAt(item.line, "fittings", describe(item), "one of "+quoteAll(names)+suggest(describe(item), names))
			st = faulty
		}
		sum += k
	}
	return sum, st
}
