package pipe

import (
	"errors"
	"sort"
	"strconv"
	"strings"
	"unicode"

	"github.com/pelletier/go-toml/v2/unstable"

	"winterline/pipe/units"
)

// maxSyntaxErrors is how many broken lines are told apart before reading stops.
const maxSyntaxErrors = 20

// recover reports a syntax error and starts again on the next line, if the broken one is a
// plain `key = …`, whose key is then taken as written but unusable.
func (r *tomlReader) recover(err error) bool {
	offset := len(r.text)
	var parse *unstable.ParserError
	if errors.As(err, &parse) && len(parse.Highlight) > 0 {
		offset = r.base + int(r.parser.Range(parse.Highlight).Offset)
	}
	opened, unclosed := r.unclosedText(err)
	if unclosed {
		offset = opened
	}
	index := sort.SearchInts(r.newlines, offset)
	start, end := 0, len(r.text)
	if index > 0 {
		start = r.newlines[index-1] + 1
	}
	if index < len(r.newlines) {
		end = r.newlines[index]
	}
	line := strings.TrimSpace(string(r.text[start:end]))
	r.problems = append(r.problems, syntaxProblem(r.file, index+1, line, err))
	key, _, isKey := bareKey(line)
	last := end == len(r.text)
	if unclosed || !isKey || !last && len(r.problems) >= maxSyntaxErrors {
		return false
	}
	r.breakKey(key, index+1)
	r.base = min(end+1, len(r.text)) // there is no line end after the last line
	r.parser.Reset(r.text[r.base:])
	return true
}

// unclosedText returns where a text opens whose three quotes never close: it has taken up all that
// follows, and the parser knows only the end of the file.
func (r *tomlReader) unclosedText(err error) (offset int, unclosed bool) {
	_, quotes, found := strings.Cut(err.Error(), "string not terminated by ")
	if !found {
		return 0, false
	}
	offset = strings.LastIndex(string(r.text), quotes)
	return offset, offset >= 0
}

// breakKey notes a key whose value could not be read, so that it is not told again as missing.
func (r *tomlReader) breakKey(key string, line int) {
	if r.current.children[key] == nil {
		r.current.set(key, &node{kind: brokenNode, line: line})
	}
}

// bareKey parts a line of the form `key = value`.
func bareKey(line string) (key, value string, ok bool) {
	key, value, ok = strings.Cut(line, "=")
	key = strings.TrimSpace(key)
	const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-"
	return key, strings.TrimSpace(value), ok && key != "" && strings.Trim(key, letters) == ""
}

// syntaxProblem words a syntax error; a quantity without quotes is the usual one.
func syntaxProblem(file string, lineNumber int, line string, err error) units.Problem {
	p := units.Problem{File: file, Line: lineNumber, Found: visible(line), Expected: "valid TOML (" + err.Error() + ")"}
	key, value, isKey := bareKey(line)
	if value == "" || !isKey {
		return p
	}
	p.Key, p.Found = key, visible(value)
	if value[0] != '"' && value[0] != '\'' && value[0] != '[' && value[0] != '{' {
		p.Expected = "a value in quotes, such as " + key + ` = "` + units.Shorten(strings.TrimSpace(strings.Split(value, "#")[0])) + `"`
	}
	return p
}

// visible shows a piece of the file as it stands, or with escapes where it would not be seen.
func visible(s string) string {
	s = units.Shorten(s)
	if s == "" || strings.ContainsFunc(s, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return strconv.Quote(s)
	}
	return s
}
