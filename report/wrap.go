package report

import (
	"strings"
	"unicode/utf8"
)

const (
	screenWidth = 92 // columns where the window's own are not known; fits a printed page
	labelWidth  = 13

	// Windows narrower than the first are printed for as if they were that wide; wider ones than
	// the second are not filled, because long lines are hard to read.
	narrowest, widest = 60, 100

	rowIndent = 2 // of a table below its label
)

// columns is how wide lines may be in a window of the given width; 0: not known.
func columns(window int) int {
	if window == 0 {
		return screenWidth
	}
	return min(max(window, narrowest), widest)
}

// block is what stands beside one label on the screen: paragraphs, each wrapped, or rows of a table. One entry may hold
// several lines.
type block struct {
	label string
	lines []string
}

// within lays the block out, its label on the first line, in a window of the given width. A table that is too wide to stand
// beside its label stands below it.
func (b block) within(width int) string {
	var out strings.Builder
	b.lines = split(b.lines)
	label, indent := b.label, labelWidth
	if b.widestRow() > width-labelWidth {
		if label != "" {
			out.WriteString(label + "\n")
		}
		label, indent = "", rowIndent
		if b.widestRow() > width-rowIndent {
			indent = 0
		}
	}
	for _, paragraph := range b.lines {
		for _, line := range wrap(paragraph, width-indent) {
			out.WriteString(strings.TrimRight(pad(label, indent)+line, " ") + "\n")
			label = ""
		}
	}
	return out.String()
}

// split takes entries of several lines apart.
func split(entries []string) (lines []string) {
	for _, entry := range entries {
		lines = append(lines, strings.Split(entry, "\n")...)
	}
	return lines
}

// widestRow is how wide the rows of tables among a block's lines are; 0: there are none.
func (b block) widestRow() (width int) {
	for _, line := range b.lines {
		if isRow(line) {
			width = max(width, utf8.RuneCountInString(line))
		}
	}
	return width
}

// isRow says whether a line is a row of a table: blanks stand side by side in it.
func isRow(line string) bool { return strings.Contains(line, "  ") }

// wrap breaks a paragraph at spaces into lines of at most width characters; a longer
// word stays whole, and a number stays with its unit. A paragraph that fits keeps its own spacing.
func wrap(paragraph string, width int) []string {
	if utf8.RuneCountInString(paragraph) <= width {
		return []string{paragraph}
	}
	var lines []string
	line := ""
	for _, word := range glued(strings.Fields(paragraph)) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}

// glued joins every number to the word behind it, which is mostly its unit.
func glued(words []string) (out []string) {
	for i, word := range words {
		if i > 0 && isNumber(words[i-1]) && !isNumber(word) {
			out[len(out)-1] += " " + word
		} else {
			out = append(out, word)
		}
	}
	return out
}

// isNumber says whether a word is a number, bracketed or not: "1,324", "-12", "(0.21".
func isNumber(word string) bool {
	digits := strings.TrimLeft(word, "(-+±")
	return digits != "" && strings.Trim(digits, "0123456789.,") == "" && strings.ContainsAny(digits[len(digits)-1:], "0123456789")
}

// pad fills a string with spaces on the right.
func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
}

// padLeft fills a string with spaces on the left.
func padLeft(s string, width int) string {
	return strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s))) + s
}

// paragraph joins sentences to one block of text.
func paragraph(sentences []string) []string {
	if len(sentences) == 0 {
		return nil
	}
	text := strings.Join(sentences, " ")
	return []string{capital(text)}
}
