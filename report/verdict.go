package report

import (
	"strings"

	"winterline/sim"
)

// headline is the verdict in one breath: what became of the basement, in capitals,
// and then of the line. A line that froze shut is never said to have kept working.
func headline(r *sim.Result, s System) string {
	table := newWaterTable(r, s)
	line := basementWords(r, &table) + " " + lineWords(r, &table)
	if r.Invented {
		return "An invented house: " + line
	}
	return line
}

// basementWords says what became of the basement.
func basementWords(r *sim.Result, table *waterTable) string {
	refused := refusedVolume(r)
	switch {
	case r.Verdict.State == sim.Flooded:
		words := "THE BASEMENT GOT WET. "
		if r.Ledger.Floor > 0 {
			words += capital(table.amount(pathFloor)) + " reached the floor"
		} else {
			words += "Water reached the floor"
		}
		if r.Verdict.Floor != nil {
			words += ", first on " + spokenTime(r.Start, *r.Verdict.Floor)
		}
		return words + "."
	case r.Layout.Basin == nil && refused > sim.LeastRefused:
		// Without a basin nobody followed that water any further.
		return "THE LINE DID NOT TAKE ALL THE WATER. " + table.system.volume(refused) + " stayed in the basement."
	case len(r.Cycles) == 0 && r.Ledger.Arrived == 0:
		return "NO WATER WAS PUMPED."
	case r.Verdict.State == sim.Spilled:
		return "THE BASEMENT STAYED DRY, BUT WATER RAN OUT BESIDE THE HOUSE."
	default:
		return "THE BASEMENT STAYED DRY."
	}
}

// refusedVolume is what the pump was asked to lift and the line did not take [m³].
func refusedVolume(r *sim.Result) float64 {
	sum := 0.0
	for _, c := range r.Cycles {
		sum += c.Refused
	}
	return sum
}

// oneSpell is the share of the time from the first closure to the end from which a line that is still shut then is
// told of as shut in one spell.
const oneSpell = 0.9

// lineWords says what became of the line and which way the water went instead.
func lineWords(r *sim.Result, table *waterTable) string {
	v := r.Verdict
	if v.Closed == nil {
		return neverShutWords(r, table)
	}
	words := capital(shutFirst(r)) + " froze shut"
	if v.ClosedByMound {
		words += " under ice on the ground"
	}
	words += " for " + spokenDuration(v.ShutFor)
	if v.Reopened == nil {
		if _, end := recordSpan(r); v.ShutFor < oneSpell*(end-*v.Closed) {
			words += " in all"
		}
		words += " and was still shut when the record ended"
	}
	switch {
	case v.State == sim.Spilled:
		return words + "; " + spillWords(r, table) + "."
	case v.State == sim.Flooded && v.Relief != nil:
		return words + "; the " + reliefWords(r) + " did not carry all of the water."
	case v.Relief != nil:
		return words + "; the " + reliefWords(r) + " carried the water."
	case v.State == sim.Flooded:
		return words + "; no relief opening ran."
	case len(r.Cycles) == 0:
		return words + "."
	}
	return words + "; no relief opening had to run."
}

func neverShutWords(r *sim.Result, table *waterTable) string {
	words := "No ice formed in the line."
	if worst, share := mostIce(r); worst >= 0 {
		words = "Ice took up to " + percent(share) + " of the water standing in " + segmentWords(r, worst) +
			", but the line never froze shut."
	} else if r.Verdict.FirstIce != nil {
		words = "Ice formed, but the line never froze shut."
	}
	switch r.Verdict.State {
	case sim.Spilled:
		words += " " + capital(spillWords(r, table)) + "."
	case sim.Flooded:
		words += " The cause lies elsewhere: power, pump or more water than it moves."
	}
	if r.Verdict.ClosedDendritic != nil {
		words += " It could have: see 'Could shut'."
	}
	return words
}

// spillWords says how water was let go beside the house.
func spillWords(r *sim.Result, table *waterTable) string {
	if r.Ledger.Rim > 0 {
		return table.amount(pathRim) + " came out of the top of the standpipe, beside the wall"
	}
	if r.Ledger.Relief > 0 {
		return "the " + reliefWords(r) + " let " + table.amount(pathRelief) + " go beside the house"
	}
	return "water was let go beside the house"
}

// mostIce finds the segment in which the largest share of the standing water froze;
// -1: none had ice.
func mostIce(r *sim.Result) (segment int, share float64) {
	segment = -1
	for i, s := range r.Segments {
		if s.LargestIce > share {
			segment, share = i, s.LargestIce
		}
	}
	return segment, share
}

// segmentWords names a segment within a sentence, "the yard run".
func segmentWords(r *sim.Result, i int) string {
	if i < 0 || i >= len(r.Segments) {
		return "the line"
	}
	return "the " + r.Segments[i].Name
}

// capital gives the words an upper-case first letter.
func capital(words string) string {
	if words != "" && words[0] >= 'a' && words[0] <= 'z' {
		return strings.ToUpper(words[:1]) + words[1:]
	}
	return words
}
