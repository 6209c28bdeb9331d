package report

import (
	"fmt"

	"winterline/pipe"
	"winterline/sim"
)

// SummaryAirGap is the air between the house pipe's end and the water in the standpipe over the winter [m].
type SummaryAirGap struct {
	Lost      bool     `json:"lost"`
	OverWater *float64 `json:"least_over_water_m"` // below 0: the end stood in water
	At        *Moment  `json:"at"`                 // when the water stood highest
	OverLip   *float64 `json:"least_over_lip_m"`   // over the lowest way out that snow left free
}

func summaryAirGap(r *sim.Result) *SummaryAirGap {
	g := r.AirGap
	if g == nil {
		return nil
	}
	return &SummaryAirGap{Lost: g.Lost(), OverWater: metre(g.OverWater()), At: momentAt(r.Start, g.At), OverLip: metre(g.OverLip())}
}

// gapWords says how the air gap was lost; nothing where it was not.
func gapWords(r *sim.Result, s System) []string {
	if g := r.AirGap; g != nil && g.Lost() {
		return []string{"lost: " + gapLevels(g, s.thin) + ", highest " + spokenTime(r.Start, g.At)}
	}
	return nil
}

// gapLevels says where water and lip lay beside the house pipe's end.
func gapLevels(g *sim.AirGap, length func(float64) string) string {
	water, lip := "water in the standpipe reached the end of the house pipe", ""
	if over := -g.OverWater(); over >= smallestMove {
		water = "water in the standpipe stood up to " + length(over) + " over the end of the house pipe"
	}
	switch over := g.OverLip(); {
	case over >= smallestMove:
		lip = "the lowest way out lay " + length(over) + " under it"
	case over > -smallestMove:
		lip = "the lowest way out lay level with it"
	default:
		lip = "the lowest way out that snow left free lay " + length(-over) + " over it"
	}
	return water + "; " + lip
}

// airGapLost is found where water reached the house pipe's end.
func airGapLost(r *sim.Result) []pipe.Finding {
	g := r.AirGap
	if g == nil || !g.Lost() {
		return nil
	}
	both := func(m float64) string { return fmt.Sprintf("%s (%s)", US.thin(m), SI.thin(m)) }
	return []pipe.Finding{{Kind: pipe.FindingAirGapLost, Where: pipe.AtStandpipe, Source: "IRC P2902.3.1 for drinking water, twice the opening and at least 1 in; borrowed here",
		Sentence: "The air gap was lost: " + gapLevels(g, both) + ". Ice there shuts the house pipe too."}}
}

// gapLost says in how many pump runs water reached the house pipe's end; "" where it never did.
func (t *teller) gapLost() string {
	if t.AirGap == nil || !t.AirGap.Lost() {
		return ""
	}
	if words := t.gapUsed(); words != "" {
		return words
	}
	return "water that stood or ran in beside the pump's reached the end of the house pipe"
}
