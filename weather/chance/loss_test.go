package chance

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// A service call of 400 in 20 of 100 winters and a flood of 12,000 in 5 of 100: 80 + 600.
func TestYearlyLoss(t *testing.T) {
	c := Costs{ServiceCall: 400, FloodedBasement: 12000}
	got := c.YearlyLoss(Share{0.2, 0.1, 0.35}, Share{0.05, 0.01, 0.1})
	near(t, "best", got.Best, 680, 1e-9)
	near(t, "low", got.Low, 160, 1e-9)
	near(t, "high", got.High, 1340, 1e-9)
}

func TestPayBack(t *testing.T) {
	loses := func(best, low, high float64) Loss { return Loss{best, low, high} }
	for _, c := range []struct {
		what         string
		extra        float64
		ours, theirs Loss
		want         string
	}{
		{"saves", 600, loses(20, 0, 40), loses(120, 50, 240), "pays for itself in 6 years (3 to 12)"},
		{"within a year", 30, loses(0, 0, 0), loses(120, 50, 240), "pays for itself in under 1 year (under 1 to 1)"},
		{"at the low end saves nothing", 600, loses(20, 5, 40), loses(120, 5, 240), "pays for itself in 6 years (3 to more than 50)"},
		{"at the low end loses", 600, loses(20, 9, 40), loses(120, 5, 240), "pays for itself in 6 years (3 to more than 50)"},
		{"saves nothing", 600, loses(120, 50, 240), loses(120, 50, 240), "does not pay back"},
		{"loses more", 600, loses(130, 50, 240), loses(120, 50, 240), "does not pay back"},
		{"saves too little", 600, loses(109, 50, 240), loses(120, 50, 240), "does not pay back"},
		{"the same", 0, loses(120, 50, 240), loses(120, 50, 240), "costs no more to install and loses no more"},
		{"cheaper and better", -100, loses(20, 10, 40), loses(120, 50, 240), "costs no more to install and loses no more"},
		{"cheaper and worse", -600, loses(120, 50, 240), loses(20, 0, 40), "costs less to install; what it loses each year uses that up in 6 years (3 to 12)"},
		{"hardly worse", -600, loses(121, 50, 240), loses(120, 50, 240), "costs less to install; what it loses each year uses that up in more than 50 years (more than 50 to more than 50)"},
		{"as dear and worse", 0, loses(121, 50, 240), loses(120, 50, 240), "does not pay back"},
		{"price not known", math.NaN(), loses(20, 0, 40), loses(120, 50, 240), "does not pay back"},
	} {
		if got := PayBack(c.extra, c.ours, c.theirs).String(); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
}

func TestPayBackIsNeverNonsense(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		loss := func(name string) Loss {
			low, more, most := rapid.Float64Range(0, 500).Draw(t, name), rapid.Float64Range(0, 500).Draw(t, name+" more"), rapid.Float64Range(0, 500).Draw(t, name+" most")
			return Loss{low + more, low, low + more + most}
		}
		p := PayBack(rapid.Float64Range(-5000, 5000).Draw(t, "extra"), loss("ours"), loss("theirs"))
		if !(p.Years >= 0 && p.Low >= 0 && p.Low <= p.Years && p.Years <= p.High) || p.Worth == PaysBack && p.High > longestPayback {
			t.Errorf("%+v", p)
		}
		if words := p.String(); strings.ContainsAny(words, "-NI") {
			t.Errorf("%q", words)
		}
	})
}
