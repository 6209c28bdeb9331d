package report

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"winterline/pipe"
	"winterline/pipe/units"
)

// Guesses prints the inputs that nobody measured: the value in use, the range in which
// the true one usually lies, and where both come from.
func Guesses(w io.Writer, guesses []pipe.Guess, s System) error {
	if len(guesses) == 0 {
		_, err := fmt.Fprintln(w, "GUESSES: none; every input is written.")
		return err
	}
	var out strings.Builder
	out.WriteString("GUESSES: " + plural(float64(len(guesses)), "input") + " that nobody measured; usual values stand in:\n")
	for _, g := range guesses {
		out.WriteString("  " + g.Key + " = " + guessWords(g, s) + "\n")
		for _, line := range wrap("source: "+g.Source, screenWidth-6) {
			out.WriteString("      " + line + "\n")
		}
	}
	_, err := io.WriteString(w, out.String())
	return err
}

// guessWords gives value and range, in words where the guess is one.
func guessWords(g pipe.Guess, s System) string {
	value, low, high := guessRange(g, s)
	return value + " (usually " + low + " to " + high + ")"
}

// Findings prints what the trade would do otherwise.
func Findings(w io.Writer, findings []pipe.Finding) error {
	if len(findings) == 0 {
		_, err := fmt.Fprintln(w, "PRACTICE: nothing that the trade would do otherwise.")
		return err
	}
	var out strings.Builder
	out.WriteString("PRACTICE: what the trade would do otherwise:\n")
	for _, f := range findings {
		out.WriteString("  " + f.Kind + "\n")
		for _, line := range append(wrap(f.Sentence, screenWidth-6), wrap("source: "+f.Source, screenWidth-6)...) {
			out.WriteString("      " + line + "\n")
		}
	}
	_, err := io.WriteString(w, out.String())
	return err
}

// Quantity prints an SI value of any dimension: in the reader's units where these are
// common in the trade, else in SI.
func (s System) Quantity(d units.Dimension, v float64) string {
	switch d {
	case units.Length:
		return s.Length(v)
	case units.Temperature:
		return s.Temperature(v)
	case units.TemperatureDifference:
		return s.Difference(v)
	case units.Flow:
		return s.Flow(v)
	case units.Volume:
		return s.Volume(v)
	case units.Speed:
		return s.Speed(v)
	case units.Duration:
		return spokenDuration(v)
	case units.Slope:
		return shortest(v*100) + " %"
	}
	return strings.TrimSpace(shortest(v) + " " + siUnit(d))
}

// shortest prints v with at most three significant digits.
func shortest(v float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 3, 64), 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(rounded+0, 'f', -1, 64)
}
