package report

import (
	"io"
	"strings"

	"winterline/pipe"
	"winterline/pipe/units"
)

// Checked is what a check of a case found without simulating anything.
type Checked struct {
	Name     string // of the case
	Invented bool
	Files    []string // read, as the user would name them
	Problems units.Problems
	Advice   string // what to do about an input that is not there; "": nothing to say
	Guesses  []pipe.Guess
	Findings []pipe.Finding
}

// CheckScreen prints the guesses, with the range in which each true value usually lies, and what the trade would do
// otherwise, both with where they come from. Errors are printed by whoever met them.
func CheckScreen(w io.Writer, c *Checked, o Options) error {
	p := o.sheet()
	p.checkHead(c)
	p.gap()
	p.guesses(c.Guesses, o.System)
	p.gap()
	p.findings(c.Findings)
	if o.Next != "" {
		p.gap()
		p.blocks(block{"Next", optional(o.Next)})
	}
	return p.print(w)
}

// CheckBrief prints how many guesses and findings there are.
func CheckBrief(w io.Writer, c *Checked, o Options) error {
	p := o.sheet()
	p.checkHead(c)
	p.line(guessHead(len(c.Guesses)) + " " + findingHead(len(c.Findings)))
	return p.print(w)
}

// checkHead says that there are no errors, where there are none.
func (p *sheet) checkHead(c *Checked) {
	if c.Invented {
		p.line("The built-in demonstration, an invented house.")
	}
	if len(c.Problems) == 0 && c.Advice == "" && len(c.Files) > 0 {
		p.line("No errors in " + strings.Join(c.Files, ", ") + ".")
	}
}

func guessHead(n int) string {
	if n == 0 {
		return "GUESSES: none; every input is written."
	}
	return "GUESSES: " + plural(float64(n), "input") + " that nobody measured; usual values stand in."
}

func findingHead(n int) string {
	if n == 0 {
		return "PRACTICE: nothing that the trade would do otherwise."
	}
	return "PRACTICE: " + plural(float64(n), "thing") + " that the trade would do otherwise."
}

// guesses prints the inputs that nobody measured: the value in use, the range in which the true one usually lies, and
// where both come from.
func (p *sheet) guesses(guesses []pipe.Guess, s System) {
	p.line(guessHead(len(guesses)))
	for _, g := range guesses {
		p.indented(guessName(g), 2, 6)
		p.indented("taken as "+guessWords(g, s), 6, 6)
		p.indented("source: "+g.Source, 6, 6)
	}
}

// findings prints what the trade would do otherwise.
func (p *sheet) findings(findings []pipe.Finding) {
	p.line(findingHead(len(findings)))
	for _, f := range findings {
		p.indented(findingName(f), 2, 2)
		p.indented(f.Sentence, 6, 6)
		p.indented("source: "+f.Source, 6, 6)
	}
}

// checkSchema names the form of what check prints as JSON.
const checkSchema = "winterline.check/1"

// CheckSummary is a check as JSON. All keys are always there.
type CheckSummary struct {
	Schema   string            `json:"schema"`
	Version  string            `json:"version"`
	Case     string            `json:"case"`
	Errors   []SummaryProblem  `json:"errors"`
	Advice   *string           `json:"advice"` // what to do about an input that is not there; null: nothing
	Guesses  []SummaryGuess    `json:"guesses"`
	Findings []SummaryFinding  `json:"findings"`
	Inputs   map[string]string `json:"inputs"`
}

// SummaryProblem is one fault of an input file.
type SummaryProblem struct {
	File     string `json:"file"`
	Line     *int   `json:"line"` // null: it belongs to no line
	Key      string `json:"key"`
	Found    string `json:"found"`
	Expected string `json:"expected"`
}

// SummarizeCheck gives a check as JSON takes it.
func SummarizeCheck(c *Checked, p Provenance) *CheckSummary {
	out := &CheckSummary{Schema: checkSchema, Version: p.Version, Case: c.Name, Errors: []SummaryProblem{},
		Guesses: summaryGuesses(c.Guesses), Findings: layoutFindings(c.Findings), Inputs: orEmpty(p.Inputs)}
	if c.Advice != "" {
		out.Advice = &c.Advice
	}
	for _, x := range c.Problems {
		problem := SummaryProblem{File: x.File, Key: x.Key, Found: x.Found, Expected: x.Expected}
		if x.Line > 0 {
			problem.Line = &x.Line
		}
		out.Errors = append(out.Errors, problem)
	}
	return out
}

// Encode writes the check as indented JSON.
func (s *CheckSummary) Encode(w io.Writer) error { return encode(w, s) }

// guessWords gives value and range, in words where the guess is one.
func guessWords(g pipe.Guess, s System) string {
	value, low, high := guessRange(g, s)
	return value + ", usually " + low + " to " + high
}
