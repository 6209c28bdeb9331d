package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// streams are what a command reads and writes, and whether a person sits there.
type streams struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	asks           bool // both are a terminal: questions get answers
	errTerminal    bool // progress may be shown
}

func standardStreams() streams {
	terminal := func(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }
	return streams{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		asks:        terminal(os.Stdin) && terminal(os.Stdout),
		errTerminal: terminal(os.Stderr),
	}
}
