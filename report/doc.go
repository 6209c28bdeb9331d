// Package report turns a simulated winter into what people read: the verdict on
// screen, summary.json, the tables and the charts. It computes no physics; it
// rounds, words and draws what a sim.Result holds.
//
// Files (tables, summary, charts) are SI, as their headers say. The screen follows
// the units that the user asked for, and temperature axes show both. A screen is a sheet
// (sheet.go) of labelled blocks that fit the window (wrap.go).
//
// What people read stands in the files on words, one a topic, so that it can be read and
// bettered together: caution.go; verdict.go (what became of line and basement), words.go
// and lookat.go (the screen of run), water.go (where the water went), causewords.go and
// whywords.go (why), remedywords.go (changes), guesswords.go (plain names of guesses),
// measurewords.go (how each is measured), surewords.go (which of them decide),
// sizewords.go, comparewords.go, howclose.go (margins), practicescreen.go and
// practiceeffect.go (findings), groundwords.go, frostwords.go and buriedwords.go (the
// ground), evidencewords.go (how far the program is checked). Sentences on findings, warnings and events are data of pipe and sim.
package report

import "io"

// File is one file of the results folder. Write may be called at any time, more
// than once, and for different files at the same time; it gives the same bytes
// every time.
type File struct {
	Name  string // plain file name, such as "segments.csv"
	Write func(w io.Writer) error
}
