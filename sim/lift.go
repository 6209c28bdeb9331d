package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/flow"
)

// lift is what a pump works against on its way to the loose joint, or to the start of a
// glued line's head: its curve, the water level it lifts from, and the house pipe.
type lift struct {
	curve []pipe.CurvePoint
	duct  duct    // the pipe between pump and joint
	from  float64 // water level in the basin [m]
}

// duct is a run of pipe as one bore with the same loss of head.
type duct struct {
	bore      float64 // narrowest of the run [m]; 0: no run
	length    float64 // of that bore [m]
	rough     float64 // [m]
	loss      float64 // fittings, at that bore [-]
	viscosity float64 // of the water, kinematic [m²/s]
}

// equivalent makes one duct of several segments: a wider stretch counts by the length of
// the narrowest bore that loses as much at the same flow, with the fifth power of the
// ratio, and its fittings with the fourth.
func equivalent(segments []pipe.Segment) duct {
	d := duct{viscosity: coldViscosity}
	for _, s := range segments {
		if b := s.Size.Bore(); d.bore == 0 || b < d.bore {
			d.bore, d.rough = b, s.Size.Roughness
		}
	}
	for _, s := range segments {
		ratio := d.bore / s.Size.Bore()
		d.length += s.Length * math.Pow(ratio, 5)
		d.loss += s.Loss * math.Pow(ratio, 4)
	}
	return d
}

// head is what the duct loses at a flow [m].
func (d duct) head(q float64) float64 {
	if q <= 0 || d.bore == 0 {
		return 0
	}
	return flow.HeadLoss(q, d.bore, d.length, d.rough, d.viscosity) + d.loss*flow.VelocityHead(q, d.bore)
}

// flow is what a head drives through the duct [m³/s], entry and exit included.
func (d duct) flow(head float64) float64 {
	return flow.FullPipeFlow(head, d.bore, d.length, d.rough, d.viscosity, d.loss+icedLosses)
}

// curveFlow is the flow at which the pump makes a head [m³/s], straight between the points
// of its curve; 0 from its shut-off head on.
func (p *lift) curveFlow(head float64) float64 {
	c := p.curve
	if head <= c[0].Head {
		return c[0].Flow
	}
	for i := 1; i < len(c); i++ {
		if head <= c[i].Head {
			w := (head - c[i-1].Head) / (c[i].Head - c[i-1].Head)
			return c[i-1].Flow + w*(c[i].Flow-c[i-1].Flow)
		}
	}
	return 0
}

// to is the flow that the pump lifts to a level [m³/s]: where its curve meets static lift
// and friction.
func (p *lift) to(level float64) float64 {
	static := math.Max(0, level-p.from)
	low, high := 0.0, p.curveFlow(static)
	for high-low > 1e-9*p.curve[0].Flow {
		q := 0.5 * (low + high)
		if p.curveFlow(static+p.duct.head(q)) >= q {
			low = q
		} else {
			high = q
		}
	}
	return 0.5 * (low + high)
}

// shutOff is the level above which the pump lifts nothing [m].
func (p *lift) shutOff() float64 { return p.from + p.curve[len(p.curve)-1].Head }
