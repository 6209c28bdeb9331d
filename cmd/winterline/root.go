package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"winterline/report"
	"winterline/sim"
	"winterline/sim/answers"
)

// version of the program, as summaries carry it. It is written here rather than taken
// from the build, so that the same inputs give the same bytes however it was built.
const version = "0.1.0"

// Month of that version, as manual pages carry it.
const (
	releaseYear  = 2026
	releaseMonth = time.November
)

// Exit codes.
const (
	exitDone     = 0
	exitFailed   = 1 // the run failed, or a check missed
	exitUsage    = 2 // the command line or an input is wrong
	exitHappened = 3 // with --fail-on: what it names happened, or worse
)

// Exit codes in the help texts: of every command, and what --fail-on adds.
const (
	exitWords   = "Exit codes: 0 done; 1 the run failed; 2 the command line or an input is wrong."
	failOnWords = "With --fail-on also 3: what it names, or worse, happened."
)

// exitCode is the one place where errors become exit codes; an error of no kind named
// here is a failed run.
func exitCode(err error) int {
	if err == nil {
		return exitDone
	}
	for _, row := range []struct {
		is   func(error) bool
		code int
	}{
		{as[*usageError], exitUsage},
		{as[*inputError], exitUsage},
		{as[*report.FolderError], exitUsage},
		{as[*answers.ShareError], exitUsage},
		{as[*sim.LimitError], exitUsage},
		{as[*sim.PumpError], exitUsage},
		{as[*happenedError], exitHappened},
	} {
		if row.is(err) {
			return row.code
		}
	}
	return exitFailed
}

func as[E error](err error) bool {
	var target E
	return errors.As(err, &target)
}

// usageError is a command line that cannot be carried out.
type usageError struct{ err error }

func (e *usageError) Error() string { return e.err.Error() }
func (e *usageError) Unwrap() error { return e.err }

func usage(format string, args ...any) error {
	return &usageError{fmt.Errorf(format, args...)}
}

// toldError is an error that the command has printed itself.
type toldError struct{ error }

func (e *toldError) Unwrap() error { return e.error }

// execute carries out a command line and returns the exit code.
func execute(ctx context.Context, s streams, args []string) int {
	root := newRootCmd(s)
	root.SetArgs(args)
	command, err := root.ExecuteContextC(ctx)
	switch {
	case err == nil || as[*toldError](err):
	case as[*inputError](err):
		fmt.Fprintln(s.stderr, err) // file:line: first, as editors read it
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(s.stderr, "winterline: interrupted; nothing was written")
	default:
		fmt.Fprintln(s.stderr, "winterline:", err)
	}
	if as[*usageError](err) {
		fmt.Fprintf(s.stderr, "see: %s --help\n", command.CommandPath())
	}
	return exitCode(err)
}

func newRootCmd(s streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "winterline",
		Short: "Will a sump pump's discharge line freeze, and where does the water go then?",
		Long: `Winterline simulates a winter for the line that carries a basement sump pump's water
away from the house: what stands in the line, what freezes, whether it shuts, and which
way the water goes then. Of the same winter it tells how deep the frost goes in the ground.
Without a case it shows a built-in, invented house.`,
		Example: `  winterline run
  winterline new my-house
  winterline run my-house
  winterline why my-house
  winterline ground my-house`,
		Version:       version,
		SilenceUsage:  true,
		SilenceErrors: true,
		// Slips such as "chekc" get the command that was meant.
		SuggestionsMinimumDistance: 2,
		Args:                       func(c *cobra.Command, args []string) error { return unknownCommand(c, args) },
		RunE:                       func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetIn(s.stdin)
	root.SetOut(s.stdout)
	root.SetErr(s.stderr)
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return &usageError{err} })
	root.AddCommand(newRunCmd(s), newWhyCmd(s), newCompareCmd(s), newSizeCmd(s), newWintersCmd(s), newGroundCmd(s), newCheckCmd(s), newWeatherCmd(s), newNewCmd(s), newVerifyCmd(s), newManCmd(s))
	completeInputs(root.Commands()...)
	return root
}

func unknownCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, c := range root.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	hint := ""
	if near := root.SuggestionsFor(args[0]); len(near) > 0 {
		hint = fmt.Sprintf(" (did you mean %q?)", near[0])
	}
	return usage("found the command %q; expected one of %s%s", args[0], strings.Join(names, ", "), hint)
}

// arguments refuses fewer arguments than least and more than most.
func arguments(least, most int, what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) < least || len(args) > most {
			return usage("found %d arguments; expected %s", len(args), what)
		}
		return nil
	}
}
