package chance

import (
	"fmt"
	"math"
)

// Frequency is how often winters fail, from those of a record.
type Frequency struct {
	Winters, Failed int
	Chance          Share // of a winter to fail
	Basis           Basis // what Chance rests on
	Law             GEV   // fitted to the margins with turned signs [K], if Basis is Fitted
}

// Basis is what a chance rests on: a law fitted to the margins, or the count of winters that
// failed where no law can be trusted, for the reason named.
type Basis int

// The bases.
const (
	Fitted     Basis = iota
	FewWinters       // fewer than ten winters
	AtLimit          // more than a tenth of the winters have a margin that is known only to lie beyond the limit
	NoSpread         // all margins are the same
	TooRare          // the law has fewer failures than one in twice as many winters as there are
	Disagrees        // the law's chance lies outside the interval of the count
)

// String is the word for the basis in files.
func (b Basis) String() string {
	return [...]string{"fitted", "few-winters", "at-limit", "no-spread", "too-rare", "disagrees"}[b]
}

// fewestWinters is how many a law is fitted to at least, as for design cold snaps.
const fewestWinters = 10

// mostAtLimit is the largest share of winters with a margin at the limit that a law is
// fitted to.
const mostAtLimit = 0.10

// Failing returns how often winters fail whose margins [K] are given, one each: those below
// 0 failed. Margins at ±limit are known only to lie beyond it.
//
// A law of extremes is fitted to the margins, for a winter's margin is the worst of many cold
// spells: what counts is the least of them, so signs are turned and the chance is that of
// more than 0. Its interval is that of refits to samples drawn with the seed (see resampled).
// A period of more than twice as many winters as were seen is never derived from it.
func Failing(margins []float64, limit float64, seed uint64) Frequency {
	f := Frequency{Winters: len(margins)}
	turned := make([]float64, len(margins))
	atLimit := 0
	for i, m := range margins {
		turned[i] = -m
		if m < 0 {
			f.Failed++
		}
		if math.Abs(m) >= limit {
			atLimit++
		}
	}
	f.Chance = Counted(float64(f.Failed), f.Winters)
	switch {
	case f.Winters < fewestWinters:
		f.Basis = FewWinters
	case float64(atLimit) > mostAtLimit*float64(f.Winters):
		f.Basis = AtLimit
	case SampleLMoments(turned).L2 == 0:
		f.Basis = NoSpread
	default:
		f.fit(turned, seed)
	}
	return f
}

// fit replaces the chance counted by that of a law fitted to the turned margins, if that can
// be believed.
func (f *Frequency) fit(turned []float64, seed uint64) {
	law := Fit(turned)
	switch p := law.Exceed(0); {
	case p < f.Chance.Low || p > f.Chance.High:
		f.Basis = Disagrees
	case 1/p > f.longest():
		f.Basis = TooRare
	default:
		f.Basis, f.Law, f.Chance = Fitted, law, resampled(law, len(turned), seed)
	}
}

// longest is the longest period that is said of as many winters as were seen [winters].
func (f Frequency) longest() float64 { return 2 * float64(f.Winters) }

// Period is the mean time from one failed winter to the next, with its interval [winters].
type Period struct {
	Best, Low, High float64
	Open            bool // High is only twice the winters seen: it may be longer
}

// Period returns the mean time between failed winters; false if Chance is counted.
func (f Frequency) Period() (Period, bool) {
	if f.Basis != Fitted {
		return Period{}, false
	}
	p := Period{Best: 1 / f.Chance.Best, Low: 1 / f.Chance.High, High: 1 / f.Chance.Low}
	if p.High > f.longest() {
		p.High, p.Open = f.longest(), true
	}
	return p, true
}

// String says how often, as "about once in 12 winters (6 to 30)", "not once in 15 winters" or
// "3 of 15 winters".
func (f Frequency) String() string {
	p, fitted := f.Period()
	switch {
	case fitted && f.Chance.Best >= 0.9:
		return "nearly every winter"
	case fitted && math.Round(p.Best) <= 1:
		return "most winters"
	case fitted && p.Open:
		return fmt.Sprintf("about once in %.0f winters (%.0f to more than %.0f)", p.Best, p.Low, p.High)
	case fitted:
		return fmt.Sprintf("about once in %.0f winters (%.0f to %.0f)", p.Best, p.Low, p.High)
	case f.Failed == 0:
		return "not once in " + winters(f.Winters)
	}
	return fmt.Sprintf("%d of %s", f.Failed, winters(f.Winters))
}

func winters(n int) string {
	if n == 1 {
		return "1 winter"
	}
	return fmt.Sprintf("%d winters", n)
}
