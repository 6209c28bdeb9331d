package pipe

import "fmt"

// Finding is something about an installation that the trade would do otherwise; it needs no
// simulation and is no fault of the input.
type Finding struct {
	Kind     string // one of the kinds below
	Sentence string
	Source   string // of the rule, or that it has none
	Where    string // name of the segment it is about, or one of the places below; "": the whole line
}

// Kinds of finding, as written in summary.json. Practice makes all but the last five, which depend
// on a winter as well.
const (
	FindingNoRelief         = "no-relief"
	FindingReliefFacesHouse = "relief-faces-house"
	FindingSmallRelief      = "small-relief"
	FindingNoAirGap         = "no-air-gap"
	FindingSmallAirGap      = "small-air-gap"
	FindingGluedLine        = "glued-line"
	FindingNoCheckValve     = "no-check-valve"
	FindingBackupSameLine   = "backup-same-line"
	FindingNoBackup         = "no-backup"
	FindingSharedDownspout  = "shared-downspout"
	FindingSmallLine        = "small-line"
	FindingCorrugated       = "corrugated"
	FindingSag              = "sag"
	FindingClearedPaving    = "cleared-paving"
	FindingFlatRun          = "flat-run"
	FindingNoWeep           = "no-weep"
	FindingNarrowWeep       = "narrow-weep"
	FindingOutletNear       = "outlet-near"
	FindingErodingOutlet    = "eroding-outlet"
	FindingIcingWalk        = "icing-walk"
	FindingPocketInClay     = "pocket-in-clay"
	FindingUnpaintedPVC     = "unpainted-pvc"

	FindingReliefUnderSnow = "relief-under-snow"
	FindingReliefFrosts    = "relief-frosts-shut"
	FindingAirGapLost      = "air-gap-lost"
	FindingManyStarts      = "many-starts"
	FindingShortRuns       = "short-runs"
)

// Places of a finding that are no segment.
const (
	AtOutlet    = "outlet"
	AtRelief    = "relief"
	AtStandpipe = "standpipe"
)

// Practice returns the findings for a layout and its profile, always in the same order.
func Practice(l *Layout, p *Profile) []Finding {
	var all []Finding
	for _, rule := range []func(*Layout, *Profile) []Finding{
		reliefFindings, reliefSize, airGap, gluedLine, pumpFindings, runFindings, clearedPaving, falls,
		outletFindings, erosion, icing, pocketFindings, unpainted,
	} {
		all = append(all, rule(l, p)...)
	}
	return all
}

// thin shows a length of an inch or so in both unit systems, far one across the yard.
func thin(m float64) string { return fmt.Sprintf("%.3g in (%.0f mm)", m/0.0254, m*1000) }

func far(m float64) string { return fmt.Sprintf("%.1f ft (%.1f m)", m/0.3048, m) }

// pumped says whether the layout is a house's line rather than a single pipe for a check.
func (l *Layout) pumped() bool { return l.Basin != nil || len(l.Pumps) > 0 || l.Standpipe != nil }

func gluedLine(l *Layout, _ *Profile) []Finding {
	if l.Standpipe != nil {
		return nil
	}
	for _, s := range l.Segments {
		if s.Setting == Buried && l.pumped() {
			return []Finding{{Kind: FindingGluedLine,
				Sentence: "The buried line is glued to the house pipe: ice in it stops the pump, frost movement strains the joint, and water between an ice plug and the check valve can split the pipe.",
				Source:   noSource}}
		}
	}
	return nil
}

func pumpFindings(l *Layout, _ *Profile) []Finding {
	var all []Finding
	if l.Basin != nil && !l.Basin.CheckValve {
		all = append(all, Finding{Kind: FindingNoCheckValve,
			Sentence: "No check valve: the water in the house pipe runs back after every cycle and is pumped again.",
			Source:   "full-flow check valve: Chicago plumbing code 18-29-1111.3.4; NDSU Extension AE1573"})
	}
	backup, shared := false, false
	for _, p := range l.Pumps {
		backup = backup || p.Role == BackupPump
		shared = shared || p.Role == BackupPump && !p.OwnLine
	}
	if shared && len(l.Reliefs) == 0 {
		all = append(all, Finding{Kind: FindingBackupSameLine,
			Sentence: "The backup pump uses the same line, and the line has no relief: ice stops both pumps at once.", Source: noSource})
	}
	if !backup && l.Basin != nil && l.pumped() {
		all = append(all, Finding{Kind: FindingNoBackup,
			Sentence: "No backup pump: in a power cut, or when the pump fails, the basin fills until it runs over.", Source: noSource})
	}
	if len(l.ExtraInflows) > 0 {
		all = append(all, Finding{Kind: FindingSharedDownspout,
			Sentence: "Roof water shares the line: meltwater trickles through it at 32 °F (0 °C), freezes as it goes, and the leaves it brings clog the slot.", Source: noSource})
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
			all = append(all, Finding{FindingSmallLine, fmt.Sprintf("%q is smaller than 4 in: it holds a deeper pool for the same water and closes sooner.", s.Name),
				"IRC 2021 P3302.1 asks for 4 in in subsoil drains; borrowed here", s.Name})
		}
		if s.Size.ValleyShare > 0 {
			all = append(all, Finding{FindingCorrugated, fmt.Sprintf("%q is corrugated: water stays in its valleys at any fall.", s.Name),
				"rigid pipe: Byron MN 51.36, Luverne MN and Steamboat Rock IA ask for it", s.Name})
		}
		if s.Setting == Buried && s.Sag > 0 {
			all = append(all, Finding{FindingSag, fmt.Sprintf("%q sags by %s: water stands there after every cycle.", s.Name, thin(s.Sag)), noSource, s.Name})
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
			all = append(all, Finding{FindingClearedPaving, fmt.Sprintf("%q lies %s deep under cleared paving: without snow and turf the frost goes deepest there.", s.Name, both(least)),
				"42 in and more: the least frost depth in Minnesota Rules 1303.1600 (from memory); borrowed here", s.Name})
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
			all = append(all, Finding{FindingFlatRun, fmt.Sprintf("%q falls %.1f %%; 1/8 in/ft (1 %%) is the least that drains by itself.", s.Name, 100*fall),
				"model plumbing code table 704.1 for 3 to 6 in pipe", s.Name})
		}
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
	return []Finding{{Kind: FindingPocketInClay,
		Sentence: fmt.Sprintf("The rock pit lies in %s, which takes up water slowly: it stays full, and then so does the line.", soil.Texture),
		Source:   "at least 0.5 in/h for a dry well: New Jersey Stormwater BMP Manual 9.3 (2016)"}}
}

// unpainted finds bare PVC in the sun: the standpipe, and what lies in the open without insulation.
func unpainted(l *Layout, _ *Profile) []Finding {
	var all []Finding
	add := func(size Size, painted bool, what, where string) {
		if painted || size.Material.Name != "PVC" {
			return
		}
		all = append(all, Finding{FindingUnpaintedPVC,
			what + " is not painted: sunlight makes bare PVC lose impact strength; light water-based paint stops it.",
			"Uni-Bell UNI-TR-5, two-year weathering study, as summarised by the trade", where})
	}
	if l.Standpipe != nil {
		add(l.Standpipe.Size, l.Standpipe.Painted, "The standpipe", AtStandpipe)
	}
	for _, s := range l.Segments {
		if s.Setting == OpenAir && len(s.Insulation) == 0 && l.pumped() {
			add(s.Size, s.Painted, fmt.Sprintf("%q", s.Name), s.Name)
		}
	}
	return all
}
