package weather

import (
	"bytes"
	"fmt"

	"winterline/pipe/units"
)

// rowReader splits a comma-separated file into fields, without allocating for each row.
// Blank lines and lines that start with # are left out; fields are trimmed of blanks and
// may be quoted, even over several lines.
type rowReader struct {
	*source
	start  int               // line on which the row begins
	fields [][]byte          // of the row: valid until the next call of row
	joined []byte            // a row of several lines
	remark func(line []byte) // is told each comment line; nil: nobody is
}

// row reads the next row. ok is false at the end of the file or where reading stopped. A
// row that cannot be split gives a problem, and ok; reading may go on.
func (r *rowReader) row() (fault *units.Problem, ok bool) {
	for {
		line, ok := r.next()
		if !ok {
			return nil, false
		}
		if isRemark(line) {
			if r.remark != nil {
				r.remark(line)
			}
			continue
		}
		r.start = r.line
		switch r.split(line) {
		case strayQuote:
			return r.quoteFault("a stray quote"), true
		case openQuote:
			return r.goOn(line), true
		}
		return nil, true
	}
}

// isRemark says whether a line is blank or a comment, which may be indented or quoted.
func isRemark(line []byte) bool {
	for i, b := range line {
		switch b {
		case ' ', '\t':
		case '"':
			return bytes.HasPrefix(bytes.TrimLeft(line[i:], " \t\""), []byte("#"))
		default:
			return b == '#'
		}
	}
	return true
}

// goOn reads a row whose quoted field goes on past the end of its line.
func (r *rowReader) goOn(line []byte) *units.Problem {
	r.joined = append(r.joined[:0], line...)
	for {
		more, ok := r.next()
		if !ok || len(r.joined)+len(more) >= maxLine {
			return r.quoteFault(fmt.Sprintf("a quote that opens on line %d and never closes", r.start))
		}
		r.joined = append(append(r.joined, '\n'), more...)
		if bytes.Count(more, []byte(`"`))%2 == 0 {
			continue // still inside: quotes are closed by an odd number of them
		}
		if r.split(r.joined) != wellQuoted {
			return r.quoteFault("a stray quote")
		}
		return nil
	}
}

func (r *rowReader) quoteFault(found string) *units.Problem {
	return &units.Problem{File: r.name, Line: r.start, Found: found,
		Expected: `fields such as 1.5 or "text", quotes inside doubled`}
}

// quoting says how the quotes of a line stand.
type quoting int

const (
	wellQuoted quoting = iota
	openQuote          // the line ends inside a quoted field
	strayQuote         // a quote stands inside a field
)

// split takes a line to r.fields.
func (r *rowReader) split(line []byte) quoting {
	r.fields = r.fields[:0]
	for {
		for len(line) > 0 && (line[0] == ' ' || line[0] == '\t') {
			line = line[1:]
		}
		var field []byte
		if len(line) > 0 && line[0] == '"' {
			inside, rest, how := unquote(line[1:])
			if how != wellQuoted {
				return how
			}
			field, line = inside, rest
		} else {
			end := bytes.IndexByte(line, ',')
			if end < 0 {
				end = len(line)
			}
			if field = line[:end]; bytes.IndexByte(field, '"') >= 0 {
				return strayQuote
			}
			line = line[end:]
		}
		r.fields = append(r.fields, trimBlanks(field))
		if len(line) == 0 {
			return wellQuoted
		}
		line = line[1:] // the comma
	}
}

// unquote returns what stands inside quotes, of which the first is cut off already, and
// what comes after them: nothing or a comma.
func unquote(text []byte) (inside, rest []byte, how quoting) {
	doubled := false
	for i := 0; i < len(text); i++ {
		if text[i] != '"' {
			continue
		}
		if i+1 < len(text) && text[i+1] == '"' {
			doubled = true
			i++
			continue
		}
		if inside, rest = text[:i], text[i+1:]; len(rest) > 0 && rest[0] != ',' {
			return nil, nil, strayQuote
		}
		if doubled {
			inside = bytes.ReplaceAll(inside, []byte(`""`), []byte(`"`))
		}
		return inside, rest, wellQuoted
	}
	return nil, nil, openQuote
}

// trimBlanks is bytes.TrimSpace for the common case of nothing to trim.
func trimBlanks(field []byte) []byte {
	if n := len(field); n == 0 || field[0] > ' ' && field[0] < 0x80 && field[n-1] > ' ' && field[n-1] < 0x80 {
		return field
	}
	return bytes.TrimSpace(field)
}

// blankFields splits a line at blanks and tabs into fields, which it returns; it appends
// to fields[:0] so as not to allocate for each line.
func blankFields(line []byte, fields [][]byte) [][]byte {
	fields = fields[:0]
	for i := 0; i < len(line); {
		if line[i] == ' ' || line[i] == '\t' {
			i++
			continue
		}
		from := i
		for i < len(line) && line[i] != ' ' && line[i] != '\t' {
			i++
		}
		fields = append(fields, line[from:i])
	}
	return fields
}
