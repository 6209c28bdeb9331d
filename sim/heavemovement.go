package sim

// Movement is what frost heave does to the line. Every figure is a range: at the low end the segregation potential is the
// least of the soil's class, with no water but the ground's own; at the high end it is the greatest, with all the
// water that it can draw. Heave is known to an order of magnitude.
//
// Left out, on the unsafe side: the heat of the water drawn up, which holds the frost shallower under a steeper
// gradient (a tenth more heave at a potential of 100e-5 mm²/(s K), several tenths at the high end of silt); lenses
// that grew before the record's first row; settling below the level as laid after the thaw. On the safe side: the
// weight of the ground.
type Movement struct {
	Low, High float64 // greatest heave of the ground's surface in the record [m]
	At        float64 // when the high end was greatest [s]; 0: no heave
	Joint     *JointMovement
	Gap       *GapMovement
	Outlet    *Lift
	Fall      []FallLeft // of the buried segments that run along, in flow order
}

// Lift is how far frost lifts a part of the line at most. At the low end only ice that grows under its foot
// lifts it, at the high end also ice beside it, in ground that has frozen to it.
type Lift struct {
	Low, High float64 // [m]
	At        float64 // when the high end was greatest [s]; 0: no heave
}

// JointMovement is the lift at the joint between house and buried line: of the standpipe, or of a glued
// line where it enters the ground. The house stays where it is.
type JointMovement struct {
	Lift
	Glued  bool
	Travel float64 // that the joint takes [m]; 0: glued
	Limit          // the travel used up; not for a glued joint
}

// GapMovement is what the lift leaves of the air gap in the standpipe: relief opening and
// standpipe rise with the ground, the house pipe's end does not.
type GapMovement struct {
	Clear float64 // house pipe's end above the bottom of the lowest relief opening, without frost [m]
	Least float64 // the same at the high end of the lift [m]; below 0: water reaches the house pipe's end before the relief lets it go
	Limit         // the gap used up
}

// Limit says when a movement first passed what it must not pass [s]; nil: never.
type Limit struct {
	May    *float64 // at the high end of the range
	Surely *float64 // at the low end
}

// movement is what frost heave did; nil where nothing is buried, or where the texture class of
// ground that froze is not known.
func (w *winter) movement() *Movement {
	own := w.ground.own()
	if own.frost == nil {
		return nil
	}
	m := mover{w, map[*ground][]*riser{}}
	surface := m.add(own, 0, 0)
	out := &Movement{}
	joint := m.joint(out)
	outlet := m.outlet()
	runs := m.runs()
	for _, g := range w.ground.list {
		if len(m.risers[g]) > 0 && !follow(g, m.risers[g]) {
			return nil
		}
	}
	out.Low, out.High, out.At = surface.lift.Low, surface.lift.High, surface.lift.At
	if joint != nil {
		out.Joint.Lift = joint.lift
	}
	if out.Gap != nil {
		out.Gap.Least = out.Gap.Clear - joint.lift.High
	}
	if outlet != nil {
		out.Outlet = &outlet.lift
	}
	for _, r := range runs {
		out.Fall = append(out.Fall, fallLeft(w.k.Profile, r.segment, w.k.Layout.Segments[r.segment].Size.Bore(), r.riser.lift))
	}
	return out
}

// slipEvents tells when frost may have lifted the standpipe by more than its joint takes.
func slipEvents(m *Movement) []Event {
	if m == nil || m.Joint == nil || m.Joint.May == nil {
		return nil
	}
	travel := m.Joint.Travel
	return []Event{{Time: *m.Joint.May, Kind: EventSlipUsedUp, Where: "standpipe", Value: &travel, Unit: "m",
		Meaning: "frost may have lifted the standpipe by more than the slip joint takes, which is this much"}}
}
