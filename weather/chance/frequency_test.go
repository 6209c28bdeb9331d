package chance

import (
	"math"
	"math/rand/v2"
	"os"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// margins are those of n winters whose chance to fail is p, by a law of this shape.
func margins(n int, shape, p float64, draw *rand.Rand) []float64 {
	law := GEV{Scale: 4, Shape: shape}
	law.Location = -law.Quantile(1 - p)
	sample := drawn(law, n, draw)
	for i := range sample {
		sample[i] = -sample[i]
	}
	return sample
}

// repeated are n margins that count up from first by step.
func repeated(n int, first, step float64) []float64 {
	sample := make([]float64, n)
	for i := range sample {
		sample[i] = first + step*float64(i)
	}
	return sample
}

func TestFailingChoosesItsBasis(t *testing.T) {
	const limit = 25
	for _, c := range []struct {
		what    string
		margins []float64
		basis   Basis
		words   string
	}{
		{"nothing", nil, FewWinters, "not once in 0 winters"},
		{"one", []float64{3}, FewWinters, "not once in 1 winter"},
		{"nine", repeated(9, -1.5, 1), FewWinters, "2 of 9 winters"},
		{"all alike", repeated(12, 3, 0), NoSpread, "not once in 12 winters"},
		{"a tenth at the limit", append(repeated(18, -0.5, 1), limit, limit), Fitted, ""},
		{"over a tenth at the limit", append(repeated(17, -0.5, 1), limit, -limit, limit), AtLimit, "2 of 20 winters"},
		{"far from failing", repeated(20, 12, 0.5), TooRare, "not once in 20 winters"},
		{"the law says once in 41", repeated(20, 1, 0.4), TooRare, "not once in 20 winters"},
		{"the law says once in 33", repeated(20, 0.8, 0.4), Fitted, ""},
		{"all failed", repeated(20, -12, 0.5), Fitted, "nearly every winter"},
		// 11 of 20 have failed by a hair and the others stand far off: no such law.
		{"two heaps", append(repeated(11, -0.02, 0.001), repeated(9, 20, 0.1)...), Disagrees, "11 of 20 winters"},
	} {
		f := Failing(c.margins, limit, 1)
		if f.Basis != c.basis {
			t.Errorf("%s: basis %d, want %d: %+v", c.what, f.Basis, c.basis, f)
		}
		if c.words != "" && f.String() != c.words {
			t.Errorf("%s: %q, want %q", c.what, f, c.words)
		}
		if _, ok := f.Period(); ok != (c.basis == Fitted) {
			t.Errorf("%s: a period is given: %v", c.what, ok)
		}
		if c.basis != Fitted && f.Chance != Counted(float64(f.Failed), f.Winters) {
			t.Errorf("%s: chance %v is not that of the count", c.what, f.Chance)
		}
	}
}

func TestWordsForFiles(t *testing.T) {
	if got := AtLimit.String() + " " + Disagrees.String() + " " + AtOnce.String() + " " + UsedUp.String(); got != "at-limit disagrees at-once used-up" {
		t.Error(got)
	}
}

func TestFrequencyWords(t *testing.T) {
	for _, c := range []struct {
		winters int
		chance  Share
		want    string
	}{
		{30, Share{1. / 12, 1. / 30, 1. / 6}, "about once in 12 winters (6 to 30)"},
		{30, Share{1. / 50, 1. / 400, 1. / 9}, "about once in 50 winters (9 to more than 60)"},
		{30, Share{1. / 60, 0, 1. / 9}, "about once in 60 winters (9 to more than 60)"},
		{30, Share{0.95, 0.85, 0.99}, "nearly every winter"},
		{30, Share{0.68, 0.5, 0.85}, "most winters"},
		{30, Share{0.5, 0.4, 0.9}, "about once in 2 winters (1 to 2)"},
	} {
		f := Frequency{Winters: c.winters, Chance: c.chance}
		if got := f.String(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Whatever the margins: no period beyond twice the winters, best between low and high, the
// same bits again.
func TestFailingKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 40).Draw(t, "winters")
		coarse := rapid.Bool().Draw(t, "coarse")
		sample := make([]float64, n)
		for i := range sample {
			sample[i] = rapid.Float64Range(-25, 25).Draw(t, "margin")
			if coarse {
				sample[i] = math.Round(sample[i] / 10)
			}
		}
		seed := rapid.Uint64().Draw(t, "seed")
		f := Failing(sample, 25, seed)
		if p, ok := f.Period(); ok && !(p.Low >= 1 && p.Low <= p.Best && p.Best <= p.High && p.High <= 2*float64(n)) {
			t.Errorf("%d winters: period %+v", n, p)
		}
		if c := f.Chance; !(c.Low >= 0 && c.Low <= c.Best && c.Best <= c.High && c.High <= 1) {
			t.Errorf("chance %+v", c)
		}
		if again := Failing(sample, 25, seed); !reflect.DeepEqual(f, again) {
			t.Errorf("%+v, then %+v", f, again)
		}
	})
}

