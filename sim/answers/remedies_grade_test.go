package answers

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// twoPieces is a line of two buried pieces on ground that falls, the second of them the flatter.
func twoPieces(t testing.TB) Source {
	return byHand(t, scenarioSource(t, "relief-takes-over", twoHardDays), `surface = "bare"`, "surface = \"bare\"\nground_slope = \"3 %\"",
		"length = \"6 m\"\nslope = \"1 %\"\nsetting = \"buried\"\ncover = \"30 cm\"\n",
		"length = \"6 m\"\nslope = \"2 %\"\nsetting = \"buried\"\ncover = \"40 cm\"\n\n[[segment]]\nname = \"far run\"\npipe = \"4 in D3034\"\nlength = \"8 m\"\nslope = \"0.5 %\"\nsetting = \"buried\"\ncover = [\"34 cm\", \"14 cm\"]\n")
}

// A line that is laid deeper has so much more soil on it at every end, the same falls, and the same ground over it;
// one that is laid steeper has that fall in one run and the old ones in all others.
func TestGradesHold(t *testing.T) {
	for name, s := range map[string]Source{
		"demo": demoSource(t), "two pieces": twoPieces(t), "sag": scenarioSource(t, "sag", hardWeek),
		"under a lid": scenarioSource(t, "relief-takes-over", twoHardDays), "glued": scenarioSource(t, "glued-line", twoHardDays),
	} {
		base, err := s.Case()
		if err != nil {
			t.Fatal(name, err)
		}
		tried := 0
		for _, c := range changesOf(t, s) {
			if c.Barred != BarNone || c.Kind != DeepenCover && c.Kind != Steepen {
				continue
			}
			k, err := s.With(c)
			if err != nil {
				t.Fatal(name, c.Key, err)
			}
			tried++
			checkGrade(t, name+" "+c.Key, c, base, k)
		}
		if tried < 3 {
			t.Errorf("%s: %d changes of grade tried; want 3 and more", name, tried)
		}
	}
}

// near4 says whether two lengths are the same to what a layout is written to.
func near4(a, b float64) bool { return math.Abs(a-b) < 3e-4 }

func checkGrade(t *testing.T, name string, c Change, was, is *sim.Case) {
	t.Helper()
	least := math.Inf(1)
	for i, s := range was.Layout.Segments {
		a, b := was.Profile.Segments[i], is.Profile.Segments[i]
		if s.Setting != pipe.Buried {
			continue
		}
		want := a.Z0 - a.Z1
		if c.Kind == Steepen && i == c.Segment {
			want = c.Amount * s.Length
		}
		if got := b.Z0 - b.Z1; !near4(got, want) {
			t.Errorf("%s: %s falls %.4f m; want %.4f", name, s.Name, got, want)
		}
		for _, end := range []float64{0, 1} {
			if x := was.Profile.X(i, end); !near4(was.Profile.Ground(x), is.Profile.Ground(x)) {
				t.Errorf("%s: the ground over %s moved by %.4f m", name, s.Name, is.Profile.Ground(x)-was.Profile.Ground(x))
			}
		}
		if c.Kind == DeepenCover {
			more, atEnd := is.Profile.CoverAt(i, 0)-was.Profile.CoverAt(i, 0), is.Profile.CoverAt(i, 1)-was.Profile.CoverAt(i, 1)
			if !near4(more, atEnd) || more <= 0 {
				t.Errorf("%s: %s lies %.4f and %.4f m deeper", name, s.Name, more, atEnd)
			}
		}
		if i == c.Segment {
			least = math.Min(is.Profile.CoverAt(i, 0), is.Profile.CoverAt(i, 1))
		}
	}
	if c.Kind == DeepenCover && !near4(least, c.Amount) {
		t.Errorf("%s: %.4f m of soil over the shallower end; want %.4f", name, least, c.Amount)
	}
	if foot := 0; !near4(was.Profile.Segments[foot].Z0, is.Profile.Segments[foot].Z0) {
		t.Errorf("%s: the riser's foot moved from %.4f to %.4f m", name, was.Profile.Segments[foot].Z0, is.Profile.Segments[foot].Z0)
	}
}
