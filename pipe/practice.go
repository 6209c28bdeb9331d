package pipe

import "fmt"

// Finding is something about an installation that the trade would do otherwise; it needs no
// simulation and is no fault of the input.
type Finding struct {
	Kind     string // stable word, such as "no-relief"
	Sentence string
	Source   string
}

// Practice returns the findings for a layout and its profile, always in the same order.
func Practice(l *Layout, p *Profile) []Finding {
	var all []Finding
	for _, rule := range []func(*Layout, *Profile) []Finding{
		reliefFindings, airGap, gluedLine, pumpFindings, runFindings, clearedPaving, falls, outletFindings, pocketFindings, standpipeFindings,
	} {
		all = append(all, rule(l, p)...)
	}
	return all
}

// pumped says whether the layout is a house's line rather than a single pipe for a check.
func (l *Layout) pumped() bool { return l.Basin != nil || len(l.Pumps) > 0 || l.Standpipe != nil }

func reliefFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	if len(l.Reliefs) == 0 && l.pumped() {
		all = append(all, Finding{"no-relief", "No relief opening: when the line freezes shut, the pump has nowhere to send its water.", noSource})
	}
	for i, r := range l.Reliefs {
		if r.FacesHouse {
			all = append(all, Finding{"relief-faces-house",
				fmt.Sprintf("Relief opening %d faces the house: its water runs to the foundation and can come back to the basin.", i+1), noSource})
		}
	}
	return all
}

// airGap compares the house pipe's end with the lowest opening of the standpipe, over which water
// stands when the line is shut.
func airGap(l *Layout, _ *Profile) []Finding {
	sp := l.Standpipe
	if sp == nil {
		return nil
	}
	way, level := "the standpipe's rim", sp.Rim
	for _, r := range l.Reliefs {
		if r.Segment < 0 && r.Height < level {
			way, level = "the relief opening's bottom", r.Height
		}
	}
	const source = "IRC P2902.3.1 for drinking water, twice the opening and at least 1 in; borrowed here"
	gap := sp.HousePipeEnd - level
	need := max(2*l.Segments[sp.After].Size.Bore(), 0.0254)
	switch {
	case gap <= 0:
		return []Finding{{"no-air-gap", "The house pipe ends no higher than " + way + ": with the line shut its end stands in water, and ice there shuts the house pipe too.", source}}
	case gap < need:
		return []Finding{{"small-air-gap", fmt.Sprintf("The house pipe ends %s above %s; %s or more keeps it clear of the water that stands there while the relief runs.",
			both(gap), way, both(need)), source}}
	}
	return nil
}

func gluedLine(l *Layout, _ *Profile) []Finding {
	if l.Standpipe != nil {
		return nil
	}
	for _, s := range l.Segments {
		if s.Setting == Buried && l.pumped() {
			return []Finding{{"glued-line", "The buried line is glued to the house pipe: ice in it stops the pump, frost movement strains the joint, and water between an ice plug and the check valve can split the pipe.", noSource}}
		}
	}
	return nil
}

func pumpFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	if l.Basin != nil && !l.Basin.CheckValve {
		all = append(all, Finding{"no-check-valve", "No check valve: the water in the house pipe runs back after every cycle and is pumped again.",
			"full-flow check valve: Chicago plumbing code 18-29-1111.3.4; NDSU Extension AE1573"})
	}
	shared := false
	for _, p := range l.Pumps {
		shared = shared || p.Role == BackupPump && !p.OwnLine
	}
	if shared && len(l.Reliefs) == 0 {
		all = append(all, Finding{"backup-same-line", "The backup pump uses the same line, and the line has no relief: ice stops both pumps at once.", noSource})
	}
	if len(l.ExtraInflows) > 0 {
		all = append(all, Finding{"shared-downspout", "Roof water shares the line: meltwater trickles through it at 0 °C, freezes as it goes, and the leaves it brings clog the slot.", noSource})
	}
	return all
}

// smallBore is below any 4 in pipe and above any 3 in pipe [m].
const smallBore = 0.090

func runFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	for i, s := range l.Segments {
		gravity := l.Standpipe != nil && i > l.Standpipe.After
		if gravity && s.Setting == Buried && s.Size.Bore() < smallBore {
			all = append(all, Finding{"small-line", fmt.Sprintf("%q is smaller than 4 in: it holds a deeper pool for the same water and closes sooner.", s.Name),
				"IRC 2021 P3302.1 asks for 4 in in subsoil drains; borrowed here"})
		}
		if s.Size.ValleyShare > 0 {
			all = append(all, Finding{"corrugated", fmt.Sprintf("%q is corrugated: water stays in its valleys at any fall.", s.Name),
				"rigid pipe: Byron MN 51.36, Luverne MN and Steamboat Rock IA ask for it"})
		}
		if s.Setting == Buried && s.Sag > 0 {
			all = append(all, Finding{"sag", fmt.Sprintf("%q sags by %s: water stands there after every cycle.", s.Name, both(s.Sag)), noSource})
		}
	}
	return all
}

// clearedPaving finds bare pipe that lies shallow where the frost goes deepest.
func clearedPaving(l *Layout, p *Profile) []Finding {
	const deep = 42 * 0.0254 // [m]
	var all []Finding
	for i, s := range l.Segments {
		cover, snow := l.Over(i)
		if s.Setting != Buried || cover != Paved || snow > 0 || len(s.Insulation) > 0 || !l.pumped() {
			continue
		}
		if least := min(p.CoverAt(i, 0), p.CoverAt(i, 1)); least < deep {
			all = append(all, Finding{"cleared-paving", fmt.Sprintf("%q lies %s deep under cleared paving: without snow and turf the frost goes deepest there.", s.Name, both(least)),
				"42 in and more: the least frost depth in Minnesota Rules 1303.1600 (from memory); borrowed here"})
		}
	}
	return all
}

// falls finds outdoor runs that drain too slowly. A riser is not meant to drain outward.
func falls(l *Layout, p *Profile) []Finding {
	const least = 1.0 / 96 // 1/8 in/ft
	var all []Finding
	for i, s := range l.Segments {
		r := p.Segments[i]
		flat := r.X1 - r.X0
		if flat < s.Length/2 || !l.pumped() {
			continue
		}
		if fall := (r.Z0 - r.Z1) / flat; fall < least*(1-1e-6) {
			all = append(all, Finding{"flat-run", fmt.Sprintf("%q falls %.1f %%; 1/8 in/ft (1 %%) is the least that drains by itself.", s.Name, 100*fall),
				"model plumbing code table 704.1 for 3 to 6 in pipe"})
		}
	}
	return all
}

func outletFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	o := l.Outlet
	if o.Kind == Lid && o.Weep == nil && l.pumped() {
		all = append(all, Finding{"no-weep", "No weep slot under the lid: the elbow, and whatever lies below the lid's level, stays full after every cycle.", noSource})
	}
	if o.Weep != nil && o.Weep.Height < 0.006 {
		all = append(all, Finding{"narrow-weep", fmt.Sprintf("The weep slot is %s high; under 1/4 in (6 mm) it clogs and freezes over soon.", both(o.Weep.Height)), "design assumption, no source"})
	}
	if o.DistanceToHouse < 3.048 && l.pumped() {
		all = append(all, Finding{"outlet-near", fmt.Sprintf("The outlet lies %s from the wall; within 10 ft (3 m) its water can find its way back.", both(o.DistanceToHouse)),
			"common advice of 10 to 20 ft; local ordinances range from 2 ft"})
	}
	return all
}

func pocketFindings(l *Layout, _ *Profile) []Finding {
	const least = 12.7e-3 / 3600 // 0.5 in/h
	if l.Pocket == nil {
		return nil
	}
	soil := l.Site.SoilAt(l.Pocket.Depth)
	if soil.SaturatedConductivity >= least {
		return nil
	}
	return []Finding{{"pocket-in-clay", fmt.Sprintf("The rock pocket lies in %s, which drinks slowly: it stays full, and then so does the line.", soil.Texture),
		"at least 0.5 in/h for a dry well: New Jersey Stormwater BMP Manual 9.3 (2016)"}}
}

func standpipeFindings(l *Layout, _ *Profile) []Finding {
	sp := l.Standpipe
	if sp == nil || sp.Painted || sp.Size.Material.Name != "PVC" {
		return nil
	}
	return []Finding{{"unpainted-standpipe", "The standpipe is not painted: sunlight makes bare PVC lose impact strength; light water-based paint stops it.",
		"Uni-Bell UNI-TR-5, two-year weathering study, as summarised by the trade"}}
}
