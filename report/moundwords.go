package report

import (
	"strings"

	"winterline/pipe"
	"winterline/sim"
)

// thinnestIce is the thinnest ice on the ground that is told of [m]: it is as slippery as any.
const thinnestIce = 0.001

// outletMound names the mound at the far end, as sim does.
const outletMound = "outlet"

// moundWords says where water let go froze on the ground, how thick and for how long.
func moundWords(r *sim.Result, s System) []string {
	var lines []string
	for _, m := range r.Mounds {
		if m.Thickest < thinnestIce {
			continue
		}
		lines = append(lines, moundPlace(r, m)+" up to "+s.bothThin(m.Thickest)+" thick over "+s.bothAreas(m.SpreadArea)+", on "+
			spokenTime(r.Start, m.At)+"; ice lay there for "+spokenDuration(m.Hours*3600)+" in all")
	}
	if len(lines) == 0 {
		return nil
	}
	return append(lines, "(keep people off it, or grit it: water let go freezes where they walk)")
}

// moundPlace says where a mound lies, "at the far end" or "below relief opening 2".
func moundPlace(r *sim.Result, m sim.Mound) string {
	if m.Place == outletMound {
		return "at the far end"
	}
	if len(r.Layout.Reliefs) == 1 {
		return "below the relief opening"
	}
	return "below relief opening" + strings.TrimPrefix(m.Place, "relief")
}

// endWords names what ice on the ground shuts at the far end.
func endWords(r *sim.Result) string {
	if r.Layout.Outlet.Kind == pipe.Lid {
		return "the lid"
	}
	return "the open end"
}

// shutFirst names what shut first within a sentence, "the yard run".
func shutFirst(r *sim.Result) string {
	if r.Verdict.ClosedByMound {
		return endWords(r)
	}
	return segmentWords(r, r.Verdict.ClosedWhere)
}

// mounded says how ice on the ground came to shut the line first.
func mounded(r *sim.Result, s System) string {
	for _, m := range r.Mounds {
		if m.Place != outletMound {
			continue
		}
		words := "the water let go there had spread over " + s.bothAreas(m.SpreadArea) + " and frozen, until its ice stood over "
		if r.Layout.Outlet.Kind == pipe.Lid {
			return words + "the lid and held it down."
		}
		return words + "the whole of the opening."
	}
	return ""
}

// moundIce says how much ice lay at the place of a finding; "" for none.
func (t *teller) moundIce() string {
	worst := sim.Mound{}
	for _, m := range t.Mounds {
		if (m.Place == outletMound) == (t.where == pipe.AtOutlet) && m.Thickest > worst.Thickest {
			worst = m
		}
	}
	if worst.Thickest < thinnestIce {
		return ""
	}
	return "; up to " + t.litres(worst.Mass/1000) + " of it lay there as ice, " + t.units.bothThin(worst.Thickest) + " thick"
}
