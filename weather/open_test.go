package weather

import (
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"winterline/pipe/units"
)

const twoHours = "time,air_temp_c\n2026-01-17 05:00,-3\n2026-01-17 06:00,-4\n"

func packed(t *testing.T, text string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write([]byte(text)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func writeFiles(t *testing.T, files map[string][]byte) (dir string) {
	t.Helper()
	dir = t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// openAll reads the files that paths name.
func openAll(paths []string, o Options) (*Series, units.Problems) {
	files, problems := Files(paths)
	if len(problems) > 0 {
		return nil, problems
	}
	return ReadFiles(files, o)
}

// A folder's files join in the order of their names, compressed or not; hidden ones are
// left alone.
func TestOpenFolder(t *testing.T) {
	dir := writeFiles(t, map[string][]byte{
		"1.csv.gz": packed(t, twoHours),
		"2.txt":    []byte("time,air_temp_f\n2026-01-17 07:00,23\n2026-01-17 08:00,14\n"),
		".hidden":  []byte("nothing to read"),
	})
	s, problems := openAll([]string{dir}, Options{})
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if want := []float64{-3, -4, -5, -10}; !slices.Equal(s.Air, want) || s.End() != 3*3600 {
		t.Errorf("air %v over %g s, want %v", s.Air, s.End(), want)
	}
	alone, problems := openAll([]string{filepath.Join(dir, "2.txt"), filepath.Join(dir, "1.csv.gz")}, Options{})
	if err := problems.Err(); err != nil || !slices.Equal(alone.Air, s.Air) {
		t.Errorf("named one by one, the later first: %v, %v", alone, err)
	}
}

// What is not weather is refused by its name, and so is what is not there; nothing is
// left out silently.
func TestOpenRefuses(t *testing.T) {
	dir := writeFiles(t, map[string][]byte{"1.csv": []byte(twoHours), "notes.txt": []byte("the station stood in a valley\n")})
	_, problems := openAll([]string{dir}, Options{})
	if len(problems) != 1 || !strings.HasSuffix(problems[0].File, "/notes.txt") || problems[0].Found != "no format that is known" ||
		!strings.Contains(problems[0].Expected, plainName) {
		t.Errorf("got %v, want notes.txt refused", problems)
	}
	_, problems = openAll([]string{filepath.Join(dir, "gone.csv"), t.TempDir()}, Options{})
	if len(problems) != 2 || problems[0].Found != "no such file" || problems[1].Found != "an empty folder" {
		t.Errorf("got %v", problems)
	}
}

// A small file that expands without end is stopped.
func TestOpenBomb(t *testing.T) {
	if os.Getenv("WINTERLINE_LONG") == "" {
		t.Skip("expands a gigabyte: WINTERLINE_LONG is not set")
	}
	text := io.MultiReader(strings.NewReader("time,air_temp_c\n"), blankLines{})
	_, problems := Read("bomb.csv", text)
	if len(problems) != 1 || problems[0].Found != "more than 1 GiB of text" {
		t.Errorf("got %v", problems)
	}
}

// blankLines is a text of long blank lines without end.
type blankLines struct{}

func (blankLines) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = ' '
	}
	p[len(p)-1] = '\n'
	return len(p), nil
}

// Columns that a hostile header names thousands of times may not fill the memory.
func TestTooManyValues(t *testing.T) {
	if os.Getenv("WINTERLINE_LONG") == "" {
		t.Skip("reads forty million values: WINTERLINE_LONG is not set")
	}
	var b bytes.Buffer
	b.WriteString("time,air_temp_c")
	const many = 2000
	for i := range many {
		b.WriteString(",soil_temp_" + decimal(float64(i)/2) + "cm_c")
	}
	b.WriteByte('\n')
	commas := strings.Repeat(",", many) + "\n"
	for i := range maxValues/many + 10 {
		b.Write(appendStamp(nil, int64(i)*3600))
		b.WriteString(",1" + commas)
	}
	_, problems := Read("wide.csv", &b)
	if len(problems) != 1 || problems[0].Found != "more than 40,000,000 values" {
		t.Errorf("got %v", problems)
	}
}

// Rows that are all out of order end the reading before the memory is full of complaints.
func TestTooManyFaults(t *testing.T) {
	var b bytes.Buffer
	b.WriteString("time,air_temp_c\n")
	for i := range 3 * maxFound {
		b.Write(appendStamp(nil, int64(-i)*3600))
		b.WriteString(",1\n")
	}
	_, problems := Read("w.csv", &b)
	if n := len(problems); n != 4 || !strings.Contains(problems[2].Found, "9997 more like it") || !strings.Contains(problems[3].Found, "10,000 problems up to here") {
		t.Errorf("%d problems, the last %v", len(problems), problems[len(problems)-1])
	}
}

// A typical year stays one in the plain form.
func TestTypicalStays(t *testing.T) {
	s := mustRead(t, twoHours)
	s.Typical = true
	var b bytes.Buffer
	if err := s.WritePlain(&b); err != nil {
		t.Fatal(err)
	}
	if back := mustRead(t, b.String()); !back.Typical {
		t.Errorf("lost in\n%s", b.String())
	}
}