// Colder by the same in every winter: failures come no less often.
func TestColderFailsMoreOften(t *testing.T) {
	sample := margins(25, 0.1, 0.15, rand.New(rand.NewPCG(5, 5)))
	last := -1.0
	for range 12 {
		if f := Failing(sample, 25, 1); f.Basis == Fitted {
			if f.Chance.Best < last {
				t.Errorf("%v after %g", f.Chance, last)
			}
			last = f.Chance.Best
		}
		for i := range sample {
			sample[i] -= 0.5
		}
	}
	if last < 0.5 {
		t.Errorf("chance is only %g in the end", last)
	}
}

// From seed to seed the ends of an interval move by less than a twentieth of its width.
func TestResamplesSuffice(t *testing.T) {
	sample := margins(25, 0.1, 0.15, rand.New(rand.NewPCG(5, 5)))
	var low, high tally
	for seed := range uint64(20) {
		c := Failing(sample, 25, seed).Chance
		low.add(c.Low)
		high.add(c.High)
	}
	from, lowMoves := low.moments()
	to, highMoves := high.moments()
	if width := (to - from) / 20; lowMoves == 0 || lowMoves > width || highMoves > width {
		t.Errorf("from %.4f ± %.4f to %.4f ± %.4f", from, lowMoves, to, highMoves)
	}
}

// Of refits to samples drawn apart from those of the interval, 5 in 100 lie below it and 5
// above; the standard error of such a share is 0.5 in 100, that of the interval's end as much.
func TestIntervalIsThatOfRefits(t *testing.T) {
	const n, samples = 25, 2000
	law := GEV{Location: -4, Scale: 3, Shape: 0.3}
	c := resampled(law, n, 1)
	near(t, "best", c.Best, law.Exceed(0), 0)
	draw := rand.New(rand.NewPCG(9, 9))
	below, above := 0, 0
	for range samples {
		switch p := Fit(drawn(law, n, draw)).Exceed(0); {
		case p < c.Low:
			below++
		case p > c.High:
			above++
		}
	}
	near(t, "below", float64(below)/samples, 0.05, 0.02)
	near(t, "above", float64(above)/samples, 0.05, 0.02)
}

// Intervals of laws hold the true chance in as many of 200 records as resampled says; the
// standard error of such a share is 3 in 100.
func TestIntervalsHoldTheTruth(t *testing.T) {
	type kind struct {
		winters          int
		shape, p, expect float64
	}
	kinds := []kind{{20, 0, 0.1, 0.84}}
	if os.Getenv("WINTERLINE_LONG") != "" {
		kinds = append(kinds, kind{15, -0.15, 0.05, 0.82}, kind{15, 0.25, 0.05, 0.91}, kind{30, 0, 0.1, 0.86}, kind{30, 0.25, 0.25, 0.89})
	}
	const records = 200
	for _, k := range kinds {
		draw := rand.New(rand.NewPCG(7, 7))
		held, above := 0, 0
		for seed := range uint64(records) {
			sample := margins(k.winters, k.shape, k.p, draw)
			for i := range sample {
				sample[i] = -sample[i]
			}
			switch c := resampled(Fit(sample), k.winters, seed); {
			case c.Low <= k.p && k.p <= c.High:
				held++
			case k.p > c.High:
				above++
			}
		}
		near(t, "held", float64(held)/records, k.expect, 0.07)
		if missed := records - held; 2*above < missed {
			t.Errorf("%+v: of %d missed only %d lie above High", k, missed, above)
		}
	}
}
