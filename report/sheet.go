package report

import (
	"io"
	"strings"
)

// sheet gathers what a command prints, in lines that fit the window.
type sheet struct {
	width int // columns
	out   strings.Builder
}

// newSheet is an empty sheet for a window of the given width; 0: not known.
func newSheet(window int) *sheet { return &sheet{width: columns(window)} }

// line adds a paragraph from edge to edge.
func (p *sheet) line(words string) { p.indented(words, 0, 0) }

// indented adds a paragraph whose first line, and whose others, begin so many columns in.
func (p *sheet) indented(words string, first, others int) {
	indent := first
	for _, line := range wrap(words, p.width-max(first, others)) {
		p.out.WriteString(strings.TrimRight(strings.Repeat(" ", indent)+line, " ") + "\n")
		indent = others
	}
}

// blocks adds blocks, one below the other; those without lines leave no trace.
func (p *sheet) blocks(blocks ...block) {
	for _, b := range blocks {
		p.out.WriteString(b.within(p.width))
	}
}

// rows adds a table from edge to edge; its rows are never broken.
func (p *sheet) rows(table [][]string) {
	for _, row := range rowsOf(table) {
		p.out.WriteString(row + "\n")
	}
}

// gap adds an empty line.
func (p *sheet) gap() { p.out.WriteString("\n") }

// print writes what was gathered.
func (p *sheet) print(w io.Writer) error {
	_, err := io.WriteString(w, p.out.String())
	return err
}
