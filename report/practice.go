package report

import (
	"slices"

	"winterline/pipe"
	"winterline/sim"
)

// SummaryFinding is something that the trade would do otherwise, and what it did in this winter.
type SummaryFinding struct {
	Kind     string `json:"kind"`     // stable word, such as "no-relief"
	Sentence string `json:"sentence"` // what is found
	Source   string `json:"source"`   // of the rule, or that it has none
	Effect   string `json:"effect"`   // what it did, SI units first; "": nothing was simulated that could tell
}

// winterFindings are the layout's findings and those that only show in a winter, each with what it
// did in this one.
func winterFindings(r *sim.Result, layout []pipe.Finding) []SummaryFinding {
	out := []SummaryFinding{}
	for _, f := range slices.Concat(layout, foundInWinter(r)) {
		out = append(out, SummaryFinding{f.Kind, f.Sentence, f.Source, findingEffect(f, r, SI)})
	}
	return out
}

// layoutFindings are the layout's findings where no winter of the line was simulated.
func layoutFindings(layout []pipe.Finding) []SummaryFinding {
	out := []SummaryFinding{}
	for _, f := range layout {
		out = append(out, SummaryFinding{Kind: f.Kind, Sentence: f.Sentence, Source: f.Source})
	}
	return out
}

const (
	noEffect     = "no effect in this winter"
	notSimulated = "not simulated"
)

// findingEffect says what a finding did in a simulated winter, in a few words without a full stop, such
// as "let 12 L go towards the wall"; where it did nothing, "no effect in this winter".
func findingEffect(f pipe.Finding, r *sim.Result, s System) string {
	tell, known := effects[f.Kind]
	if !known {
		return notSimulated
	}
	if words := tell(&teller{r, s, f.Where}); words != "" {
		return words
	}
	return noEffect
}

// effects say what each kind of finding did; "" for nothing.
var effects = map[string]func(*teller) string{
	pipe.FindingNoRelief:         (*teller).noRelief,
	pipe.FindingReliefFacesHouse: (*teller).towardsHouse,
	pipe.FindingSmallRelief:      (*teller).overRim,
	pipe.FindingNoAirGap:         (*teller).gapUsed,
	pipe.FindingSmallAirGap:      (*teller).gapUsed,
	pipe.FindingGluedLine:        (*teller).glued,
	pipe.FindingNoCheckValve:     (*teller).ranBack,
	pipe.FindingBackupSameLine:   (*teller).bothStuck,
	pipe.FindingNoBackup:         (*teller).noBackup,
	pipe.FindingSharedDownspout:  (*teller).roofWater,
	pipe.FindingSmallLine:        (*teller).segmentIce,
	pipe.FindingCorrugated:       (*teller).segmentIce,
	pipe.FindingSag:              (*teller).segmentIce,
	pipe.FindingClearedPaving:    (*teller).segmentIce,
	pipe.FindingFlatRun:          (*teller).segmentIce,
	pipe.FindingNoWeep:           (*teller).elbowIce,
	pipe.FindingNarrowWeep:       (*teller).elbowIce,
	pipe.FindingOutletNear:       (*teller).ranOut,
	pipe.FindingErodingOutlet:    (*teller).ranOut,
	pipe.FindingIcingWalk:        (*teller).ranOutInFrost,
	pipe.FindingPocketInClay:     (*teller).fullPocket,

	pipe.FindingReliefUnderSnow: (*teller).underSnow,
	pipe.FindingReliefFrosts:    (*teller).reliefInHardFrost,
	pipe.FindingAirGapLost:      (*teller).gapLost,
	pipe.FindingManyStarts:      (*teller).busyHours,
	pipe.FindingShortRuns:       (*teller).shortRuns,
}
