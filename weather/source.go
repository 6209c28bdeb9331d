package weather

import (
	"bufio"
	"bytes"
	"compress/flate"
	"compress/gzip"
	"errors"
	"io"

	"winterline/pipe/units"
)

// Options are what a user states about weather files beyond what they say themselves.
// The zero value takes files as they are.
type Options struct {
	// Zone is local standard time less UTC [h], such as -5, for files in UTC; nil: not stated.
	Zone *float64
	// Mend repairs in the plain form, too, what would be refused there: rows twice or out
	// of order, codes for missing values. Files of archives are always mended.
	Mend bool
}

// Limits on a weather file; what is over is refused with the limit named.
const (
	maxRows     = units.MaxRows
	maxProblems = 200            // told one by one
	maxLine     = units.MaxLine  // bytes of a line
	maxValues   = 20 * maxRows   // 320 MB
	maxBytes    = 1 << 30        // of the text, where it was compressed when it is not any more
	headRoom    = 100_000        // lines besides rows: comments, blanks, headers
	headBytes   = 64 << 10       // of a file, to recognise it by
	byteMark    = "\xef\xbb\xbf" // byte-order mark of UTF-8
)

// source is a weather file being read, line by line. It never holds more than one line.
type source struct {
	name    string // as the user named it
	options Options
	in      *bufio.Reader
	line    int            // 1-based number of the latest line
	bytes   int            // read so far
	ended   *units.Problem // why reading stopped before the end of the file
}

// newSource reads from r, which is no longer compressed.
func newSource(name string, r io.Reader, o Options) *source {
	s := &source{name: name, options: o, in: bufio.NewReaderSize(r, max(maxLine, headBytes))}
	if mark, err := s.in.Peek(len(byteMark)); err == nil && string(mark) == byteMark {
		_, _ = s.in.Discard(len(byteMark)) // they are there: they were just seen
	}
	return s
}

// head returns the beginning of what is not yet read, up to 64 KiB; it stays unread.
func (s *source) head() []byte {
	head, _ := s.in.Peek(headBytes) // a shorter file is all there is
	return head
}

// next returns the next line without its end; it is valid, and may be written to, until
// the call after. ok is false at the end of the file, and at what stops reading before:
// see stopped.
func (s *source) next() (line []byte, ok bool) {
	if s.ended != nil {
		return nil, false
	}
	line, err := s.in.ReadSlice('\n')
	if len(line) == 0 && err == io.EOF {
		return nil, false
	}
	s.line++
	s.bytes += len(line)
	switch {
	case s.bytes > maxBytes:
		s.stop(0, "more than 1 GiB of text", "less; split the record")
		return nil, false
	case errors.Is(err, bufio.ErrBufferFull) || len(line) > maxLine:
		s.stop(s.line, "a line of more than 64 KiB", "a text table with shorter lines")
		return nil, false
	case err != nil && err != io.EOF:
		s.stop(0, readingFault(err), "a readable file")
		return nil, false
	case s.line > maxRows+headRoom:
		s.stopAtRows()
		return nil, false
	}
	line = bytes.TrimSuffix(line, []byte("\n"))
	return bytes.TrimSuffix(line, []byte("\r")), true
}

// readingFault words an error of reading, of which most come from damaged compression.
func readingFault(err error) string {
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF):
		return "a gzip file that ends too soon"
	case errors.Is(err, gzip.ErrChecksum), errors.Is(err, gzip.ErrHeader), errors.As(err, new(flate.CorruptInputError)):
		return "a damaged gzip file"
	}
	return err.Error()
}

func (s *source) stop(line int, found, expected string) {
	s.ended = &units.Problem{File: s.name, Line: line, Found: found, Expected: expected}
}

func (s *source) stopAtRows() {
	s.stop(0, "more than 2,000,000 rows", "at most 2,000,000; split the record")
}

// full says whether the record holds as much as may be, and stops reading then.
func (s *source) full(r *record) bool {
	switch {
	case len(r.stamp) >= maxRows:
		s.stopAtRows()
	case len(r.stamp)*len(r.columns) >= maxValues:
		s.stop(0, "more than 40,000,000 values", "at most as many; split the record or leave columns out")
	default:
		return false
	}
	return true
}

// stopped returns why reading ended before the end of the file: a line too long, too
// many of them, a fault of the disk; nil at a proper end.
func (s *source) stopped() units.Problems {
	if s.ended == nil {
		return nil
	}
	return units.Problems{*s.ended}
}

// problem is a fault in the latest line.
func (s *source) problem(key, found, expected string) units.Problem {
	return units.Problem{File: s.name, Line: s.line, Key: key, Found: found, Expected: expected}
}
