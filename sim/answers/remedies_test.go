package answers

import (
	"bytes"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

const hardWeek, twoHardDays, rainFirst = "hard-week.csv", "two-hard-days.csv", "rain-then-hard-week.csv"

// scenarioSource reads a small layout of testdata/scenario and the weather it is run over.
func scenarioSource(t testing.TB, name, record string) Source {
	t.Helper()
	const dir = "../../testdata/scenario"
	return Source{Name: name, File: "layout.toml", Text: fileText(t, filepath.Join(dir, name, "layout.toml")),
		Weather: readWeather(t, filepath.Join(dir, "weather", record))}
}

// demoSource is the demonstration.
func demoSource(t testing.TB) Source {
	t.Helper()
	const dir = "../../cmd/winterline/demo"
	cycles, problems := pipe.ReadCycles("pump.csv", bytes.NewReader(fileText(t, filepath.Join(dir, "pump.csv"))))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return Source{Name: "demo", File: "layout.toml", Text: fileText(t, filepath.Join(dir, "layout.toml")),
		Weather: readWeather(t, filepath.Join(dir, "weather.csv")), Supply: sim.Supply{Cycles: cycles, Given: true}}
}

func fileText(t testing.TB, file string) []byte {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func readWeather(t testing.TB, file string) *weather.Series {
	t.Helper()
	series, problems := weather.Read(filepath.Base(file), bytes.NewReader(fileText(t, file)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return series
}

// changesOf lists the changes that apply to a source.
func changesOf(t testing.TB, s Source) []Change {
	t.Helper()
	base, err := s.Case()
	if err != nil {
		t.Fatal(err)
	}
	return Changes(s, base, baseOf(t, s))
}

func findChange(t testing.TB, list []Change, key string) Change {
	t.Helper()
	for _, c := range list {
		if c.Key == key {
			return c
		}
	}
	var keys []string
	for _, c := range list {
		keys = append(keys, c.Key)
	}
	t.Fatalf("no change %q among %s", key, strings.Join(keys, ", "))
	return Change{}
}

// byHand replaces lines of a layout's text, each of which it has exactly once.
func byHand(t testing.TB, s Source, lines ...string) Source {
	t.Helper()
	text := string(s.Text)
	for i := 0; i < len(lines); i += 2 {
		if n := strings.Count(text, lines[i]); n != 1 {
			t.Fatalf("%q stands in the layout %d times", lines[i], n)
		}
		text = strings.Replace(text, lines[i], lines[i+1], 1)
	}
	s.Text = []byte(text)
	return s
}

// A change is what a person writes into the layout's file to make it.
func TestChangesByHand(t *testing.T) {
	const yardRun = "pipe = \"4 in D3034\"\nlength = \"6 m\"\n"
	for _, test := range []struct {
		scenario, record, key string
		lines                 []string
	}{
		{"sag", hardWeek, "insulation/yard run/25 mm", []string{"\nsag = \"7 cm\"\n", "\nsag = \"7 cm\"\n[[segment.insulation]]\nthickness = \"25 mm\"\nmaterial = \"closed-cell foam\"\n"}},
		{"sag", hardWeek, "sag/yard run", []string{"\nsag = \"7 cm\"\n", "\nsag = \"0 in\"\n"}},
		{"sag", hardWeek, "snow", []string{`snow_on_line = "cleared"`, `snow_on_line = "natural"`}},
		{"sag", hardWeek, "relief-width", []string{"height = \"20 cm\"\nwidth = \"75 mm\"", "height = \"20 cm\"\nwidth = \"150 mm\""}},
		// 60 mm of outside diameter less one wall of 3.9 mm, 0.3 m of soil over it and 6 m at 0.5 % of ground that covers made.
		{"sag", hardWeek, "cover/yard run/450 mm", []string{`cover = "30 cm"`, `cover = ["45 cm", "45 cm"]`}},
		{"sag", hardWeek, "relief-height/300 mm", []string{`height = "20 cm"`, `height = "30 cm"`}},
		{"relief-takes-over", twoHardDays, "open-outlet", []string{`kind = "lid"`, `kind = "open"`, "level = \"3 cm\"\n", "", "lid_opening_head = \"25 mm\"\n", ""}},
		{"relief-takes-over", twoHardDays, "new-pocket", []string{"lid_opening_head = \"25 mm\"\n", "lid_opening_head = \"25 mm\"\nweep = \"10 mm x 50 mm\"\n",
			"[water]", "[pocket]\nlength = \"1 m\"\nwidth = \"60 cm\"\ndepth = \"60 cm\"\nvoid = \"40 %\"\n\n[water]"}},
		{"relief-takes-over", twoHardDays, "short-cycles/2", []string{`float_on = "30 cm"`, `float_on = "20 cm"`, `cycles = "every 6 h for 30 s"`, `cycles = "every 3 h for 15 s"`}},
		{"relief-takes-over", twoHardDays, "slope/yard run/2.1 %", []string{
			yardRun + "slope = \"1 %\"\nsetting = \"buried\"\ncover = \"30 cm\"\n",
			yardRun + "slope = \"1/4 in/ft\"\nsetting = \"buried\"\ncover = [\"30 cm\", \"36.5 cm\"]\n"}},
		{"downspout-joins", rainFirst, "roof-water", []string{"[[extra_inflow]]\nkind = \"roof\"\narea = \"40 m2\"\njoins = \"yard run\"\n", ""}},
		{"downspout-joins", rainFirst, "pocket/1.44 m3", []string{"length = \"1 m\"\nwidth = \"60 cm\"\n", "length = \"2 m\"\nwidth = \"120 cm\"\n"}},
		{"glued-line", twoHardDays, "backup-own-line", []string{"[[segment]]\nname = \"riser\"",
			"[[pump]]\nname = \"backup\"\nrole = \"backup\"\nline = \"own\"\nstart = \"376.2 mm\"\ncurve = [[\"0 m\", \"150 L/min\"], [\"3 m\", \"100 L/min\"], [\"6 m\", \"0 L/min\"]]\n[[segment]]\nname = \"riser\""}},
	} {
		t.Run(test.scenario+" "+test.key, func(t *testing.T) {
			s := scenarioSource(t, test.scenario, test.record)
			c := findChange(t, changesOf(t, s), test.key)
			if c.Barred != BarNone {
				t.Fatalf("barred: %s %v", c.Barred, c.Problems)
			}
			got, err := s.With(c)
			if err != nil {
				t.Fatal(err)
			}
			want, err := byHand(t, s, test.lines...).Case()
			if err != nil {
				t.Fatal(err)
			}
			if a, b := withoutLines(got.Layout), withoutLines(want.Layout); !reflect.DeepEqual(a, b) {
				t.Errorf("the layouts differ:\n%+v\n%+v", a, b)
			}
			if !reflect.DeepEqual(got.Cycles, want.Cycles) {
				t.Error("the pump cycles differ")
			}
		})
	}
}

// withoutLines takes the places in the file out of a layout.
func withoutLines(l *pipe.Layout) pipe.Layout {
	out := *l
	out.Segments = append([]pipe.Segment(nil), l.Segments...)
	for i := range out.Segments {
		out.Segments[i].Line = 0
	}
	if l.Standpipe != nil {
		sp := *l.Standpipe
		sp.Line = 0
		out.Standpipe = &sp
	}
	out.Outlet.Line = 0
	return out
}

// The demonstration has a dozen changes and more to try, and one that its ground forbids.
func TestChangesOfTheDemonstration(t *testing.T) {
	list := changesOf(t, demoSource(t))
	possible, keys := 0, map[string]bool{}
	for _, c := range list {
		if keys[c.Key] {
			t.Errorf("%s is there twice", c.Key)
		}
		keys[c.Key] = true
		if c.Barred == BarNone {
			possible++
		}
	}
	if possible < 12 {
		t.Errorf("%d changes; want 12 and more", possible)
	}
	// The lawn falls 0.5 %, the line 1 %: it never comes out of it.
	if c := findChange(t, list, "open-outlet"); c.Barred != BarOutletLow {
		t.Errorf("an end to daylight: %q; want %q", c.Barred, BarOutletLow)
	}
}

// What the ground, the float or the weather record forbids is not tried.
func TestBarred(t *testing.T) {
	for _, test := range []struct {
		why, scenario, record, key string
		lines                      []string
		want                       Bar
	}{
		{"15 s in halves are under 10 s", "sag", hardWeek, "short-cycles/2", nil, BarShortRuns},
		{"every 5 min in halves is 24 times an hour", "sag", hardWeek, "short-cycles/2", []string{`"every 12 h for 15 s"`, `"every 5 min for 25 s"`}, BarStarts},
		{"snow in the record", "relief-takes-over", twoHardDays, "snow", nil, BarNone},
		{"an open end at the ground cannot go down", "sag", hardWeek, "cover/yard run/450 mm", []string{"[outlet]\nkind = \"open\"", "[outlet]\nkind = \"open\"\nlevel = \"0 m\""}, BarOutletLow},
		// 6 m at 2.1 % less 0.5 % are 10 cm, the start has 12 cm of soil and the end cannot go down.
		{"no fall to spare", "sag", hardWeek, "slope/yard run/2.1 %", []string{`cover = "30 cm"`, `cover = "12 cm"`, "[outlet]\nkind = \"open\"", "[outlet]\nkind = \"open\"\nlevel = \"0 m\""}, BarNoFall},
	} {
		t.Run(test.why, func(t *testing.T) {
			s := byHand(t, scenarioSource(t, test.scenario, test.record), test.lines...)
			if c := findChange(t, changesOf(t, s), test.key); c.Barred != test.want {
				t.Errorf("barred %q %v; want %q", c.Barred, c.Problems, test.want)
			}
		})
	}
}

// A line comes out of ground that falls faster than it does: 10 % against 1 %, and 37 cm deep at 6 m.
func TestDaylightIsReached(t *testing.T) {
	s := byHand(t, scenarioSource(t, "relief-takes-over", twoHardDays), `surface = "bare"`, "surface = \"bare\"\nground_slope = \"10 %\"",
		`cover = "30 cm"`, `cover = ["80 cm", "26 cm"]`)
	c := findChange(t, changesOf(t, s), "open-outlet")
	if c.Barred != BarNone {
		t.Fatal(c.Barred, c.Problems)
	}
	k, err := s.With(c)
	if err != nil {
		t.Fatal(err)
	}
	end := k.Profile.Segments[len(k.Profile.Segments)-1]
	if above := end.Z1 - k.Profile.Ground(end.X1); above < -sameLevel || above > 0.04 {
		t.Errorf("after %.1f m more the end is %.3f m above the ground; want it there", c.Amount, above)
	}
}

// A glued line that is laid deeper keeps its riser's foot in the basin, and its outlet's lid.
func TestDeeperMeetsTheHouse(t *testing.T) {
	s := scenarioSource(t, "glued-line", twoHardDays)
	base, err := s.Case()
	if err != nil {
		t.Fatal(err)
	}
	k, err := s.With(findChange(t, changesOf(t, s), "cover/yard run/600 mm"))
	if err != nil {
		t.Fatal(err)
	}
	last := len(k.Layout.Segments) - 1
	for _, x := range []struct {
		what      string
		got, want float64
	}{
		{"foot of the riser", k.Profile.Segments[0].Z0, base.Profile.Segments[0].Z0},
		{"cover at the start", k.Profile.CoverAt(last, 0), 0.6},
		{"cover at the end", k.Profile.CoverAt(last, 1), 0.6},
		{"ground at the outlet", k.Profile.Ground(k.Profile.Segments[last].X1), base.Profile.Ground(base.Profile.Segments[last].X1)},
	} {
		if d := x.got - x.want; d > 1e-3 || d < -1e-3 {
			t.Errorf("%s %.4f m; want %.4f", x.what, x.got, x.want)
		}
	}
}
