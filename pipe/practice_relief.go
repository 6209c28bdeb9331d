package pipe

import (
	"fmt"
	"math"
)

func reliefFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	if len(l.Reliefs) == 0 && l.pumped() {
		all = append(all, Finding{Kind: FindingNoRelief,
			Sentence: "No relief opening: when the line freezes shut, the pump has nowhere to send its water.", Source: noSource})
	}
	for i, r := range l.Reliefs {
		if r.FacesHouse {
			all = append(all, Finding{FindingReliefFacesHouse,
				fmt.Sprintf("Relief opening %d faces the house: its water runs to the foundation and can come back to the basin.", i+1), noSource, AtRelief})
		}
	}
	return all
}

// RequiredAirGap is how high a pipe with an opening of a bore [m] is to end above the water that can stand
// below it [m].
//
// Source: IRC P2902.3.1, twice the effective opening and at least 1 in, away from walls; a rule for
// drinking water.
func RequiredAirGap(bore float64) float64 { return max(2*bore, 0.0254) }

// airGap compares the house pipe's end with the lowest opening of the standpipe, over which water
// stands when the line is shut.
func airGap(l *Layout, _ *Profile) []Finding {
	sp := l.Standpipe
	if sp == nil {
		return nil
	}
	way, level := "the top of the standpipe", sp.Rim
	for _, r := range l.Reliefs {
		if r.Segment < 0 && r.Height < level {
			way, level = "the relief opening's bottom", r.Height
		}
	}
	const source = "IRC P2902.3.1 for drinking water, twice the opening and at least 1 in; borrowed here"
	gap := sp.HousePipeEnd - level
	need := RequiredAirGap(l.Segments[sp.After].Size.Bore())
	switch {
	case gap <= 0:
		return []Finding{{Kind: FindingNoAirGap, Source: source,
			Sentence: "The house pipe ends no higher than " + way + ": with the line shut its end stands in water, and ice there shuts the house pipe too."}}
	case gap < need:
		return []Finding{{Kind: FindingSmallAirGap, Source: source,
			Sentence: fmt.Sprintf("The house pipe ends %s above %s; %s or more keeps it clear of the water that stands there while the relief runs.", both(gap), way, both(need))}}
	}
	return nil
}

// reliefSize finds relief openings that cannot take what the pump sends when the line is shut, so
// that the rest goes over the rim. Friction in the house pipe is left out: the pump sends at most
// this much, which is the safe side.
func reliefSize(l *Layout, _ *Profile) []Finding {
	if l.Standpipe == nil || l.Basin == nil || len(l.Reliefs) == 0 {
		return nil
	}
	sent, known := l.flowAtRim()
	passed, area := 0.0, 0.0
	for _, r := range l.Reliefs {
		passed += r.flowBelow(l.Standpipe.Rim)
		area += r.Width * r.OpeningHeight
	}
	if !known || passed >= sent {
		return nil
	}
	sentence := fmt.Sprintf("With the line shut the pump sends up to %s, and the relief passes %s before water comes out of the top of the standpipe", bothFlows(sent), bothFlows(passed))
	if passed > 0 {
		sentence += fmt.Sprintf(": it has %s, and needs about %s at that height", bothAreas(area), bothAreas(area*sent/passed))
	}
	return []Finding{{FindingSmallRelief, sentence + ".",
		"orifice with a coefficient of 0.61, as measured on sharp edges: Encyclopaedia Britannica 1911, Hydraulics; the rule itself: " + noSource, AtRelief}}
}

// flowAtRim is what the main pump lifts from its starting level to the top of the standpipe, or to the
// house pipe's end above it [m³/s]; false: no pump is known.
func (l *Layout) flowAtRim() (float64, bool) {
	lift := max(l.Standpipe.Rim, l.Standpipe.HousePipeEnd) + l.Basin.FloorBelowGround + l.Basin.BottomBelowFloor - l.Basin.FloatOn
	for _, p := range l.Pumps {
		if p.Role == MainPump && len(p.Curve) > 0 {
			return curveFlow(p.Curve, lift), true
		}
	}
	return 0, false
}

// curveFlow is the flow of a pump curve at a head [m], straight between its points [m³/s].
func curveFlow(curve []CurvePoint, head float64) float64 {
	if head <= curve[0].Head {
		return curve[0].Flow
	}
	for i, b := range curve[1:] {
		if a := curve[i]; head <= b.Head {
			return a.Flow + (b.Flow-a.Flow)*(head-a.Head)/(b.Head-a.Head)
		}
	}
	return 0
}

// flowBelow is what the opening passes with water standing at a level above ground [m³/s]: an
// orifice, Q = C A √(2 g h) with h from its centre. It passes a little less while the water stands
// below its top.
func (r Relief) flowBelow(level float64) float64 {
	const coefficient, gravity = 0.61, 9.80665
	head := level - r.Height - r.OpeningHeight/2
	return coefficient * r.Width * r.OpeningHeight * math.Sqrt(2*gravity*max(0, head))
}

// bothFlows shows a flow in both unit systems, bothAreas an area.
func bothFlows(q float64) string {
	return fmt.Sprintf("%.0f gal/min (%.0f L/min)", q/6.30901964e-5, q*60e3)
}

func bothAreas(a float64) string {
	return fmt.Sprintf("%.1f in² (%.0f cm²)", a/(0.0254*0.0254), a*1e4)
}
