package sim

import "winterline/pipe"

// FallLeft is how much of the fall of a buried segment uneven heave can leave.
type FallLeft struct {
	Segment   int     // index in the layout
	Length    float64 // along the ground [m]
	Fall      float64 // between its ends as laid [m]
	Low, High float64 // by how much the far end may rise more than the near one, at both ends of the range [m]
	Left      float64 // of the fall at the high end [m]; under 0: it falls backwards
	Sag       float64 // greatest depth of a spot below a crest downstream of it, as laid [m]; 0: it drains
	LowSpot   float64 // the same after uneven heave at the high end, where that makes most of it [m]
	At        float64 // distance from the wall of that spot [m]; 0: none
	Water     float64 // that stands within the segment after the uneven heave that leaves the most of it there [m³]
}

const (
	// Heave differs from place to place by half its value between points 3 m apart, and in proportion
	// between points that lie closer (common practice, no source).
	unevenShare = 0.5
	unevenSpan  = 3.0 // [m]

	fallPoints  = 60  // into how many equal lengths a segment is cut to look at its level
	shortestRun = 0.1 // least length along the ground of a segment whose fall matters [m]; shorter ones are upright

	levelNoise = 1e-9 // a low spot that is deeper by less is no deeper [m]
)

// uneven is how much more one point may rise than another at a distance [m] from it, in ground that
// rises by heave [m].
func uneven(heave, distance float64) float64 {
	return unevenShare * heave * min(1, distance/unevenSpan)
}

// fallLeft works out what a lift leaves of the fall of a segment; bore is its inside diameter [m].
func fallLeft(p *pipe.Profile, segment int, bore float64, lift Lift) FallLeft {
	r := p.Segments[segment]
	f := FallLeft{Segment: segment, Length: r.X1 - r.X0, Fall: r.Z0 - r.Z1}
	f.Low, f.High = uneven(lift.Low, f.Length), uneven(lift.High, f.Length)
	f.Left = f.Fall - f.High
	b := newBed(p, segment)
	f.Sag, _ = b.lowSpot(0)
	f.LowSpot, f.At = b.lowSpot(lift.High)
	f.Water = b.standsIn(bore, lift.High)
	return f
}

// bed is a segment as laid, at points an equal distance apart, in flow order.
type bed struct {
	length float64 // along the ground [m]
	x      points  // distance from the wall, rising [m]
	invert points  // [m]
}

// points are values at the points of a bed.
type points [fallPoints + 1]float64

func newBed(p *pipe.Profile, segment int) bed {
	b := bed{length: p.Segments[segment].X1 - p.Segments[segment].X0}
	for i := range b.x {
		s := float64(i) / fallPoints
		b.x[i], b.invert[i] = p.X(segment, s), p.Invert(segment, s)
	}
	return b
}

// lowSpot is the greatest depth [m] of a point of the segment below one farther downstream, where that one rises more by
// as much as uneven heave allows, and the lower point's distance from the wall [m]; 0 and 0: water drains from everywhere.
func (b *bed) lowSpot(heave float64) (depth, at float64) {
	highest := b.invert // from a point on
	for i := fallPoints - 1; i >= 0; i-- {
		highest[i] = max(highest[i], highest[i+1])
	}
	for i := range fallPoints {
		// No point farther on rises by more than the highest would at the far end.
		if highest[i+1]-b.invert[i]+uneven(heave, b.x[fallPoints]-b.x[i]) <= depth+levelNoise {
			continue
		}
		for k := i + 1; k <= fallPoints; k++ {
			rise := b.invert[k] - b.invert[i] + uneven(heave, b.x[k]-b.x[i])
			if rise > depth+levelNoise {
				depth, at = rise, b.x[i]
			}
		}
	}
	return depth, at
}
