package report

import "winterline/sim"

// SummaryMound is the ice that water let go made on the ground at one place.
type SummaryMound struct {
	Place      string   `json:"place"` // "outlet", or "relief 1" and so on in the layout's order
	SpreadArea *float64 `json:"spread_area_m2"`
	LetGo      *float64 `json:"let_go_l"`  // water that came
	RanOff     *float64 `json:"ran_off_l"` // or soaked in
	Thickest   *float64 `json:"thickest_m"`
	Mass       *float64 `json:"thickest_kg"` // ice at its thickest
	At         *Moment  `json:"thickest_at"` // null: no ice
	Hours      *float64 `json:"hours_with_ice"`
	Left       *float64 `json:"left_kg"`     // ice and water there at the end
	LeftIce    *float64 `json:"left_ice_kg"` // the ice of it
}

// summaryMounds gives the mounds of a result.
func summaryMounds(r *sim.Result) []SummaryMound {
	out := []SummaryMound{}
	for _, m := range r.Mounds {
		one := SummaryMound{
			Place: m.Place, SpreadArea: finite(m.SpreadArea), LetGo: summaryLitres(m.Arrived), RanOff: summaryLitres(m.RanOff),
			Thickest: metre(m.Thickest), Mass: finite(roundTo(m.Mass, 6)), Hours: finite(roundTo(m.Hours, 4)),
			Left: finite(roundTo(m.Left, 6)), LeftIce: finite(roundTo(m.LeftIce, 6)),
		}
		if m.Thickest > 0 {
			one.At = momentAt(r.Start, m.At)
		}
		out = append(out, one)
	}
	return out
}
