package weather

import "bytes"

// splitCommas splits a line at its commas, quotes or not; it appends to fields[:0] so as
// not to allocate for each line.
func splitCommas(line []byte, fields [][]byte) [][]byte {
	fields = fields[:0]
	for {
		end := bytes.IndexByte(line, ',')
		if end < 0 {
			return append(fields, trimBlanks(line))
		}
		fields, line = append(fields, trimBlanks(line[:end])), line[end+1:]
	}
}

// firstLines returns up to n lines from the beginning of a file that are not blank; the
// last one is left out where the head may have cut it off.
func firstLines(head []byte, n int) [][]byte {
	var lines [][]byte
	for len(lines) < n && len(head) > 0 {
		line, rest, ended := bytes.Cut(head, []byte("\n"))
		if !ended && len(head) >= maxLine {
			break
		}
		if line = bytes.TrimSpace(line); len(line) > 0 {
			lines = append(lines, line)
		}
		head = rest
	}
	return lines
}

// hasWidths says whether the first fields are whole numbers of so many digits.
func hasWidths(fields [][]byte, widths ...int) bool {
	for i, width := range widths {
		if _, ok := parseDigits(fields[i]); !ok || len(fields[i]) != width {
			return false
		}
	}
	return true
}
