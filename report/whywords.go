package report

import (
	"fmt"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

// This file holds the sentences of `why`, beside those on causes (causewords.go), on changes (remedywords.go) and on
// guesses (surewords.go).

const (
	whyFar      = "WHAT YOU SAW AND THE SIMULATION DO NOT AGREE WITHIN TWO DAYS: read this first, for what follows explains the simulated winter."
	whyShut     = "WHY IT FROZE SHUT: %s" // what stood there, and why
	whyMound    = "WHY IT FROZE SHUT: ice on the ground grew over %s."
	whyUnknown  = "THE LINE FROZE SHUT."
	whyIced     = "ICE FORMED, BUT THE LINE NEVER FROZE SHUT."
	whyClear    = "NOTHING FROZE. If water came up in the basement all the same, look for another cause than ice in the line."
	whyMoreShut = "It froze shut %s more: --all, or summary.json."

	whySingles  = "ONE CHANGE, the same winter"
	whyPairs    = "TWO CHANGES, the same winter"
	whyNothing  = "NO EFFECT: do not spend money on these here"
	whyHarms    = "MAKES IT WORSE"
	whyBarred   = "NOT POSSIBLE HERE"
	whyTwo      = "No single change that was tried is enough; two together are."
	whyNoSingle = "No single change that was tried is enough."
	whyNoPair   = "No single change that was tried is enough, and no two of the best together are."
	whyDoes     = "%s: in this winter that would have been enough."
	whyKeepsDry = "%s: that would have kept the house dry, though the line freezes shut all the same."
	whyAsItWas  = "as it was"
	whyHeld     = "Nothing had to be prevented in this winter: changes are ranked by how much colder a winter the line would then bear."
	whyRoom     = "leaves more room"
	whyMoreRows = "and %s: --all, or remedies.csv"
	whyTakes    = "what it takes: %s"
	whySplit    = "every run in the pump's log becomes %d shorter ones"

	reverseSaved = "The same winter WITHOUT the relief opening: line %s, water beside the house or on the floor: %s. The opening kept the house dry."
	reverseLess  = "The same winter WITHOUT the relief opening: line %s, water beside the house or on the floor: %s."
	reverseSame  = "The same winter WITHOUT the relief opening would have gone no worse: line %s, water beside the house or on the floor: %s."
)

// blindSpot is something that wets a basement and that no simulation of ice can see, with what to look at.
type blindSpot struct {
	Cause string `json:"cause"`
	Look  string `json:"look_at"`
}

// blindSpots are told where nothing froze, or where the basement got wet though the line was open. Common practice, no source.
var blindSpots = []blindSpot{
	{"power cut", "clocks that blink, a tripped breaker or GFCI outlet, the utility's record of outages. Do not reset anything while standing in water"},
	{"stuck float", "power off: does the float move up and down freely, clear of the basin's wall, the pump and its own cord?"},
	{"worn pump", "it hums or runs long and lowers the water slowly; power off: stones or grit in its inlet; its age"},
	{"failed check valve", "no clack as the pump stops, water running back into the basin, a start again within a minute or two"},
	{"roots or mud in the line", "the pump runs while little comes out at the far end, in warm weather too; mud or roots at the lid"},
	{"more water than the pump lifts", "it runs without stopping while the level goes on rising, after rain or a thaw; water of other sources in the same basin or line"},
}

// showsBlindSpots says whether something other than ice may have wetted the basement.
func showsBlindSpots(w *answers.Why) bool {
	return !w.Remedies.Froze || w.Result.Verdict.Closed == nil && w.Result.Verdict.State == sim.Flooded
}

// whyHeadline says why it froze, in one sentence.
func whyHeadline(w *answers.Why, s System) string {
	r := w.Result
	switch {
	case !w.Remedies.Froze:
		return whyClear
	case r.Verdict.Closed == nil:
		return whyIced
	case len(r.Closures) == 0:
		return whyUnknown
	}
	t := causeTeller{r: r, c: &r.Closures[0], s: s}
	if t.c.Mound {
		return fmt.Sprintf(whyMound, endWords(r))
	}
	return fmt.Sprintf(whyShut, t.brief())
}

// seenWords says how one thing that the owner saw agrees, and where it lies far apart which guesses would mend that.
func seenWords(w *answers.Why, m answers.SeenSet, s System) []string {
	lines := []string{seenSentence(w.Result, m.SeenMatch)}
	if !m.Far() {
		return lines
	}
	const most = 3
	for _, n := range m.Nearer[:min(most, len(m.Nearer))] {
		lines = append(lines, nearerWords(w.Result, n, s))
	}
	switch {
	case len(m.Nearer) > 0:
	case len(w.Result.Layout.Guesses) == 0:
		lines = append(lines, sureAllTold)
	default:
		lines = append(lines, sureNoNearer)
	}
	return lines
}

// nearerWords says what a guess at an end of its range makes of what was seen.
func nearerWords(r *sim.Result, n answers.Nearer, s System) string {
	value, low, high := guessRange(n.Guess, s)
	end := low
	if n.High {
		end = high
	}
	happens := seenStates[n.Match.What] + " would have been so then"
	if n.Match.Simulated != nil && (n.Match.What != "open" || !n.Match.Held) {
		happens = fmt.Sprintf("%s %s, %s", seenEvents[n.Match.What], spokenTime(r.Start, *n.Match.Simulated), apartWords(n.Match))
	}
	words := fmt.Sprintf(sureNearer, end, value, guessName(n.Guess), happens)
	if n.Match.Far() {
		words += sureFarStill
	} else {
		words += sureAgrees
	}
	if measure := howToMeasure(n.Guess); measure != "" {
		words += " " + fmt.Sprintf(sureMeasure, measure)
	}
	return words
}

// reverseWords says what the winter would have been without the relief openings.
func reverseWords(w *answers.Why, s System) []string {
	reverse := w.Remedies.Reverse
	if reverse == nil {
		return nil
	}
	form := reverseSame
	switch t := reverse.Toll; {
	case !t.Dry() && w.Remedies.Base.Toll.Dry():
		form = reverseSaved
	case reverse.Effect == answers.Harms:
		form = reverseLess
	}
	t := reverse.Toll
	t.Relief = 0
	return []string{fmt.Sprintf(form, lineEffectWords(t), besideWords(t, s.bothVolumes))}
}

// writeWords are the values that a person writes into the case's files to make changes.
func writeWords(changes []answers.Change) (lines []string) {
	var edits []pipe.Edit
	for _, c := range changes {
		edits = append(edits, c.Edits...)
	}
	lines = editWords(edits)
	for _, c := range changes {
		if c.Split > 1 {
			lines = append(lines, fmt.Sprintf(whySplit, c.Split))
		}
	}
	return lines
}
