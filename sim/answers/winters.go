package answers

import (
	"fmt"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// WintersQuestion asks what becomes of layouts in every winter of a long record.
type WintersQuestion struct {
	Layouts []Source          // without weather: all lie under the spans
	Spans   []*weather.Series // of the record, in order: one, or those between its long gaps
	Margins bool              // how many degrees colder each winter could have been, too
	Draws   int               // of what nobody knows well, with each of which every winter is simulated once more
	Seed    uint64            // of what is drawn at random
	Version string            // of the program; shares of different ones do not fit together
	Inputs  map[string]string // SHA-256 of what was read, by name
}

// LeftOut is a winter of the record that is not simulated.
type LeftOut struct {
	Winter string  `json:"winter"`
	Days   float64 `json:"days"` // of it that the record has
	Why    string  `json:"why"`  // WhyWeather or WhyWater
}

// Why a winter is left out.
const (
	WhyWeather = "weather" // the record lacks some of November to March
	WhyWater   = "water"   // the log of pump or inflow lacks some of December to February
)

// leastWinters is how many whole winters a record must have to be asked about: one is a case for a single run.
const leastWinters = 2

// RecordError says why a record, or the water that goes with it, does not do for many winters.
type RecordError struct{ About, Found, Expected string }

// What a RecordError is about.
const (
	AboutWeather = "weather"
	AboutWater   = "water"
)

// Error gives "about: found …; expected …".
func (e *RecordError) Error() string {
	return fmt.Sprintf("%s: found %s; expected %s", e.About, e.Found, e.Expected)
}

// realRecord refuses weather that tells nothing of how often a winter comes.
func realRecord(s *weather.Series) error {
	const expected = "a record of many winters as they were"
	switch {
	case s.Typical:
		return &RecordError{AboutWeather, "a typical year, which holds no record cold snap: surviving it is not proof of protection", expected}
	case len(s.Design) > 0:
		return &RecordError{AboutWeather, "a design cold snap", expected}
	}
	return nil
}

// steadyWater refuses a plan of inflow that belongs to one winter alone.
func steadyWater(plan pipe.WaterPlan, w sim.Supply) error {
	a := plan.Arrives
	if logged(w) || plan.Every > 0 || a.Halving == 0 && a.From.IsZero() {
		return nil
	}
	return &RecordError{AboutWater, "water that falls off after a day, or begins on one", `what reaches the basin in every winter: "2 gal/h", or pump cycles "every 6 h for 45 s"`}
}

func logged(w sim.Supply) bool { return w.Given || len(w.Cycles) > 0 || len(w.Inflow) > 0 }

// watered says whether the logs of all layouts reach over December to February of a winter; plans do.
func (q *WintersQuestion) watered(ends int) bool {
	from, to := time.Date(ends-1, time.December, 2, 0, 0, 0, 0, time.UTC), time.Date(ends, time.February, 28, 0, 0, 0, 0, time.UTC)
	for _, source := range q.Layouts {
		w := source.Supply
		if !logged(w) {
			continue
		}
		var stamps []time.Time
		for _, c := range w.Cycles {
			stamps = append(stamps, c.Start)
		}
		for _, r := range w.Inflow {
			stamps = append(stamps, r.Time)
		}
		if len(stamps) == 0 || stamps[0].After(from) || stamps[len(stamps)-1].Before(to) {
			return false
		}
	}
	return true
}
