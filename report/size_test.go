package report

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"winterline/sim/answers"
)

// sizedFor is an answer on foam round the yard run in which values (in mm) have margins; those below 0 do not do it.
func sizedFor(least, from float64, monotone bool, margins map[float64]float64) *SizeAnswer {
	z := &answers.Sized{Vary: answers.Vary{Quantity: answers.ByInsulation, Segment: 1}, Keep: answers.Keep{Goal: answers.Open}, Monotone: monotone}
	for _, value := range []float64{0, 10, 20, 30} {
		t := answers.Tried{Value: value / 1000, Survives: margins[value] >= 0, Margin: &answers.Bound{K: margins[value], Beyond: margins[value] == 25}}
		z.Curve = append(z.Curve, t)
		if value == least {
			z.Least = &t
		}
		if value == from {
			z.From = &t
		}
	}
	days := airRecord(time.Date(2026, time.January, 5, 0, 0, 0, 0, time.UTC), 24*8, yearly)
	return &SizeAnswer{Name: "my-house", Layout: changedLayout, Weather: days, Sized: z}
}

func sizeText(t *testing.T, a *SizeAnswer, s System) string {
	t.Helper()
	var out bytes.Buffer
	if err := SizeScreen(&out, a, Options{System: s}); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if len([]rune(line)) > screenWidth {
			t.Errorf("%d columns: %s", len([]rune(line)), line)
		}
	}
	return strings.Join(strings.Fields(out.String()), " ")
}

// barredSize is an answer where no value is possible.
func barredSize() *SizeAnswer {
	a := sizedFor(-1, -1, true, nil)
	for i := range a.Sized.Curve {
		a.Sized.Curve[i] = answers.Tried{Value: a.Sized.Curve[i].Value, Change: answers.Change{Barred: answers.BarNoFall}}
	}
	return a
}

// What the screen says of an answer, and what it never leaves out.
func TestSizeScreen(t *testing.T) {
	inOrder := map[float64]float64{0: -4, 10: 2, 20: 6, 30: 25}
	for _, test := range []struct {
		why    string
		answer *SizeAnswer
		want   []string
		never  string
	}{
		{"in order", sizedFor(10, 10, true, inOrder), []string{"THE LEAST THAT IS ENOUGH to keep the line open: 10 mm (0.4 in) of foam round the yard run.",
			"0 mm (0 in) does not about 4 °C (7 °F) short", "30 mm (1.2 in) does it over 25 °C (45 °F) left"}, "Mind"},
		{"nothing does", sizedFor(-1, -1, true, map[float64]float64{0: -4, 10: -3, 20: -2, 30: -1}),
			[]string{"NOTHING TRIED IS ENOUGH to keep the line open: from 0 mm (0 in) to 30 mm (1.2 in) of foam round the yard run.", "something else may be what is needed"}, "Write it"},
		{"a gap", sizedFor(10, 30, false, map[float64]float64{0: -4, 10: 2, 20: -1, 30: 3}), []string{"Between that and 30 mm (1.2 in) some values are NOT enough"}, "NOTHING TRIED"},
		{"too much", sizedFor(10, -1, false, map[float64]float64{0: -4, 10: 2, 20: 3, 30: -1}), []string{"The most that was tried is NOT enough"}, "NOTHING TRIED"},
		{"none needed", sizedFor(0, 0, true, map[float64]float64{0: 5, 10: 6, 20: 7, 30: 8}), []string{"NO FOAM IS NEEDED to keep the line open."}, "Mind"},
		{"close", sizedFor(10, 10, true, map[float64]float64{0: -4, 10: 1, 20: 6, 30: 8}), []string{"Too close to call: ask for a margin"}, "NOTHING TRIED"},
		{"nothing possible", barredSize(), []string{"NO VALUE IS POSSIBLE HERE: no fall to spare: the line's start would lie too shallow.", "0 mm (0 in) not possible here"}, "Write it"},
	} {
		text := sizeText(t, test.answer, SI)
		for _, part := range append(test.want, "House my-house Jan 5, 2026", strings.Fields(caution)[0]+" simulation") {
			if !strings.Contains(text, part) {
				t.Errorf("%s: no %q in\n%s", test.why, part, text)
			}
		}
		if strings.Contains(text, test.never) {
			t.Errorf("%s: %q in\n%s", test.why, test.never, text)
		}
	}
}

// The curve shows the least value between the others, and each picture comes out the same twice.
func TestSizeChart(t *testing.T) {
	a := sizedFor(10, 10, true, map[float64]float64{0: -4, 10: 2, 20: 6, 30: 25})
	a.Sized.Least = &answers.Tried{Value: 0.004, Survives: true, Margin: &answers.Bound{K: 0.1}}
	var values []float64
	for _, p := range sizePoints(a.Sized) {
		values = append(values, p.Value)
	}
	want := []float64{0, 0.004, 0.01, 0.02, 0.03}
	if len(values) != len(want) {
		t.Fatalf("points at %v; want %v", values, want)
	}
	for i := range want {
		if values[i] != want[i] {
			t.Fatalf("points at %v; want %v", values, want)
		}
	}
	for _, q := range []answers.Quantity{answers.ByInsulation, answers.ByCover, answers.BySlope, answers.ByRelief, answers.ByPocket} {
		a.Sized.Vary.Quantity = q
		files := SizeCharts(a, ChartOptions{Width: 600})
		if len(files) != 1 || !bytes.Equal(rendered(t, files[0]), rendered(t, files[0])) {
			t.Errorf("%s: %d pictures, or not the same twice", q, len(files))
		}
	}
	if files := SizeCharts(&SizeAnswer{Two: &answers.SizedTwo{}}, ChartOptions{}); len(files) != 0 {
		t.Error("a picture of two quantities")
	}
}
