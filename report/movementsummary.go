package report

import (
	"time"

	"winterline/sim"
)

// SummaryMovement says what frost heave did [m]: the low and the high end of what is likely in such soil.
type SummaryMovement struct {
	Surface SummaryLift       `json:"surface"` // of the ground
	Joint   *SummaryJointMove `json:"joint"`   // null: the line never enters the ground
	Gap     *SummaryGapMove   `json:"air_gap"` // null: no relief opening below the house pipe's end in a standpipe
	Outlet  *SummaryLift      `json:"outlet"`  // null: the line ends above the ground
	Fall    []SummaryFall     `json:"fall"`    // of the buried segments
}

// SummaryLift is a greatest lift [m] and when its high end was reached.
type SummaryLift struct {
	Low  *float64 `json:"low_m"`
	High *float64 `json:"high_m"`
	At   *Moment  `json:"at"` // null: no lift
}

// SummaryJointMove is the lift at the joint, and when it passed the joint's travel at each end of the range.
type SummaryJointMove struct {
	SummaryLift
	Glued      bool     `json:"glued"`
	Travel     *float64 `json:"slip_travel_m"` // null: glued
	MayUseUp   *Moment  `json:"may_be_used_up"`
	SureUsedUp *Moment  `json:"used_up_for_sure"`
}

// SummaryGapMove is the air gap over the lowest relief opening [m], and when it closed.
type SummaryGapMove struct {
	Clear      *float64 `json:"without_frost_m"`
	Least      *float64 `json:"least_m"` // below 0: closed
	MayUseUp   *Moment  `json:"may_be_used_up"`
	SureUsedUp *Moment  `json:"used_up_for_sure"`
}

// SummaryFall is what uneven heave can leave of a segment's fall [m].
type SummaryFall struct {
	Segment string   `json:"segment"`
	Length  *float64 `json:"length_m"`
	Fall    *float64 `json:"fall_m"`
	Low     *float64 `json:"uneven_low_m"`
	High    *float64 `json:"uneven_high_m"`
	Left    *float64 `json:"least_fall_m"` // below 0: back-fall
	Sag     *float64 `json:"low_spot_as_laid_m"`
	LowSpot *float64 `json:"low_spot_m"`
	At      *float64 `json:"low_spot_at_m"` // distance from the wall; null: none
	Water   *float64 `json:"standing_l"`    // that the worst uneven heave leaves in the segment
}

// summaryMovement gives the movement of a result; nil where it has none.
func summaryMovement(r *sim.Result) *SummaryMovement {
	m := r.Movement
	if m == nil {
		return nil
	}
	out := &SummaryMovement{Surface: summaryLift(r.Start, sim.Lift{Low: m.Low, High: m.High, At: m.At}), Fall: []SummaryFall{}}
	if j := m.Joint; j != nil {
		out.Joint = &SummaryJointMove{SummaryLift: summaryLift(r.Start, j.Lift), Glued: j.Glued,
			MayUseUp: momentIf(r.Start, j.May), SureUsedUp: momentIf(r.Start, j.Surely)}
		if !j.Glued {
			out.Joint.Travel = metre(j.Travel)
		}
	}
	if g := m.Gap; g != nil {
		out.Gap = &SummaryGapMove{metre(g.Clear), metre(g.Least), momentIf(r.Start, g.May), momentIf(r.Start, g.Surely)}
	}
	if m.Outlet != nil {
		lift := summaryLift(r.Start, *m.Outlet)
		out.Outlet = &lift
	}
	for _, f := range m.Fall {
		out.Fall = append(out.Fall, summaryFall(r, f))
	}
	return out
}

func summaryFall(r *sim.Result, f sim.FallLeft) SummaryFall {
	out := SummaryFall{
		Segment: r.Layout.Segments[f.Segment].Name, Length: metre(f.Length), Fall: metre(f.Fall), Low: metre(f.Low), High: metre(f.High),
		Left: metre(f.Left), Sag: metre(f.Sag), LowSpot: metre(f.LowSpot), Water: finite(roundTo(f.Water*litresPerM3, 2)),
	}
	if f.LowSpot > 0 {
		out.At = metre(f.At)
	}
	return out
}

func summaryLift(start time.Time, l sim.Lift) SummaryLift {
	out := SummaryLift{Low: metre(l.Low), High: metre(l.High)}
	if l.High > 0 {
		out.At = momentAt(start, l.At)
	}
	return out
}
