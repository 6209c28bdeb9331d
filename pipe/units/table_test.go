package units

import (
	"reflect"
	"strings"
	"testing"
	"time"
)

func TestReadTable(t *testing.T) {
	text := "\xef\xbb\xbf# a comment, with a \" in it\r\n\r\n time , air_temp_c\r\n  # indented\r\n2026-01-17 05:00, -3.5\r\n\r\n   \r\n\"2026-01-17 06:00\",\"-4\"\r\n2026-01-17 07:00,"
	table, ps := ReadTable("w.csv", strings.NewReader(text))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	if want := []string{"time", "air_temp_c"}; !reflect.DeepEqual(table.Header, want) || table.HeaderLine != 3 {
		t.Errorf("header %q on line %d, want %q on line 3", table.Header, table.HeaderLine, want)
	}
	want := [][]string{{"2026-01-17 05:00", "-3.5"}, {"2026-01-17 06:00", "-4"}, {"2026-01-17 07:00", ""}}
	if !reflect.DeepEqual(table.Rows, want) {
		t.Errorf("rows %q, want %q", table.Rows, want)
	}
	if want := []int{5, 8, 9}; !reflect.DeepEqual(table.Lines, want) {
		t.Errorf("lines %v, want %v", table.Lines, want)
	}
	if table.Column("air_temp_c") != 1 || table.Column("wind") != -1 {
		t.Error("columns not found by name")
	}
}

func TestReadTableProblems(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"empty", "", "t.csv:1: found no header row; expected a first row that names the columns"},
		{"comments alone", "# nothing\n", "t.csv:1: found no header row; expected a first row that names the columns"},
		{"short and long rows", "a,b\n1\n1,2\n1,2,3\n", "t.csv:2: found 1 field; expected 2, as in the header row\nt.csv:4: found 3 fields; expected 2, as in the header row"},
		{"header twice", "a,a,\n", "t.csv:1: column 2: found \"a\" again; expected each column once\nt.csv:1: column 3: found no name; expected a column name"},
		{"stray quote", "a,b\n1\"2,3\n4,5\n", "t.csv:2: found a stray quote; expected fields such as 1.5 or \"text\", quotes inside doubled"},
		{"long line", "a,b\n1," + strings.Repeat("9", MaxLine) + "\n", "t.csv:2: found a line of more than 64 KiB; expected a text table with shorter lines"},
	} {
		if _, ps := ReadTable("t.csv", strings.NewReader(c.text)); ps.Error() != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, ps.Error(), c.want)
		}
	}
}

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]float64{"12": 12, " -0.5 ": -0.5, "1.2e3": 1200, "+4": 4, "-0": 0} {
		if got, err := ParseNumber(text); err != nil || got != want {
			t.Errorf("ParseNumber(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "nan", "NaN", "Inf", "-inf", "infinity", "0x1p4", "1_000", "1e999", "12 mm", "1,5", "--1", "trace", "1e", "e"} {
		if v, err := ParseNumber(text); err == nil {
			t.Errorf("ParseNumber(%q) = %v, want an error", text, v)
		}
	}
}

func TestParseTime(t *testing.T) {
	want := time.Date(2026, 1, 17, 5, 0, 0, 0, time.UTC)
	for _, text := range []string{"2026-01-17 05:00", "2026-01-17T05:00", "2026-01-17T05:00:00", " 2026-01-17 05:00:00 ",
		"2026-01-17T05:00:00Z", "2026-01-17T05:00:00-06:00", "2026-01-17T05:00:00+01:00"} { // an offset keeps the wall clock
		if got, err := ParseTime(text); err != nil || !got.Equal(want) {
			t.Errorf("ParseTime(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "yesterday", "2026-02-30 05:00", "17.01.2026", "0001-01-01", "9999-12-31 00:00", "05:00"} {
		if got, err := ParseTime(text); err == nil {
			t.Errorf("ParseTime(%q) = %v, want an error", text, got)
		}
	}
}

// A word after a stamp is advised upon where the stamp would do without it.
func TestParseTimeAdvises(t *testing.T) {
	for text, advised := range map[string]bool{"2026-01-17 05:00 EST": true, "2026-01-17 5:00 PM": true, "2026-01-17 05:00 PM": true,
		"yesterday evening": false, "2026-01-17 05:00 5": false} {
		_, err := ParseTime(text)
		if err == nil || strings.Contains(err.Error(), "local standard time") != advised {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestOffsetOf(t *testing.T) {
	for text, want := range map[string]string{"2026-01-17T05:00:00-06:00": "-06:00", " 2026-01-17 05:00Z ": "Z", "2026-01-17 05:00": "", "2026-01-17": "", "": ""} {
		if got := OffsetOf(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Names of columns and keys are shown as they stand, but for what a terminal would obey.
func TestProblemsHoldNoControls(t *testing.T) {
	p := Problem{File: "w.csv", Line: 1, Key: "a\x1b[31m\rb", Found: "“ü” −2\u202e", Expected: "a name"}
	if got, want := p.Error(), `w.csv:1: a\x1b[31m\rb: found “ü” −2\u202e; expected a name`; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestProblemForm(t *testing.T) {
	p := Problem{File: "layout.toml", Line: 12, Key: "yard run.length", Found: "30 (a bare number)", Expected: "a length"}
	if got, want := p.Error(), "layout.toml:12: yard run.length: found 30 (a bare number); expected a length"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if err := (Problems)(nil).Err(); err != nil {
		t.Errorf("no problems, yet the error %v", err)
	}
	many := make(Problems, 250)
	if got := strings.Count(many.Error(), "\n"); got != 100 || !strings.HasSuffix(many.Error(), "and 150 more like these") {
		t.Errorf("250 problems print %d line ends", got)
	}
}

// Of a table that is another thing altogether not every fault is told, nor every row kept.
func TestReadTableGivesUp(t *testing.T) {
	_, problems := ReadTable("t.csv", strings.NewReader("a,b\n"+strings.Repeat("1\n", 10*MaxProblems)))
	if n := len(problems); n != MaxProblems+1 || !strings.Contains(problems[n-1].Found, "more faults after the 200 above") {
		t.Errorf("%d faults, the last %v", n, problems[n-1])
	}
	table, problems := ReadTable("t.csv", strings.NewReader("a\n"+strings.Repeat("1\n", MaxRows+5)))
	if len(problems) != 1 || problems[0].Found != "more than 2,000,000 rows" || len(table.Rows) != MaxRows {
		t.Errorf("%d rows, %v", len(table.Rows), problems)
	}
}
