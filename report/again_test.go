package report

import (
	"strings"
	"testing"
)

// A repeat is the same only where every table was made both times, with one digest.
func TestCompareTables(t *testing.T) {
	then := &RunRecord{Version: "1", Tables: map[string]string{"a.csv": "00", "b.csv": "11", "c.csv": "22"}}
	for _, c := range []struct {
		now   map[string]string
		first string
		has   []string
	}{
		{map[string]string{"a.csv": "00", "b.csv": "11", "c.csv": "22"}, "THE SAME AGAIN. All 3 tables are identical.", nil},
		{map[string]string{"a.csv": "00", "b.csv": "12", "c.csv": "22"}, "NOT THE SAME. 1 of 3 tables differs.", []string{"b.csv          differs", "--out DIR"}},
		{map[string]string{"a.csv": "00", "c.csv": "22", "d.csv": ""}, "NOT THE SAME. 2 of 4 tables differ.", []string{"b.csv          not written this time", "d.csv          not written then"}},
	} {
		var out strings.Builder
		if err := AgainScreen(&out, then.Compare(c.now, "2"), "again"); err != nil {
			t.Fatal(err)
		}
		for _, want := range append(c.has, c.first+"\n", "then 1, now 2", "Results      again") {
			if !strings.Contains(out.String(), want) {
				t.Errorf("%v: no %q in\n%s", c.now, want, out.String())
			}
		}
	}
}

// Inputs are known by their content: another name is no change, another byte is.
func TestChangedInputs(t *testing.T) {
	then := &RunRecord{Inputs: map[string]string{"layout.toml": "aa", "weather.csv": "bb", "weather.csv (2)": "bb"}}
	for _, c := range []struct {
		now  map[string]string
		want string
	}{
		{map[string]string{"layout.toml": "aa", "w.csv": "bb", "v.csv": "bb"}, ""},
		{map[string]string{"layout.toml": "ac", "weather.csv": "bb", "weather.csv (2)": "bb"}, "layout.toml: other content than in the run"},
		{map[string]string{"layout.toml": "aa", "weather.csv": "bb"}, "weather.csv (2): nothing"},
		{map[string]string{"layout.toml": "aa", "weather.csv": "bb", "weather.csv (2)": "bb", "pump.csv": "dd"}, "pump.csv: an input that the run did not have"},
	} {
		var got []string
		for _, x := range then.ChangedInputs(c.now) {
			got = append(got, x.Name+": "+x.Found)
		}
		if strings.Join(got, "; ") != c.want {
			t.Errorf("%v: got %q, want %q", c.now, got, c.want)
		}
	}
}

// No summary leads a reader out of the folder in which it looks for files.
func TestRunRecordKeepsToNames(t *testing.T) {
	for _, name := range []string{"../w.csv", "/etc/hosts", "a/b.csv", "..", ".", ""} {
		text := `{"schema": "` + runSchema + `", "settings": {"weather": "` + name + `"}, "tables": {"a.csv": "00"}}`
		if r, found, _ := ReadRunRecord([]byte(text)); r != nil || !strings.HasPrefix(found, "the path ") {
			t.Errorf("%q: read %v, found %q", name, r, found)
		}
	}
	if r, found, _ := ReadRunRecord([]byte(`{"schema": "` + runSchema + `", "settings": {"weather": "w.csv"}, "tables": {"a.csv": "00"}}`)); r == nil {
		t.Error(found)
	}
}
