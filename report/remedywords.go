package report

import (
	"fmt"
	"math"
	"strings"

	"winterline/pipe"
	"winterline/sim/answers"
)

// This file holds what people read about changes to an installation: what they are, what they take and bring, what
// they do, and why some are not possible.

// changeWords says what a change is, "1 in (25 mm) of foam round the yard run". l is the layout that it is made to.
func changeWords(c answers.Change, l *pipe.Layout, s System) string {
	part := "the line"
	if c.Segment >= 0 {
		part = "the " + l.Segments[c.Segment].Name
	}
	switch c.Kind {
	case answers.Insulate:
		return s.bothThin(c.Amount) + " of foam round " + part
	case answers.InsulateAll:
		return s.bothThin(c.Amount) + " of foam round all pipe outdoors"
	case answers.DeepenCover:
		return "line laid deeper: " + s.bothDepths(c.Amount) + " of soil on top of " + part
	case answers.Steepen:
		return part + " laid to fall " + s.bothSlopes(c.Amount)
	case answers.RemoveSag:
		return "sag of " + s.bothLengths(c.Amount) + " taken out of " + part
	case answers.WidenPipe:
		return "4 in pipe in the ground"
	case answers.BuryOpen:
		return part + " moved underground: " + s.bothDepths(c.Amount) + " of soil on top"
	case answers.KeepSnow:
		return "snow left lying on " + part
	case answers.RoofWaterOff:
		return "roof water taken off the line"
	case answers.BackupOwnLine:
		return "backup pump on a line of its own"
	case answers.BackupSameLine:
		return "backup pump on the same line"
	case answers.ShortCycles:
		return "float set for " + number(c.Amount, 0) + " short runs instead of one long one"
	}
	return openingWords(c, l, s)
}

// openingWords says it of changes to where water leaves the line.
func openingWords(c answers.Change, l *pipe.Layout, s System) string {
	size := s.bothLengths(c.Amount)
	switch c.Kind {
	case answers.AddRelief:
		return "a relief opening " + size + " above the ground"
	case answers.RaiseRelief:
		return "relief opening raised to " + size + " above the ground"
	case answers.ClearRelief:
		return "relief opening kept clear of snow"
	case answers.EnlargeRelief:
		return "relief opening twice as wide: " + size
	case answers.AddStandpipe:
		return "loose joint: a standpipe with a relief opening before the buried line"
	case answers.AddStandpipeTop:
		return "loose joint: a standpipe before the buried line, no relief opening"
	case answers.RaiseHousePipe:
		return "house pipe's end and standpipe raised to " + size + " above the ground"
	case answers.EnlargePocket:
		words := "rock pit of " + s.bothPits(c.Amount)
		if p := l.Pocket; p != nil {
			words += ", " + timesWords(c.Amount/(p.Length*p.Width*p.Depth)) + " as large"
		}
		return words
	case answers.AddPocket:
		return "a drain slot under the lid and a rock pit of " + s.bothPits(c.Amount)
	case answers.EnlargeWeep:
		return "drain slot under the lid twice as high and wide"
	case answers.OpenOutlet:
		words := "outlet open to daylight, no lid"
		if c.Amount > 0 {
			words += "; line " + s.bothLengths(c.Amount) + " longer"
		}
		return words
	}
	return "the same winter WITHOUT the relief opening"
}

// timesWords says how often as large something is.
func timesWords(ratio float64) string {
	if math.Abs(ratio-2) < 0.01 {
		return "twice"
	}
	return strings.TrimSuffix(number(ratio, 1), ".0") + " times"
}

