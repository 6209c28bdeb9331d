package sim

import "math"

// halves are the two half resistances of a volume that is part ice [m K/W], and how they
// change with its ice share.
type halves struct{ in, out, inSlope, outSlope float64 }

// frontEdge keeps the front off the very edge of a volume, where a resistance would
// vanish, as a share of the volume [-].
const frontEdge = 1e-6

// front gives the half resistances of a volume that is freezing: ice, its share f, on the outer or on the inner side,
// water on the other, and the node, at 0 °C, on the front between them. Following the front inside the volume is what
// makes a dozen shells enough: without it the heat flow pulses as the front jumps from shell to shell.
func (m *mesh) front(i int, f float64, iceOutside bool) halves {
	h := m.sharpFront(i, f, iceOutside)
	if f < frontTrace+frontFade {
		h.fade((f-frontTrace)/frontFade, 1/frontFade, m.inLiquid[i], m.outLiquid[i])
	}
	if f > 1-frontDone {
		h.fade((1-f)/frontDone, -1/frontDone, m.inFrozen[i], m.outFrozen[i])
	}
	return h
}

// fade moves the halves towards those of a node in the centre, in and out: all the way at x = 0, not at all at x = 1.
// slope is the change of x with the ice share. The move is smooth at both ends, for Newton's method to follow.
func (h *halves) fade(x, slope, in, out float64) {
	w, by := x*x*(3-2*x), 6*x*(1-x)*slope
	h.inSlope, h.in = w*h.inSlope+by*(h.in-in), in+w*(h.in-in)
	h.outSlope, h.out = w*h.outSlope+by*(h.out-out), out+w*(h.out-out)
}

// frontFade is the ice share within which the node moves from the volume's centre, where
// it is while all is liquid, to the front: without it the flows would jump with the
// first trace of ice, and an implicit step could hop between two solutions. Up to frontTrace it stays
// in the centre: water that has come to 0 °C throughout holds such traces in every shell. frontDone is the
// share of liquid within which the node goes back to the centre, where it is once all is ice.
const (
	frontFade  = 0.05
	frontDone  = 0.008
	frontTrace = 1e-5
)

// sharpFront is front with the node on the front whatever the ice share.
func (m *mesh) sharpFront(i int, f float64, iceOutside bool) halves {
	a, b := m.edge[i], m.edge[i+1]
	share, turn := f, 1.0
	rIn, rOut := m.scale[i]/m.kFrozen[i], m.scale[i]/m.kLiquid[i]
	if iceOutside {
		share, turn, rIn, rOut = 1-f, -1, rOut, rIn
	}
	share = min(1-frontEdge, max(frontEdge, share))
	if !m.radial {
		at, w := a+share*(b-a), turn*(b-a)
		return halves{(at - a) * rIn, (b - at) * rOut, w * rIn, -w * rOut}
	}
	var in float64
	if a == 0 {
		in = m.whole[i] + math.Log(share)/(4*math.Pi)
	} else {
		in = logNear(share*m.widening[i]) / (4 * math.Pi)
	}
	ring := b*b - a*a
	moved := turn * ring / (a*a + share*ring) / (4 * math.Pi)
	return halves{in * rIn, (m.whole[i] - in) * rOut, moved * rIn, -moved * rOut}
}

// logNear is ln(1 + x) for x ≥ 0, to 2e-8 of itself and faster than math.Log: the series of the inverse hyperbolic
// tangent (Abramowitz and Stegun 1964, 4.1.28), which converges fast for the fronts inside thin rings that it is for.
func logNear(x float64) float64 {
	if x > 1 {
		return math.Log(1 + x)
	}
	z := x / (2 + x)
	s := z * z
	return 2 * z * (1 + s*(1./3+s*(1./5+s*(1./7+s*(1./9+s*(1./11+s/13))))))
}

// blend gives the half resistances of a volume that is freezing or melting from both
// sides, or throughout: conductivity by ice share, node in its centre.
func (m *mesh) blend(i int, f float64) halves {
	more := m.kFrozen[i] - m.kLiquid[i]
	k := m.kLiquid[i] + (f-frontTrace)*more
	in, out := m.inLiquid[i]*m.kLiquid[i]/k, m.outLiquid[i]*m.kLiquid[i]/k
	return halves{in, out, -in * more / k, -out * more / k}
}
