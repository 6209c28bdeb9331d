// Package report turns a simulated winter into what people read: the verdict on screen, summary.json, tables, charts
// and a page to print. It computes no physics; it rounds, words and draws what a [sim.Result] holds.
//
// # Entry points
//
//   - The screen of a command: Screen (run), WhyScreen, CompareScreen, SizeScreen, WintersScreen, GroundScreen,
//     WeatherScreen, CheckScreen and AgainScreen; with --quiet the same names end in Brief. Options say for whom.
//   - A results folder is a list of File values, each of which can write itself. Tables, Charts, SummaryFile and
//     PageFile make those of a run, functions with the command's name before them those of the others, and
//     WriteFolderContext puts the list in place whole. TableList describes every column of every table.
//   - A summary as a value, for --json: Summarize and its like. The Summary types document the keys.
//   - EvidenceFile makes the page on how far the program is checked.
//
// # Units
//
// Files (tables, summary, charts) are SI, as their headers say. The screen follows the System that the user asked for,
// with the other unit in brackets, and temperature axes show both. A number becomes text in units.go, bothunits.go and
// numbers.go. What is not known is NaN inside and nothing, "-" or null outside.
//
// # How things hang together
//
// A screen is a sheet (sheet.go) of labelled blocks that fit the window (wrap.go); filledtable.go leaves empty columns
// out of its tables. A table declares each column once (tables.go): name, unit, meaning and how to get it.
//
// A chart is a name, a height and a function that draws (charts.go). It divides its page into panels (panel.go) with
// axes (axis.go, timeaxis.go), draws series (drawseries.go, thinned by decimate.go), and finds places for words where
// nothing runs through them (labelplaces.go, canvas.go). Colours and lettering are theme.go, explanations of signs
// key.go and glyphs.go. The drawings of pipe and ground are section.go for charts and pageline.go for the page.
//
// The page is made from page/*.html.tmpl and page/style.css by page.go, the page on evidence by evidence.go; the
// templates get every word ready.
//
// # Words
//
// What people read stands in the files on words, one a topic, so that it can be read and bettered together: caution.go;
// verdict.go (what became of line and basement), words.go and lookat.go (the screen of run), water.go (where the water
// went), causewords.go and whywords.go (why), seenwords.go (what the owner saw), remedywords.go (changes), guesswords.go
// (plain names of guesses), measurewords.go (how each is measured), surewords.go (which of them decide), sizewords.go,
// comparewords.go and comparequote.go, howclose.go (margins), practicescreen.go and practiceeffect.go (findings),
// moundwords.go, movementwords.go, trapped.go, airgap.go and draught.go (ice on the ground, frost heave, water shut in,
// air), groundwords.go, frostwords.go, groundthaw.go and buriedwords.go (the ground), eventwords.go and chartwords.go
// (the page), neglected.go (what the model leaves out), evidencewords.go (how far the program is checked). Sentences on
// findings, warnings and events are data of pipe and sim.
package report

import "io"

// File is one file of the results folder. Write may be called at any time, more
// than once, and for different files at the same time; it gives the same bytes
// every time.
type File struct {
	Name  string // plain file name, such as "segments.csv"
	Write func(w io.Writer) error
}
