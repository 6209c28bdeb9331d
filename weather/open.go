package weather

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// ReadFiles reads files whose format is recognised by their content, compressed by gzip or
// not, cleans each and joins them into one series. Problems come all at once.
func ReadFiles(files []File, o Options) (*Series, units.Problems) {
	r, strict, problems := readFiles(files, o)
	if r == nil {
		return nil, ordered(nameOf(files), problems)
	}
	s, more := r.series(strict)
	if problems = append(problems, more...); len(problems) > 0 {
		return nil, ordered(r.source, problems)
	}
	return s, nil
}

// ReadSpans reads files as ReadFiles does, but takes the record apart where air temperature
// is missing for more than 6 h. It returns the spans between, in order.
func ReadSpans(files []File, o Options) ([]*Series, units.Problems) {
	r, strict, problems := readFiles(files, o)
	if r == nil {
		return nil, ordered(nameOf(files), problems)
	}
	spans, more := r.spans(strict)
	if problems = append(problems, more...); len(problems) > 0 {
		return nil, ordered(r.source, problems)
	}
	return spans, nil
}

// Read reads one file that is in memory or comes from elsewhere; see ReadFiles. name is
// the file as the user named it.
func Read(name string, r io.Reader) (*Series, units.Problems) {
	return ReadFiles([]File{{Name: name, Open: func() (io.ReadCloser, error) { return io.NopCloser(r), nil }}}, Options{})
}

// readFiles reads and cleans files and joins them. strict says that all are in the plain
// form and nothing is to be mended. The record is nil where problems leave none worth
// looking at; otherwise it comes with them.
func readFiles(files []File, o Options) (r *record, strict bool, problems units.Problems) {
	if len(files) == 0 {
		return nil, false, units.Problems{{File: "weather", Found: "no file", Expected: "a weather record"}}
	}
	if len(files) > maxFiles {
		return nil, false, units.Problems{{File: files[0].Name, Found: fmt.Sprintf("%d files", len(files)), Expected: "at most 1000"}}
	}
	strict = true
	var records []*record
	for _, f := range files {
		r, ps := readFile(f, o, len(files) > 1)
		problems = append(problems, ps...)
		if r == nil {
			continue
		}
		plain := r.format == plainName && !o.Mend
		strict = strict && plain
		problems = append(problems, r.clean(plain)...)
		records = append(records, r)
	}
	if len(records) < len(files) {
		return nil, strict, problems
	}
	r, disagree := join(records, o.Mend)
	if problems = append(problems, disagree...); len(disagree) > 0 {
		return nil, strict, problems
	}
	return r, strict, problems
}

// nameOf names what is read in messages about the whole of it.
func nameOf(files []File) string {
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	return listed(names)
}

// readFile reads one file. A file among several has to be of a known format.
func readFile(f File, o Options, among bool) (*record, units.Problems) {
	in, err := f.Open()
	if err != nil {
		return nil, units.Problems{{File: f.Name, Found: "a file that cannot be read", Expected: "a weather record"}}
	}
	defer in.Close()
	text, err := expanded(in)
	if err != nil {
		return nil, units.Problems{{File: f.Name, Found: "a damaged gzip file", Expected: "a weather record, as it is or compressed with gzip"}}
	}
	src := newSource(f.Name, text, o)
	if is := foreign(src.head()); is != "" {
		return nil, units.Problems{{File: f.Name, Found: is, Expected: textAdvice}}
	}
	format, known := formatOf(src.head())
	if among && !known {
		return nil, units.Problems{{File: f.Name, Found: "no format that is known", Expected: "a weather record in one of: " + formatNames()}}
	}
	if line, first, strange := strangeHeader(src.head()); !known && strange {
		return nil, units.Problems{{File: f.Name, Line: line, Found: fmt.Sprintf("%q as the first column, and no column name that is known", units.Shorten(first)),
			Expected: "a header row such as time,air_temp_c, or a file in one of: " + strings.TrimPrefix(formatNames(), plainName+", ")}}
	}
	r, problems := format.read(src)
	if r != nil && len(problems) > 0 {
		r.lossy = true
	}
	return r, problems
}

// strangeHeader says whether the first row of a table has no name that the plain form
// knows: one message then does for all of its columns.
func strangeHeader(head []byte) (line int, first string, strange bool) {
	rows := rowReader{source: newSource("", bytes.NewReader(head), Options{})}
	if fault, ok := rows.row(); fault != nil || !ok || len(rows.fields) < 2 {
		return 0, "", false
	}
	for _, name := range rows.fields {
		if _, _, known := findColumn(string(name)); known || string(name) == "time" || bytes.ContainsAny(name, ";\t") {
			return 0, "", false
		}
	}
	return rows.start, string(rows.fields[0]), true
}

// expanded takes the compression off a text that begins as gzip does.
func expanded(in io.Reader) (io.Reader, error) {
	buffered := bufio.NewReaderSize(in, 64<<10)
	if magic, err := buffered.Peek(2); err != nil || !bytes.Equal(magic, []byte{0x1f, 0x8b}) {
		return buffered, nil
	}
	return gzip.NewReader(buffered)
}

// formatNames lists the formats that are read.
func formatNames() string {
	var names []string
	for _, f := range formats() {
		if !slices.Contains(names, f.name) {
			names = append(names, f.name)
		}
	}
	return strings.Join(names, ", ")
}