// takesWords says what changes together take, "dig; may need approval".
func takesWords(changes []answers.Change) string {
	var all answers.Takes
	for _, c := range changes {
		all |= c.Takes
	}
	var words []string
	for _, x := range []struct {
		takes answers.Takes
		words string
	}{
		{answers.TakesDig, "dig"}, {answers.TakesLicensed, "licensed work"}, {answers.TakesApproval, "may need approval"},
		{answers.TakesGround, "needs lower ground at the far end"},
	} {
		if all&x.takes != 0 {
			words = append(words, x.words)
		}
	}
	if len(words) == 0 {
		return "the owner can do it"
	}
	return strings.Join(words, "; ")
}

// riskWords are sentences on what a remedy brings that was not there before, with the simulation's figures where it has any.
func riskWords(r answers.Remedy, s System) (lines []string) {
	var all answers.Risks
	for _, c := range r.Changes {
		all |= c.Risks
	}
	if r.MoreOf&answers.RiskStarts != 0 {
		lines = append(lines, "The pump starts up to "+plural(float64(r.Toll.Starts), "time")+" in an hour.")
	}
	if r.MoreOf&answers.RiskWallWater != 0 {
		words := s.bothVolumes(r.Toll.Relief+r.Toll.Beside) + " of water runs out near the wall"
		if r.Toll.WallIce > 0 {
			words += ", and ice there gets up to " + s.bothLengths(r.Toll.WallIce) + " thick"
		}
		lines = append(lines, words+".")
	}
	for _, x := range []struct {
		risk  answers.Risks
		words string
	}{
		{answers.RiskErosion, "An open end washes soil away: stones under it, and water led off the neighbour's ground."},
		{answers.RiskDraught, "Cold air is drawn in through an open end."},
		{answers.RiskWalk, "Snow stays where people may want to walk."},
		{answers.RiskDeepWater, "A deeper line under a lid keeps a taller column of water below it, and its rock pit lies in deeper, often wetter soil."},
	} {
		if all&x.risk != 0 {
			lines = append(lines, x.words)
		}
	}
	return lines
}

// barWords says why a change is not possible here.
func barWords(c answers.Change) string {
	switch c.Barred {
	case answers.BarOutletLow:
		return "the line's end would lie under the ground there"
	case answers.BarNoFall:
		return "no fall to spare: the line's start would lie too shallow"
	case answers.BarNoRiser:
		return "no riser in the house that could be cut or lengthened to meet it"
	case answers.BarShortRuns:
		return "the pump would run for under 10 s at a time"
	case answers.BarStarts:
		return "the pump would start over 20 times an hour"
	case answers.BarNoSnow:
		return "the weather record says nothing of snow"
	case answers.BarNoBasin:
		return "nothing is known of basin and pump: what would start it, and what it would stand in for"
	}
	for _, p := range c.Problems {
		return fmt.Sprintf("levels do not fit: %s: found %s; expected %s", p.Key, p.Found, p.Expected)
	}
	return "levels do not fit"
}

// effectWords says in a few words what a remedy does.
func effectWords(r answers.Remedy) string {
	switch r.Effect {
	case answers.Prevents:
		return "enough"
	case answers.KeepsDry:
		return "keeps the house dry; the line still freezes shut"
	case answers.Helps:
		return "helps, but is not enough"
	case answers.Harms:
		return "makes it worse"
	}
	return "no effect: do not spend money here"
}

// lineEffectWords says what becomes of the line, "open" or "shut 18 days".
func lineEffectWords(t answers.Toll) string {
	if t.Open() {
		return "open"
	}
	return "shut " + spokenDuration(t.ShutFor)
}

// marginLeftWords says in a table how close it is then: "about 7 °F (4 °C) left", "about 4 °F (2 °C) short".
func marginLeftWords(b answers.Bound, s System) string {
	far := s.bothDifferences(math.Abs(b.K))
	switch {
	case b.Beyond && b.K > 0:
		return "over " + far + " left"
	case b.Beyond:
		return "over " + far + " short"
	case math.Abs(b.K) < tooClose:
		return "too close to call"
	case b.K > 0:
		return "about " + far + " left"
	}
	return "about " + far + " short"
}
