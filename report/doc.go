// Package report turns a simulated winter into what people read: the verdict on
// screen, summary.json, the tables and the charts. It computes no physics; it
// rounds, words and draws what a sim.Result holds.
//
// Files (tables, summary, charts) are SI, as their headers say. The screen follows
// the units that the user asked for, and temperature axes show both.
package report

import "io"

// File is one file of the results folder. Write may be called at any time, more
// than once, and for different files at the same time; it gives the same bytes
// every time.
type File struct {
	Name  string // plain file name, such as "segments.csv"
	Write func(w io.Writer) error
}
