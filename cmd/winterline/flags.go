package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim"
)

// choice is the value of a flag that takes one of a few words.
type choice struct {
	word  string
	words []string
}

// String gives the word chosen, for help texts.
func (c *choice) String() string { return c.word }

// Type names the words, for help texts.
func (c *choice) Type() string { return strings.Join(c.words, "|") }

// Set takes a word or refuses it.
func (c *choice) Set(word string) error {
	if !slices.Contains(c.words, word) {
		return fmt.Errorf("found %q; expected %s", word, strings.Join(c.words, ", "))
	}
	c.word = word
	return nil
}

// add puts the flag on a command, with completion of its words, each with what it means. word is the default.
func (c *choice) add(command *cobra.Command, name, word, help string, words ...cobra.Completion) {
	c.word = word
	for _, described := range words {
		plain, _, _ := strings.Cut(described, "\t")
		c.words = append(c.words, plain)
	}
	command.Flags().Var(c, name, help)
	// The flag is there: it was added in the line above.
	_ = command.RegisterFlagCompletionFunc(name, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
}

// outputOptions are the flags that say what a command hands out.
type outputOptions struct {
	out                  string
	units, failOn        choice
	json, quiet, timings bool
}

// addFlags adds the flags that every simulating command has. ending follows "results" in the
// name of its folder.
func (o *outputOptions) addFlags(c *cobra.Command, ending string) {
	f := c.Flags()
	f.StringVar(&o.out, "out", "", fmt.Sprintf("`FOLDER` for the results (default CASE/results%[1]s; ./winterline-demo%[1]s for the demonstration)", ending))
	o.addUnits(c)
	f.BoolVar(&o.json, "json", false, "print summary.json and nothing else; write a folder only with --out")
	f.BoolVar(&o.quiet, "quiet", false, "print the answer and the caution alone, and no progress")
	f.BoolVar(&o.timings, "timings", false, "say on standard error how long each stage took")
}

func (o *outputOptions) addFailOn(c *cobra.Command) {
	o.failOn.add(c, "fail-on", "", "exit with 3 when this, or worse, happened",
		cobra.CompletionWithDesc("shut", "the line froze shut"), cobra.CompletionWithDesc("spill", "water came out beside the house"),
		cobra.CompletionWithDesc("flood", "the basement floor got wet"))
}

func (o *outputOptions) addUnits(c *cobra.Command) {
	o.units.add(c, "units", "us", "units on the screen",
		cobra.CompletionWithDesc("us", "inches, gallons, °F"), cobra.CompletionWithDesc("si", "metres, litres, °C"))
}

// folder is where results go, standard unless --out says otherwise; "" for nowhere.
func (o *outputOptions) folder(standard string) string {
	if o.out == "" && !o.json {
		return standard
	}
	return o.out
}

// system is the choice of --units.
func (o *outputOptions) system() report.System {
	if o.units.word == "si" {
		return report.SI
	}
	return report.US
}

// happenedError says that what --fail-on names, or worse, happened.
type happenedError struct {
	named string
	state sim.State
}

// Error says what was asked and what happened.
func (e *happenedError) Error() string {
	return fmt.Sprintf("--fail-on %s: the verdict is %q", e.named, e.state)
}

// failed judges results by --fail-on; of several the worst counts.
func (o *outputOptions) failed(results ...*sim.Result) error {
	limit, asked := map[string]sim.State{"shut": sim.ShutRelieved, "spill": sim.Spilled, "flood": sim.Flooded}[o.failOn.word]
	if !asked {
		return nil
	}
	worst := sim.Clear
	for _, r := range results {
		worst = max(worst, r.Verdict.State)
	}
	if worst >= limit {
		return &happenedError{o.failOn.word, worst}
	}
	return nil
}
