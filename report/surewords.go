package report

import (
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
	"winterline/sim/answers"
)

// This file holds what people read about guesses that were tried at both ends of their usual range.

const (
	sureNone     = "none of them changes the verdict at either end of its usual range"
	sureNoneOne  = "it does not change the verdict at either end of its usual range"
	sureChanges  = "%s, taken as %s, decides the verdict: %s." // name, value, what becomes of it at its ends
	sureAt       = "at %s %s"                                  // value, what happens
	sureMeasure  = "Measure %s."
	sureMore     = "and %s that could change the verdict: %s" // count, where they are told
	sureUntried  = "which of them could change the verdict: winterline why"
	sureRefused  = "%s could not be tried: the rest of the layout contradicts both ends of its usual range" // names
	sureNearer   = "With %s instead of %s for %s, %s."                                                      // end, value, name, what happens when
	sureAgrees   = " That agrees with what you saw."
	sureFarStill = " That is nearer, but still apart."
	sureNoNearer = "No guess at either end of its usual range brings them nearer. Then something else is not as written: look again at pump times, soil on top of the pipe, low spots and snow over the line."
	sureAllTold  = "Nothing in the layout is a guess, so something is not as written: look again at pump times, soil on top of the pipe, low spots and snow over the line."
)

// How many guesses that decide are told, by run and by why, and where the rest are.
const (
	sureFewest   = 3
	sureFewer    = 6
	sureInWhy    = "winterline why"
	sureInFull   = "--all, or summary.json"
	sureMostEver = math.MaxInt // all of them: --all, and the page
)

// sureWords says how many inputs are guesses, which of them decide the verdict, and what to measure then; no more of
// these than most; why tells the others. tried is nil where nothing was tried.
func sureWords(guesses []pipe.Guess, tried []answers.GuessTried, s System, most int) []string {
	return sureWordsRest(guesses, tried, s, most, sureInWhy)
}

// sureWordsRest is sureWords with where the others are told.
func sureWordsRest(guesses []pipe.Guess, tried []answers.GuessTried, s System, most int, rest string) []string {
	lines := guessCount(guesses)
	if tried == nil || len(guesses) == 0 {
		return lines
	}
	var deciding, refused []string
	for _, g := range tried {
		switch {
		case g.Changes:
			deciding = append(deciding, decidingWords(g, s))
		case !g.Tried():
			refused = append(refused, guessName(g.Guess))
		}
	}
	switch {
	case len(deciding) > most:
		lines = append(lines, deciding[:most]...)
		lines = append(lines, fmt.Sprintf(sureMore, plural(float64(len(deciding)-most), "more guess"), rest))
	case len(deciding) == 0 && len(guesses) == 1 && len(refused) == 0:
		lines = append(lines, sureNoneOne)
	case len(deciding) == 0 && len(refused) < len(guesses):
		lines = append(lines, sureNone)
	default:
		lines = append(lines, deciding...)
	}
	if len(refused) > 0 {
		lines = append(lines, fmt.Sprintf(sureRefused, list(refused)))
	}
	return lines
}

// decidingWords says of a guess that changes the verdict how, and what to measure.
func decidingWords(g answers.GuessTried, s System) string {
	value, _, _ := guessRange(g.Guess, s)
	var at []string
	for _, end := range g.Ends() {
		if !end.Other {
			continue
		}
		at = append(at, fmt.Sprintf(sureAt, guessEnd(g.Guess, end.High, s), endWordsOf(*end)))
	}
	words := fmt.Sprintf(sureChanges, capital(guessName(g.Guess)), value, list(at))
	if measure := howToMeasure(g.Guess); measure != "" {
		words += " " + fmt.Sprintf(sureMeasure, measure)
	}
	return words
}

// endStates says what a verdict means, in a few words.
var endStates = map[sim.State]string{
	sim.Clear: "no ice forms", sim.Iced: "ice forms, but the line never freezes shut", sim.ShutRelieved: "the line freezes shut and the basement stays dry",
	sim.Spilled: "water runs out beside the house", sim.Flooded: "the basement gets wet",
}

// endWordsOf says what became of the winter at an end of a guess.
func endWordsOf(end answers.GuessEnd) string {
	words := endStates[end.State]
	switch {
	case end.State < sim.Spilled:
	case end.Shut == nil:
		words += ", the line open"
	default:
		words += ", the line frozen shut"
	}
	return words
}

// guessRange gives value and both ends of a guess, in words where it is one.
func guessRange(g pipe.Guess, s System) (value, low, high string) {
	amount := func(v float64) string { return s.quantity(g.Dimension, v) }
	if g.Dimension == units.Fraction && g.High <= 1 {
		amount = percent
	}
	value, low, high = g.Text, g.LowText, g.HighText
	if value == "" {
		value = amount(g.Value)
	}
	// A word in place of a number, such as "from the ground", still has a range in numbers.
	if low == "" || high == "" || g.Low != g.High {
		low, high = amount(g.Low), amount(g.High)
	}
	return value, low, high
}

// guessEnd is an end of the usual range of a guess.
func guessEnd(g pipe.Guess, high bool, s System) string {
	_, low, top := guessRange(g, s)
	if high {
		return top
	}
	return low
}
