package sim

import "math"

// keptParting is how the last flow parted, kept until anything that it depends on changes: the same pump runs
// through the same open line for weeks.
type keptParting struct {
	of    partingOf
	clear []float64 // lowest free level of each relief opening [m]; nil: nothing is kept
	out   parting
}

// partingOf is what a parting depends on beside the relief openings.
type partingOf struct {
	rate   float64 // [m³/s]
	lift   *lift
	behind bool // ice shuts the line behind the joint
	takes  lineFlow
}

// holds reports whether what is kept still holds, and else begins anew with what a parting depends on now.
func (p *keptParting) holds(of partingOf, j *joint, snow float64) bool {
	same := p.clear != nil && p.of == of
	if p.clear == nil {
		p.clear = make([]float64, len(j.reliefs))
	}
	p.of = of
	for i, o := range j.reliefs {
		clear := o.clear(snow)
		same = same && p.clear[i] == clear
		p.clear[i] = clear
	}
	return same
}

// ductFlow is the flow [m³/s] that a head [m] drives through the duct.
type ductFlow struct{ head, flow float64 }

// ductFlow is what a head drives through the duct. The search for a level halves the same bracket each time, so
// that most heads come again; they are kept, each where its bits point.
func (b *behindJoint) ductFlow(head float64) float64 {
	k := &b.kept[math.Float64bits(head)*0x9e3779b97f4a7c15>>57]
	if k.head != head {
		*k = ductFlow{head, b.duct.flow(head)}
	}
	return k.flow
}
