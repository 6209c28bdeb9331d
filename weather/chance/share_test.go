package chance

import (
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// Clopper and Pearson's promise, summed exactly: whatever the true chance, all counts whose
// intervals hold it have a probability of the confidence at least.
func TestBinomialHoldsTheTruth(t *testing.T) {
	for _, n := range []int{1, 2, 7, 30} {
		for p := 0.005; p < 1; p += 0.015 {
			held := 0.0
			for k := range n + 1 {
				if s := Counted(float64(k), n); s.Low <= p && p <= s.High {
					held += distuv.Binomial{N: float64(n), P: p}.Prob(float64(k))
				}
			}
			if held < Confidence-1e-9 {
				t.Errorf("n %d, p %.3f: held in %.4f", n, p, held)
			}
		}
	}
}

// Between whole counts the interval moves from one to the next.
func TestBinomialOfParts(t *testing.T) {
	last := Share{Low: -1, High: -1, Best: -1}
	for k := 0.0; k <= 15; k += 0.25 {
		s := Counted(k, 15)
		if !(s.Low <= s.Best && s.Best <= s.High && s.Best > last.Best && s.Low >= last.Low && s.High >= last.High) {
			t.Errorf("%g of 15: %+v after %+v", k, s, last)
		}
		last = s
	}
}

func TestShareWords(t *testing.T) {
	for _, c := range []struct {
		share Share
		want  string
	}{
		{Counted(12, 100), "12 in 100 (7 to 19)"},
		{Counted(0, 15), "0 in 100 (0 to 18)"},
		{Counted(30, 30), "100 in 100 (90 to 100)"},
		{Counted(1, 1000), "under 1 in 100 (0 to 0)"},
		{Counted(999, 1000), "over 99 in 100 (100 to 100)"},
		{Counted(0, 0), "0 in 100 (0 to 100)"},
	} {
		if got := c.share.String(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.share, got, c.want)
		}
	}
}

func TestShareOfWinters(t *testing.T) {
	for _, c := range []struct {
		share Share
		want  string
	}{
		{Counted(12, 100), "about 12 in 100 winters (7 to 19)"},
		{Counted(3.6, 30), "about 12 in 100 winters (4 to 26)"},
		{Counted(0, 15), "0 in 100 winters (0 to 18)"},
		{Counted(1, 1000), "under 1 in 100 winters (0 to 0)"},
		{Counted(30, 30), "100 in 100 winters (90 to 100)"},
	} {
		if got := c.share.Winters(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.share, got, c.want)
		}
	}
}
