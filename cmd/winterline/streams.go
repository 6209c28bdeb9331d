package main

import (
	"io"
	"os"
	"strconv"

	"golang.org/x/term"
)

// streams are what a command reads and writes, and whether a person sits there.
type streams struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	asks           bool // both are a terminal: questions get answers
	errTerminal    bool // progress may be shown
	window         int  // width of what stdout is shown in [columns]; 0: not known
}

func standardStreams() streams {
	terminal := func(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }
	return streams{
		stdin: os.Stdin, stdout: os.Stdout, stderr: os.Stderr,
		asks:        terminal(os.Stdin) && terminal(os.Stdout),
		errTerminal: terminal(os.Stderr),
		window:      window(os.Getenv("COLUMNS"), os.Stdout),
	}
}

// window is how wide the window of a file is: what COLUMNS says, else what a terminal does. 0: neither is there.
func window(columns string, f *os.File) int {
	if n, err := strconv.Atoi(columns); err == nil && n > 0 {
		return n
	}
	width, _, err := term.GetSize(int(f.Fd()))
	if err != nil {
		return 0 // a file or a pipe
	}
	return width
}
