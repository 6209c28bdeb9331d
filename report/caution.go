package report

import "strings"

// caution stands below every verdict and is never left out.
const caution = "A simulation built on your numbers and our guesses, not an inspection or a promise. " +
	"Water in the basement: stay out of it, and away from pump, cord and panel, until the power is off. " +
	"Never thaw a pipe with a flame. Relief water makes ice where people walk, drive or climb steps, and can run back to the house. " +
	"Never join the sanitary sewer. A plugged line may be under pressure: do not cut or unscrew it. " +
	"Heating cable only if listed for the pipe, on a GFCI circuit. " +
	"Local codes and licensed practice come first; have buried utilities marked before digging."

// groundCaution stands below every answer on the ground and is never left out.
const groundCaution = "A simulation built on your numbers and our guesses, not a soil survey or a promise. " +
	"Ground that is wetter, drier, of another soil, in shade or cleared of snow freezes otherwise, and another winter may be colder. " +
	"Local codes and their frost-depth tables come first. " +
	"Have buried utilities marked before digging, even with a shovel. Trench walls cave in without warning: " +
	"slope or shore them, and do not work in one alone."

// moreCautions stand on the page beside the caution, which has no room for them on the screen.
var moreCautions = []string{
	"No heat gun and no torch on plastic pipe either: it softens and bursts before the ice in it is gone.",
	"A pump that hums, or runs on and on against ice, overheats: switch it off, if that can be done with dry feet on dry ground.",
	"Water let go freezes on walks, steps and drives: grit it, or keep people off.",
	"Where this page and local code, a permit or a licensed person differ, they are right.",
}

// cautions gives the caution sentence by sentence, and what a page has room for beside it.
func cautions() []string {
	var out []string
	for _, s := range strings.SplitAfter(caution, ". ") {
		out = append(out, strings.TrimSpace(s))
	}
	return append(out, moreCautions...)
}
