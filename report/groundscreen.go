package report

import (
	"io"
	"strings"

	"winterline/sim"
)

// groundWidth is the most that the ground's screen is wide [columns]: a page to take along.
const groundWidth = 80

// GroundScreen prints how deep the frost went, what stands behind it and the caution.
func GroundScreen(w io.Writer, r *sim.GroundResult, o Options) error {
	s := o.System
	blocks := []block{
		{"Place", groundPlaceWords(r, o)},
		{"", []string{""}},
		{"Frost", frostWords(r, s)},
		{"Thaw", thawWords(r, s)},
		{"Pipes", buriedWords(r, s)},
		{"Coldest", coldestTable(r, s)},
		{"Measured", measuredTable(r, s)},
		{"", []string{""}},
		{"Driven by", driveWords(r, s)},
		{"Snow", snowWords(r, s)},
		{"Mind", warningSentences(r.Warnings)},
		{"How sure", guessedWords(r, s)},
		{"", []string{""}},
		{"Next", optional(o.Next)},
		{"Results", optional(o.Results)},
		{"Caution", []string{groundCaution}},
	}
	return writeGroundScreen(w, r, o, blocks)
}

// GroundBrief prints the answer, where the results are and the caution.
func GroundBrief(w io.Writer, r *sim.GroundResult, o Options) error {
	return writeGroundScreen(w, r, o, []block{{"Results", optional(o.Results)}, {"Caution", []string{groundCaution}}})
}

// writeGroundScreen prints the answer above blocks.
func writeGroundScreen(w io.Writer, r *sim.GroundResult, o Options, blocks []block) error {
	p := &sheet{width: groundLine(o)}
	p.line(groundHeadline(r, o.System))
	p.blocks(blocks...)
	return p.print(w)
}

// groundLine is how wide lines may be.
func groundLine(o Options) int { return min(columns(o.Window), groundWidth) }

func groundPlaceWords(r *sim.GroundResult, o Options) []string {
	return packedWithin(groundLine(o)-labelWidth, o.caseName(r.Name, r.Title), datesOf(r.Start, r.Time), weatherWords(o))
}

// guessedWords lists the guesses that the ground rests on, with their ranges.
func guessedWords(r *sim.GroundResult, s System) []string {
	if len(r.Guesses) == 0 {
		return []string{"nothing on the site was left to a guess"}
	}
	lines := []string{"nobody measured these; usual values stand in:"}
	for _, g := range r.Guesses {
		lines = append(lines, guessName(g)+" = "+guessWords(g, s))
	}
	return lines
}

// rowsOf lays a table out: columns as wide as their widest entry, two spaces apart.
func rowsOf(table [][]string) []string {
	widths := map[int]int{}
	for _, row := range table {
		for i, entry := range row {
			widths[i] = max(widths[i], len([]rune(entry)))
		}
	}
	var lines []string
	for _, row := range table {
		line := ""
		for i, entry := range row {
			line += pad(entry, widths[i]+2)
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}
