package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// results are the mounds to which water came.
func (s *mounds) results() []Mound {
	var out []Mound
	if s.outlet != nil && s.lip.arrived.value() > 0 {
		out = append(out, s.outletResult())
	}
	for _, m := range s.reliefs {
		if m != nil && m.arrived.value() > 0 {
			out = append(out, m.result())
		}
	}
	return out
}

// outletResult is what became of all that came out of the line's end.
func (s *mounds) outletResult() Mound {
	out, near := s.outlet.result(), s.lip
	out.RanOff += near.ranOff.value()/heat.WaterDensity - out.Arrived
	out.Arrived = near.arrived.value() / heat.WaterDensity
	out.Left += near.mass
	return out
}

// row keeps the thickness of the ice at a weather row.
func (s *mounds) row(h *Hourly) {
	if s.outlet != nil {
		h.MoundOutlet = append(h.MoundOutlet, s.lip.thickness())
	}
	thickest := 0.0
	for _, m := range s.reliefs {
		thickest = math.Max(thickest, m.thickness())
	}
	if len(s.reliefs) > 0 {
		h.MoundRelief = append(h.MoundRelief, thickest)
	}
}

// ground names where a mound lies, as events do.
func (m *mound) ground() string { return "ground at " + m.place }

// reliefIced notes that ice has come over the bottom of a relief opening.
func (r *recorder) reliefIced(m *mound, t float64) {
	r.event(t, EventReliefIced, m.ground(), m.edge, "m", "ice from the water let go has grown over the bottom of the relief opening; its thickness")
}

// endTurned notes that the ice on the ground shut the line's end, or let go of it.
func (r *recorder) endTurned(t float64) {
	w, m := r.w, r.w.mounds.lip
	last := w.line.cells[len(w.line.cells)-1]
	if w.line.iced {
		words := "ice from the water let go has grown over the open end and shuts the line there; its thickness"
		if w.k.Layout.Outlet.Kind == pipe.Lid {
			words = "ice from the water let go has grown over the lid, which lifts no more; its thickness"
		}
		r.event(t, EventLidFrozen, m.ground(), m.edge, "m", words)
	} else {
		r.event(t, EventReopened, m.ground(), moundThawed*m.edge, "m", "the ice on the ground has melted off the line's end; its thickness")
	}
	none := r.verdict.Closed == nil
	r.lineTurned(last, !w.line.findPlugs(w.shut).none(), t)
	r.verdict.ClosedByMound = r.verdict.ClosedByMound || none && r.verdict.Closed != nil
}
