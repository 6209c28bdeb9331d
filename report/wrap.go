package report

import (
	"strings"
	"unicode/utf8"
)

const (
	screenWidth = 96 // columns; fits a 100-column window and a printed page
	labelWidth  = 13
)

// block is what stands beside one label on the screen: paragraphs, each wrapped.
type block struct {
	label string
	lines []string
}

// text lays the block out with its label on the first line.
func (b block) text() string { return b.within(screenWidth) }

// within lays the block out in a window of the given width.
func (b block) within(width int) string {
	var out strings.Builder
	label := b.label
	for _, paragraph := range b.lines {
		for _, line := range wrap(paragraph, width-labelWidth) {
			out.WriteString(strings.TrimRight(pad(label, labelWidth)+line, " ") + "\n")
			label = ""
		}
	}
	return out.String()
}

// wrap breaks a paragraph at spaces into lines of at most width characters; a longer
// word stays whole. A paragraph that fits keeps its own spacing.
func wrap(paragraph string, width int) []string {
	if utf8.RuneCountInString(paragraph) <= width {
		return []string{paragraph}
	}
	var lines []string
	line := ""
	for _, word := range strings.Fields(paragraph) {
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
