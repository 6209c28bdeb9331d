package report

import (
	"math"
	"slices"
	"strings"

	"winterline/pipe"
	"winterline/sim/answers"
)

// This file holds what people read about sizing: how little of a quantity does it.

// twoMind says how far an answer on two quantities goes.
func twoMind(a *SizeAnswer) []string {
	lines := []string{"The first was tried at values spread over its range; beside each stands the least of the second that is enough. Other pairs were not tried."}
	var first []answers.Tried
	for _, v := range a.Two.Values {
		first = append(first, answers.Tried{Change: v.Change})
	}
	return append(lines, notPossible(first)...)
}

// sizeHeadline is the answer in one breath.
func sizeHeadline(a *SizeAnswer, s System) string {
	words := a.oneHeadline(s)
	if a.Invented {
		return "An invented house: " + words
	}
	return words
}

func (a *SizeAnswer) oneHeadline(s System) string {
	goal := goalWords(a.keep(), s)
	if a.Two != nil {
		return "WHAT IT TAKES OF BOTH to " + goal + ": see below."
	}
	z := a.Sized
	if !anyPossible(z.Curve) {
		return "NO VALUE IS POSSIBLE HERE: " + strings.Join(barReasons(z.Curve), "; ") + "."
	}
	if z.Least == nil {
		first, last := z.Curve[0].Value, z.Curve[len(z.Curve)-1].Value
		return "NOTHING TRIED IS ENOUGH to " + goal + ": " + sizePhrase(z.Vary, a.Layout, "from "+sizeValue(z.Vary.Quantity, first, s)+" to "+sizeValue(z.Vary.Quantity, last, s)) + "."
	}
	value := sizeValue(z.Vary.Quantity, z.Least.Value, s)
	if z.Vary.Quantity == answers.ByInsulation && z.Least.Value == 0 {
		return "NO FOAM IS NEEDED to " + goal + "."
	}
	if z.Least.Value == z.Curve[0].Value {
		return "THE LEAST THAT WAS TRIED IS ENOUGH to " + goal + ": " + sizePhrase(z.Vary, a.Layout, value) + "."
	}
	return "THE LEAST THAT IS ENOUGH to " + goal + ": " + sizePhrase(z.Vary, a.Layout, value) + "."
}

// goalWords says what is to be kept, "keep the line open, in a winter 5 °F (3 °C) colder than this one".
func goalWords(k answers.Keep, s System) string {
	words := "keep the line open"
	if k.Goal == answers.Dry {
		words = "keep water off the floor and away from the wall"
	}
	if k.Margin > 0 {
		words += ", in a winter " + s.bothDifferences(k.Margin) + " colder than this one"
	}
	return words
}

// sizePhrase says what a value is a value of.
func sizePhrase(v answers.Vary, l *pipe.Layout, value string) string {
	part := ""
	if v.Quantity.OfSegment() && v.Segment >= 0 {
		part = "the " + l.Segments[v.Segment].Name
	}
	switch v.Quantity {
	case answers.ByInsulation:
		return value + " of foam round " + part
	case answers.ByCover:
		return value + " of soil on top of " + part
	case answers.BySlope:
		return "a fall of " + value + " in " + part
	case answers.ByRelief:
		return "a relief opening " + value + " above the ground"
	}
	return "a rock pit of " + value
}

// acrossWords says what stands across the chart.
func acrossWords(v answers.Vary, l *pipe.Layout) string {
	switch v.Quantity {
	case answers.ByInsulation:
		return "across: thickness of foam round the " + l.Segments[v.Segment].Name
	case answers.ByCover:
		return "across: soil on top of the " + l.Segments[v.Segment].Name
	case answers.BySlope:
		return "across: fall of the " + l.Segments[v.Segment].Name
	case answers.ByRelief:
		return "across: height of the relief opening above the ground"
	}
	return "across: volume of the rock pit, rock and all"
}

// nowWords says what the layout has, and how that does where it lies within what was tried.
func nowWords(a *SizeAnswer, s System) []string {
	z := a.Sized
	if z.Vary.Quantity == answers.ByInsulation {
		return nil // what is added counts from nothing
	}
	if math.IsNaN(z.Now) {
		return []string{"has none"}
	}
	return []string{sizePhrase(z.Vary, a.Layout, sizeValue(z.Vary.Quantity, z.Now, s))}
}

// sizeMind says where the answer is not what people expect of one.
func sizeMind(a *SizeAnswer, s System) (lines []string) {
	z := a.Sized
	switch {
	case !anyPossible(z.Curve):
	case z.Least == nil && z.Monotone:
		lines = append(lines, "More of it than was tried may or may not be enough; something else may be what is needed: winterline why.")
	case z.Least != nil && z.From == nil:
		lines = append(lines, "The most that was tried is NOT enough: more is not always better here.")
	case z.Least != nil && z.From.Value != z.Least.Value:
		lines = append(lines, "Between that and "+sizeValue(z.Vary.Quantity, z.From.Value, s)+" some values are NOT enough; from there on all that were tried are.")
	case !z.Monotone:
		lines = append(lines, "More is not always better here: the margin falls again where there is much of it.")
	}
	if z.Least != nil && z.Least.Margin != nil && z.Least.Margin.K < tooClose {
		lines = append(lines, "Too close to call: ask for a margin (--margin \"3 K\"), for the inputs are not known that well.")
	}
	return append(lines, notPossible(z.Curve)...)
}

// anyPossible says whether a value could be tried at all.
func anyPossible(curve []answers.Tried) bool {
	return slices.ContainsFunc(curve, func(t answers.Tried) bool { return t.Change.Barred == answers.BarNone })
}

// notPossible says why some values are not possible; nothing where all are, or none.
func notPossible(curve []answers.Tried) []string {
	reasons := barReasons(curve)
	if len(reasons) == 0 || !anyPossible(curve) {
		return nil
	}
	return []string{"Not all values are possible here: " + strings.Join(reasons, "; ") + "."}
}

// barReasons are why values are not possible, each once.
func barReasons(curve []answers.Tried) (reasons []string) {
	for _, t := range curve {
		if words := barWords(t.Change); t.Change.Barred != answers.BarNone && !slices.Contains(reasons, words) {
			reasons = append(reasons, words)
		}
	}
	return reasons
}
