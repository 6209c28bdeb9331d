package report

import (
	"cmp"
	"slices"
	"strings"

	"winterline/pipe"
	"winterline/sim"
)

// mostFindings is how many findings the screen of a run names.
const mostFindings = 5

// practiceWords names the findings that did something in this winter, worst first, and says where
// the rest and the sources stand. Nothing where there is none at all.
func practiceWords(r *sim.Result, o Options) []string {
	all := slices.Concat(o.Findings, foundInWinter(r))
	if len(all) == 0 {
		return nil
	}
	var lines []string
	for _, f := range worstFindings(r, all) {
		lines = append(lines, findingName(f)+": "+findingEffect(f, r, o.System))
	}
	switch rest := len(all) - len(lines); {
	case len(lines) == 0:
		return []string{"nothing that the trade would do otherwise made a difference in this winter (" + plural(float64(rest), "finding") + ": report.html)"}
	case rest > 0:
		return append(lines, "with "+number(float64(rest), 0)+" more, why, and sources: report.html")
	}
	return append(lines, "why, and sources: report.html")
}

// findingNames are the kinds whose word in summary.json does not say enough by itself.
var findingNames = map[string]string{
	pipe.FindingNoRelief:         "no relief opening",
	pipe.FindingReliefFacesHouse: "relief opening that faces the house",
	pipe.FindingSmallRelief:      "small relief opening",
	pipe.FindingReliefUnderSnow:  "relief opening under snow",
	pipe.FindingReliefFrosts:     "relief opening that can frost shut below " + US.bothTemperatures(hardFrost),
	pipe.FindingGluedLine:        "line glued to the house pipe",
	pipe.FindingBackupSameLine:   "backup pump on the same line",
	pipe.FindingNoBackup:         "no backup pump",
	pipe.FindingSharedDownspout:  "roof water in the same line",
	pipe.FindingSmallLine:        "pipe under 4 in",
	pipe.FindingCorrugated:       "corrugated pipe",
	pipe.FindingClearedPaving:    "paving cleared of snow",
	pipe.FindingNoWeep:           "no drain slot under the lid",
	pipe.FindingNarrowWeep:       "narrow drain slot under the lid",
	pipe.FindingOutletNear:       "outlet near the wall",
	pipe.FindingErodingOutlet:    "outlet that washes out the ground",
	pipe.FindingIcingWalk:        "water that ices a walk",
	pipe.FindingPocketInClay:     "rock pit in clay",
	pipe.FindingUnpaintedPVC:     "bare PVC in the sun",
	pipe.FindingManyStarts:       "pump that starts often",
	pipe.FindingShortRuns:        "runs under 10 s",
}

// findingName names a finding in a few words, "no relief" or "sag (yard run)".
func findingName(f pipe.Finding) string {
	name, known := findingNames[f.Kind]
	if !known {
		name = strings.ReplaceAll(f.Kind, "-", " ")
	}
	switch f.Where {
	case "", pipe.AtOutlet, pipe.AtRelief, pipe.AtStandpipe:
		return name
	}
	return name + " (" + f.Where + ")"
}

// worstFindings are those that did something, the worst first and no more than the screen has
// room for.
func worstFindings(r *sim.Result, all []pipe.Finding) []pipe.Finding {
	type weighed struct {
		pipe.Finding
		harm
	}
	var did []weighed
	for _, f := range all {
		if words := findingEffect(f, r, SI); words != noEffect && !strings.HasPrefix(words, notSimulated) {
			did = append(did, weighed{f, harmOf(f, r)})
		}
	}
	slices.SortStableFunc(did, func(a, b weighed) int {
		return cmp.Or(cmp.Compare(b.kind, a.kind), cmp.Compare(b.size, a.size))
	})
	var out []pipe.Finding
	for _, w := range did[:min(mostFindings, len(did))] {
		out = append(out, w.Finding)
	}
	return out
}
