package sim

import "winterline/pipe"

// FallLeft is what uneven heave can leave of the fall of a buried segment.
type FallLeft struct {
	Segment   int     // index in the layout
	Length    float64 // along the ground [m]
	Fall      float64 // between its ends as laid [m]
	Low, High float64 // by how much the far end may rise against the near one, and as much within it [m]
	Left      float64 // of the fall at the high end [m]; under 0: it falls backwards
	Sag       float64 // depth of its lowest spot below a crest behind it, as laid [m]; 0: it drains
	LowSpot   float64 // the same where uneven heave at the high end is worst [m]
	At        float64 // distance from the wall of that spot [m]; 0: none
	Water     float64 // that stands within the segment after the uneven heave that leaves the most of it there [m³]
}

const (
	// Heave differs from place to place by half its value between points 3 m apart, and in proportion
	// between points that lie closer (common practice, no source).
	unevenShare = 0.5
	unevenSpan  = 3.0 // [m]

	fallPoints  = 60  // along a segment, at which its level is looked at
	shortestRun = 0.1 // that counts as running along [m]
)

// uneven is how much more one point may rise than another at a distance [m] from it, where all ground
// rises by heave [m].
func uneven(heave, distance float64) float64 {
	return unevenShare * heave * min(1, distance/unevenSpan)
}

// fallLeft works out what a lift leaves of the fall of a segment with an inside diameter [m].
func fallLeft(p *pipe.Profile, segment int, bore float64, lift Lift) FallLeft {
	r := p.Segments[segment]
	f := FallLeft{Segment: segment, Length: r.X1 - r.X0, Fall: r.Z0 - r.Z1}
	f.Low, f.High = uneven(lift.Low, f.Length), uneven(lift.High, f.Length)
	f.Left = f.Fall - f.High
	f.Sag, _ = lowSpot(p, segment, 0)
	f.LowSpot, f.At = lowSpot(p, segment, lift.High)
	f.Water = standsIn(p, segment, bore, lift.High)
	return f
}

// lowSpot is the greatest depth [m] of a point of a segment below one farther on, if that may rise against it as
// uneven heave allows, and the point's distance from the wall [m]; 0 and 0: water drains from everywhere.
func lowSpot(p *pipe.Profile, segment int, heave float64) (depth, at float64) {
	for i := range fallPoints {
		a := float64(i) / fallPoints
		for k := i + 1; k <= fallPoints; k++ {
			b := float64(k) / fallPoints
			rise := p.Invert(segment, b) - p.Invert(segment, a) + uneven(heave, p.X(segment, b)-p.X(segment, a))
			if rise > depth+1e-9 {
				depth, at = rise, p.X(segment, a)
			}
		}
	}
	return depth, at
}
