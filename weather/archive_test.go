package weather

import (
	"bytes"
	"compress/gzip"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// sampleRecord reads a file of testdata by the reader that its content asks for.
func sampleRecord(t *testing.T, format, name string, o Options) *record {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", format, name))
	if err != nil {
		t.Fatal(err)
	}
	return recordOf(t, name, data, o)
}

func recordOf(t *testing.T, name string, data []byte, o Options) *record {
	t.Helper()
	src := newSource(name, bytes.NewReader(data), o)
	f, ok := formatOf(src.head())
	if !ok {
		t.Fatalf("%s: no format recognised", name)
	}
	r, problems := f.read(src)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if r.format != f.name {
		t.Errorf("%s: recognised as %s, read as %s", name, f.name, r.format)
	}
	return r
}

// dataFolder is the folder of recorded files that WINTERLINE_DATA names; without it the
// test is skipped.
func dataFolder(t *testing.T) string {
	t.Helper()
	folder := os.Getenv("WINTERLINE_DATA")
	if folder == "" {
		t.Skip("WINTERLINE_DATA names no folder of records")
	}
	return folder
}

// archiveRecord reads a recorded file below that folder.
func archiveRecord(t *testing.T, path ...string) *record {
	t.Helper()
	f, err := os.Open(filepath.Join(dataFolder(t), filepath.Join(path...)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return recordOf(t, path[len(path)-1], data, Options{})
}

// of returns the values of a quantity; nil where the record does not have it.
func (r *record) of(q *quantity) []float64 {
	for _, c := range r.columns {
		if c.quantity == q {
			return c.values
		}
	}
	return nil
}

// wantColumn compares values to 1e-12; NaN stands for missing.
func wantColumn(t *testing.T, what string, got []float64, want ...float64) {
	t.Helper()
	same := func(a, b float64) bool { return math.Abs(a-b) <= 1e-12 || math.IsNaN(a) && math.IsNaN(b) }
	if !slices.EqualFunc(got, want, same) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// wantStamps compares the first and the last stamp, and the number of rows.
func wantStamps(t *testing.T, r *record, rows int, first, last string) {
	t.Helper()
	const form = "2006-01-02 15:04"
	n := len(r.stamp)
	if n != rows || wall(r.stamp[0]).Format(form) != first || wall(r.stamp[n-1]).Format(form) != last {
		t.Errorf("got %d rows from %s to %s; want %d from %s to %s", n, wall(r.stamp[0]), wall(r.stamp[n-1]), rows, first, last)
	}
}

// wantNote looks for a note that has all the given words.
func wantNote(t *testing.T, r *record, warning bool, words ...string) {
	t.Helper()
	for _, n := range r.notes {
		has := func(word string) bool { return strings.Contains(n.String(), word) }
		if n.Warning == warning && !slices.ContainsFunc(words, func(w string) bool { return !has(w) }) {
			return
		}
	}
	t.Errorf("no note (warning %v) with %q among %v", warning, words, r.notes)
}

var none = math.NaN() // a missing value

// summary is what an independent count of a file can be compared with.
type summary struct {
	n, missing int
	low, high  float64
	sum        float64
}

func summarize(values []float64) summary {
	s := summary{n: len(values), low: math.Inf(1), high: math.Inf(-1)}
	for _, v := range values {
		if math.IsNaN(v) {
			s.missing++
			continue
		}
		s.low, s.high, s.sum = min(s.low, v), max(s.high, v), s.sum+v
	}
	return s
}

// wantSummary compares what was read with a count made by another tool.
func wantSummary(t *testing.T, what string, values []float64, want summary) {
	t.Helper()
	got := summarize(values)
	if math.Abs(got.sum-want.sum) > 1e-6 || math.Abs(got.low-want.low) > 1e-9 || math.Abs(got.high-want.high) > 1e-9 ||
		got.n != want.n || got.missing != want.missing {
		t.Errorf("%s: got %+v, want %+v", what, got, want)
	}
}
