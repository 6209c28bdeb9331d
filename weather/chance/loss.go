package chance

import (
	"fmt"
	"math"
)

// Costs are what a line costs, in any currency.
type Costs struct{ Installed, ServiceCall, FloodedBasement float64 }

// Loss is what failures cost in a year on average, with an interval [currency/year].
type Loss struct{ Best, Low, High float64 }

// YearlyLoss returns the loss of a line that shuts and wets the basement in such shares of
// winters: one service call for a winter in which it shut, one flooded basement for one in
// which the floor got wet. Low and High take both chances at the same end, which makes the
// interval wider than each.
func (c Costs) YearlyLoss(shut, wet Share) Loss {
	of := func(shut, wet float64) float64 { return shut*c.ServiceCall + wet*c.FloodedBasement }
	return Loss{of(shut.Best, wet.Best), of(shut.Low, wet.Low), of(shut.High, wet.High)}
}

// Worth is what comes of the money spent on a line instead of another.
type Worth int

// The kinds of worth.
const (
	PaysBack Worth = iota // costs more to install, and saves that in Years
	AtOnce                // costs no more to install, and loses no more
	Never                 // costs more, and does not save that in 50 years
	UsedUp                // costs less, loses more: after Years nothing is left of what was saved
)

// String is the word for the worth in files.
func (w Worth) String() string {
	return [...]string{"pays-back", "at-once", "never", "used-up"}[w]
}

// Payback is how long one line takes to pay for itself against another, without interest.
type Payback struct {
	Worth            Worth
	Years, Low, High float64 // [years], if PaysBack or UsedUp
	Open             bool    // at one end of the losses it takes longer than 50 years, or for ever
}

// longestPayback is the longest time that counts [years], about the life for which buried
// pipe is planned: common practice, no source.
const longestPayback = 50

// PayBack returns how long a line takes to pay for itself that costs extra more to install
// than another, where losses a year are ours and theirs. As both lines saw the same winters,
// Low and High are the shorter and the longer of the times with both losses at their low ends
// and with both at their high ends.
func PayBack(extra float64, ours, theirs Loss) Payback {
	p := payback(extra, theirs.Best-ours.Best)
	if p.Worth != PaysBack && p.Worth != UsedUp {
		return p
	}
	for _, saved := range []float64{theirs.Low - ours.Low, theirs.High - ours.High} {
		if end := payback(extra, saved); end.Worth != p.Worth {
			p.Open = true
		} else {
			p.Low, p.High = min(p.Low, end.Years), max(p.High, end.Years)
		}
	}
	return p
}

// payback is PayBack for so much saved a year.
func payback(extra, saved float64) Payback {
	years := math.Abs(extra / saved)
	switch {
	case extra <= 0 && saved >= 0:
		return Payback{Worth: AtOnce}
	case saved >= 0 && !(years <= longestPayback):
		return Payback{Worth: Never}
	case saved > 0:
		return Payback{Worth: PaysBack, Years: years, Low: years, High: years}
	case extra < 0:
		return Payback{Worth: UsedUp, Years: years, Low: years, High: years}
	}
	return Payback{Worth: Never}
}

// String says it as "pays for itself in 6 years (3 to 14)" or "does not pay back".
func (p Payback) String() string {
	switch p.Worth {
	case PaysBack:
		return "pays for itself in " + p.years()
	case UsedUp:
		return "costs less to install; what it loses each year uses that up in " + p.years()
	case AtOnce:
		return "costs no more to install and loses no more"
	}
	return "does not pay back"
}

func (p Payback) years() string {
	low, high := wholeYears(p.Low), wholeYears(p.High)
	if p.Open {
		high = wholeYears(math.Inf(1))
	}
	unit := "years"
	if p.Years < 1.5 {
		unit = "year"
	}
	return fmt.Sprintf("%s %s (%s to %s)", wholeYears(p.Years), unit, low, high)
}

func wholeYears(years float64) string {
	switch {
	case years < 0.5:
		return "under 1"
	case years > longestPayback:
		return fmt.Sprintf("more than %d", longestPayback)
	}
	return fmt.Sprintf("%.0f", years)
}
