package report

import (
	"bytes"
	"fmt"
	"image/png"
	"math"
	"strings"
	"testing"

	"winterline/sim"
	"winterline/sim/answers"
	"winterline/weather/chance"
)

// manySample are so many invented winters whose margins are those of a Gumbel law about a mean [K], in steps of equal chance and mixed
// order; water comes out 3 K later. With draws a winter shuts the line in the more of them the less is left.
func manySample(winters int, mean float64, draws int) *answers.WintersAnswer {
	a := sampleWinters()
	o := a.Outcomes[0]
	a.About.Winters, a.Outcomes, a.About.Draws = nil, nil, draws
	law := chance.GEV{Location: -mean, Scale: 3}
	for i := range winters {
		p := (float64(i*7%winters) + 0.5) / float64(winters)
		k := math.Round(10*min(max(-law.Quantile(p), -25), 25)) / 10
		dry := min(k+3, 25)
		o.Winter, o.State, o.Shut, o.Spill, o.IceFor, o.ShutFor = fmt.Sprintf("%d-%02d", 1990+i, (91+i)%100), "clear", nil, nil, 0, 0
		if k < 6 {
			o.State, o.IceFor = "iced", (6-k)*86400*3
		}
		if k < 0 {
			at := 86400.0 * 100
			o.State, o.Shut, o.ShutFor = "shut-relieved", &at, -k*86400*2
		}
		if dry < 0 {
			o.State, o.Spill = "spilled", o.Shut
		}
		o.Margin = &answers.Margin{Open: answers.Bound{K: k, Beyond: math.Abs(k) == 25, Monotone: true}, Dry: answers.Bound{K: dry, Beyond: dry == 25, Monotone: true}}
		a.About.Winters, a.Outcomes = append(a.About.Winters, o.Winter), append(a.Outcomes, o)
	}
	for draw := range draws {
		for i := range winters {
			d := answers.DrawnOutcome{Winter: a.About.Winters[i], Draw: draw + 1}
			if a.Outcomes[i].Margin.Open.K < 4*float64(draw)/float64(draws)-2 {
				d.Shut = &o.Lowest
			}
			a.Drawn = append(a.Drawn, d)
		}
	}
	return a
}

// Both pictures are drawn for a few winters and for sixty, with and without margins and draws, and are not blank.
func TestWintersChartsDraw(t *testing.T) {
	plain := manySample(12, 4, 0)
	for i := range plain.Outcomes {
		plain.Outcomes[i].Margin = nil
	}
	for _, c := range []struct {
		name  string
		a     *answers.WintersAnswer
		files string
	}{
		{"three", sampleWinters(), "winters.png return-period.png"},
		{"thirty", manySample(30, 4, 20), "winters.png return-period.png"},
		{"sixty", manySample(60, 20, 0), "winters.png return-period.png"},
		{"plain", plain, "winters.png"},
	} {
		var names []string
		for _, f := range WintersCharts(c.a, ChartOptions{DPI: 60}) {
			names = append(names, f.Name)
			var text bytes.Buffer
			if err := f.Write(&text); err != nil {
				t.Fatal(err)
			}
			picture, err := png.Decode(&text)
			if err != nil {
				t.Fatal(err)
			}
			dark := 0
			for y := range picture.Bounds().Dy() {
				for x := range picture.Bounds().Dx() {
					if r, g, b, _ := picture.At(x, y).RGBA(); r+g+b < 3*0x7000 {
						dark++
					}
				}
			}
			if dark < 1000 {
				t.Errorf("%s, %s: %d dark dots", c.name, f.Name, dark)
			}
		}
		if got := strings.Join(names, " "); got != c.files {
			t.Errorf("%s: %s; want %s", c.name, got, c.files)
		}
	}
}

// Every state has a sign, and no two have one shape and size.
func TestOutcomeSigns(t *testing.T) {
	seen := map[string]bool{}
	for s := sim.Clear; s <= sim.Flooded; s++ {
		sign := outcomeSigns[s]
		shape := fmt.Sprintf("%T %g", sign.style.Shape, sign.style.Radius)
		if sign.words == "" || seen[shape] {
			t.Errorf("%v: %q, %s", s, sign.words, shape)
		}
		seen[shape] = true
		if stateNamed(s.String()) != s {
			t.Errorf("%v is read as %v", s, stateNamed(s.String()))
		}
	}
}

// The chart has each winter at its plotting position, rarest first, and a law that its band holds, through winters that
// were made by one. Winters too few for a law have none.
func TestReturnView(t *testing.T) {
	a := manySample(30, 4, 0)
	v := newReturnView("", openSign, a.Summarize(0).Shut, a.Of(0), openBound, 1)
	if v.often.Basis != chance.Fitted || len(v.at) != returnSteps+1 || v.margins[0].K > v.margins[29].K || v.periods[0] < 50 || v.periods[29] > 1.03 {
		t.Fatalf("%v, %d points, periods %g to %g", v.often.Basis, len(v.at), v.periods[0], v.periods[29])
	}
	for i := range v.at {
		if !(v.low[i] <= v.law[i] && v.law[i] <= v.top[i]) || i > 0 && v.law[i] > v.law[i-1] {
			t.Errorf("once in %g winters: %g in %g to %g", v.at[i], v.law[i], v.low[i], v.top[i])
		}
	}
	for i, b := range v.margins {
		if off := b.K + v.often.Law.Level(v.periods[i]); math.Abs(off) > 0.5 {
			t.Errorf("once in %g winters: a winter lies %g K off the law that they were made by", v.periods[i], off)
		}
	}
	if few := newReturnView("", openSign, sampleWinters().Summarize(0).Shut, sampleWinters().Of(0), openBound, 1); few.at != nil || basisWords[few.often.Basis] == "" {
		t.Errorf("three winters have a law, or no words why not: %v", few.often.Basis)
	}
}

// No word on them is cut, covered or crossed, from three winters to sixty.
func TestWintersChartsAreReadable(t *testing.T) {
	for name, a := range map[string]*answers.WintersAnswer{
		"three": sampleWinters(), "drawn": drawnWinters(), "twelve": manySample(12, 4, 5), "thirty": manySample(30, 4, 20), "thirty milder": manySample(30, 12, 0),
		"thirty harder": manySample(30, -6, 4), "sixty": manySample(60, 20, 0),
	} {
		for _, make := range []func(*answers.WintersAnswer, int) (chart, bool){wintersChart, returnPeriodChart} {
			c, ok := make(a, 0)
			if !ok {
				t.Errorf("%s: no chart", name)
				continue
			}
			for _, fault := range drawnChart(c).faults() {
				t.Errorf("%s, %s: %s", name, c.name, fault)
			}
		}
	}
}
