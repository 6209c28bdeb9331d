package report

import (
	"io"
	"strings"

	"winterline/sim"
)

// groundWidth is the width of the ground's screen [columns]: any terminal, and a page to take
// along.
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
		{"Caution", []string{GroundCaution}},
	}
	_, err := io.WriteString(w, groundText(r, s, blocks))
	return err
}

// GroundBrief prints the answer, where the results are ("" for nowhere) and the caution.
func GroundBrief(w io.Writer, r *sim.GroundResult, s System, folder string) error {
	_, err := io.WriteString(w, groundText(r, s, []block{
		{"Results", optional(folder)}, {"Caution", []string{GroundCaution}},
	}))
	return err
}

// groundText puts the answer above blocks.
func groundText(r *sim.GroundResult, s System, blocks []block) string {
	var out strings.Builder
	for _, line := range wrap(GroundHeadline(r, s), groundWidth) {
		out.WriteString(line + "\n")
	}
	for _, b := range blocks {
		out.WriteString(b.within(groundWidth))
	}
	return out.String()
}

func groundPlaceWords(r *sim.GroundResult, o Options) []string {
	name := o.Case
	if name == "" {
		name = r.Name
	}
	if r.Title != "" && r.Title != name {
		name = strings.TrimSpace(name + "  " + r.Title)
	}
	return packedWithin(groundWidth-labelWidth, name, datesOf(r.Start, r.Time), weatherWords(o))
}

// guessedWords lists the guesses that the ground rests on, with their ranges.
func guessedWords(r *sim.GroundResult, s System) []string {
	if len(r.Guesses) == 0 {
		return []string{"nothing on the site was left to a guess"}
	}
	lines := []string{"nobody measured these; usual values stand in:"}
	for _, g := range r.Guesses {
		lines = append(lines, g.Key+" = "+guessWords(g, s))
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
