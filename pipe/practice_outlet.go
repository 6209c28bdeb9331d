package pipe

import (
	"fmt"
	"math"
)

func outletFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	o := l.Outlet
	if o.Kind == Lid && o.Weep == nil && l.pumped() {
		all = append(all, Finding{FindingNoWeep,
			"No weep slot under the lid: the elbow, and whatever lies below the lid's level, stays full after every cycle.", noSource, AtOutlet})
	}
	if o.Weep != nil && o.Weep.Height < 0.006 {
		all = append(all, Finding{FindingNarrowWeep,
			fmt.Sprintf("The weep slot is %s high; under 1/4 in (6 mm) it clogs and freezes over soon.", thin(o.Weep.Height)), "design assumption, no source", AtOutlet})
	}
	if o.DistanceToHouse < nearHouse && l.pumped() {
		all = append(all, Finding{FindingOutletNear,
			fmt.Sprintf("The outlet lies %s from the wall; within 10 ft (3 m) its water can find its way back.", far(o.DistanceToHouse)),
			"common advice of 10 to 20 ft; local ordinances range from 2 ft", AtOutlet})
	}
	return all
}

// nearHouse is 10 ft [m].
const nearHouse = 3.048

// erosion finds a steep end to daylight whose water washes the ground away. What speed the ground
// bears is from memory: 2-1/2 ft/s on bare loam (Fortier and Scobey 1926), 5 ft/s on turf (US Soil
// Conservation Service, SCS-TP-61, 1947); for gravel 5 ft/s too. Paving bears any.
func erosion(l *Layout, _ *Profile) []Finding {
	const turf, bare = 5 * 0.3048, 2.5 * 0.3048 // [m/s]
	last := len(l.Segments) - 1
	cover, _ := l.Over(last)
	if l.Outlet.Kind != Open || !l.pumped() || cover == Paved {
		return nil
	}
	bears, ground := turf, "turf"
	switch cover {
	case Bare:
		bears, ground = bare, "bare soil"
	case Gravel:
		ground = "gravel"
	}
	s := l.Segments[last]
	v := fullFlowSpeed(s)
	if v <= bears {
		return nil
	}
	return []Finding{{FindingErodingOutlet,
		fmt.Sprintf("The open end of %q is steep: running full, its water comes out at %.1f ft/s (%.1f m/s); %s bears about %.1f ft/s (%.1f m/s) before it washes out. A bed of stone takes the force.",
			s.Name, v/0.3048, v, ground, bears/0.3048, bears),
		"speeds: Fortier and Scobey 1926, bare loam; SCS-TP-61 1947, turf (from memory)", AtOutlet}}
}

// fullFlowSpeed is the speed of water that fills a bore without pressure [m/s]: Manning,
// v = R^(2/3) S^(1/2)/n with R a quarter of the bore (for example Chow 1959, eq. 5-6, from memory).
// 0 where the segment does not fall.
func fullFlowSpeed(s Segment) float64 {
	if s.Drop <= 0 || s.Size.Manning <= 0 {
		return 0
	}
	return math.Pow(s.Size.Bore()/4, 2.0/3) * math.Sqrt(s.Drop/s.Length) / s.Size.Manning
}

// icing finds water let go within 10 ft of paving that the line passes under. The layout knows of
// no other walk.
func icing(l *Layout, p *Profile) []Finding {
	if !l.pumped() {
		return nil
	}
	var all []Finding
	add := func(what, where string, x float64) {
		if away, name := l.toPaving(p, x); away < nearHouse {
			all = append(all, Finding{FindingIcingWalk,
				fmt.Sprintf("%s lets its water go %s the paving over %q: in frost it ices over.", what, awayWords(away), name),
				"walks must not be iced: city codes of Warrenville IL and Woodstock IL, notice of New London WI; 10 ft (3 m): " + noSource, where})
		}
	}
	for i, r := range l.Reliefs {
		add(fmt.Sprintf("Relief opening %d", i+1), AtRelief, r.DistanceToHouse)
	}
	add("The outlet", AtOutlet, l.Outlet.DistanceToHouse)
	return all
}

// toPaving is how far a distance x from the wall lies from the nearest paving over the line [m],
// and which segment that covers; +Inf where there is none.
func (l *Layout) toPaving(p *Profile, x float64) (away float64, name string) {
	away = math.Inf(1)
	for i, s := range l.Segments {
		if cover, _ := l.Over(i); s.Setting != Buried || cover != Paved {
			continue
		}
		r := p.Segments[i]
		if d := max(r.X0-x, x-r.X1, 0); d < away {
			away, name = d, s.Name
		}
	}
	return away, name
}

func awayWords(m float64) string {
	if m < 0.0254 {
		return "on"
	}
	return far(m) + " from"
}
