package sim

import (
	"errors"
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/weather"
)

// Case is a complete, checked simulation case. It is read only: runs may share it.
type Case struct {
	Name     string
	Invented bool         // the built-in demonstration
	Layout   *pipe.Layout // with the guesses that the simulation had to add
	Profile  *pipe.Profile
	Weather  *weather.Series
	Cycles   []pipe.Cycle // in time order
	Logged   bool         // the cycles are the pump's log, taken to hold all the water that reached the basin
	Notes    []Warning    // what the inputs did not say, for the reader of the result
	Shift    float64      // by which air and dew point are warmer than Weather has them [K] (shift.go)
	past     []remembered // the ground as it stood at the weather's first row; nil: not known
}

// Supply is the water that comes to the pump: cycles or rows of inflow, whichever is not
// empty, else the layout's own plan.
type Supply struct {
	Cycles []pipe.Cycle
	Given  bool // cycles were given, even if there are none
	Inflow []pipe.InflowRow
}

// ErrNoSupply says that neither cycles nor inflow nor a plan in the layout say how much
// water comes.
var ErrNoSupply = errors.New("nothing says how often the pump runs")

// NewCase puts a case together: it turns inflow or the layout's plan into pump cycles,
// adds the guesses that only the weather decides, and notes what lies outside the
// record. The layout is not changed. It returns ErrNoSupply when no water is known, and a *LimitError
// when the case is too large to simulate.
func NewCase(name string, l *pipe.Layout, p *pipe.Profile, s *weather.Series, w Supply) (*Case, error) {
	layout := *asDryAsRecorded(l, s)
	layout.Guesses = append([]pipe.Guess(nil), layout.Guesses...)
	k := &Case{Name: name, Layout: &layout, Profile: p, Weather: s}
	switch {
	case w.Given || len(w.Cycles) > 0:
		k.Cycles, k.Logged = w.Cycles, true
	case len(w.Inflow) > 0:
		k.Cycles, k.Notes = floatCycles(&layout, p, s, w.Inflow)
	case layout.Water.Every > 0:
		k.Cycles = everyCycles(layout.Water, s)
	case layout.Water.Arrives.Flow > 0:
		k.Cycles, k.Notes = floatCycles(&layout, p, s, layout.Water.Arrives.Rows(s.Start, s.End()))
	default:
		return nil, ErrNoSupply
	}
	if err := k.withinLimits(); err != nil {
		return nil, err
	}
	k.within()
	if k.Logged {
		k.longRuns()
	}
	k.guess()
	return k, nil
}

// within drops cycles outside the weather record and says how many.
func (k *Case) within() {
	end := k.Weather.Stamp(k.Weather.End())
	var in []pipe.Cycle
	for _, c := range k.Cycles {
		if !c.Start.Before(k.Weather.Start) && c.Start.Before(end) {
			in = append(in, c)
		}
	}
	if out := len(k.Cycles) - len(in); out > 0 {
		k.Notes = append(k.Notes, Warning{"cycles-outside-weather", fmt.Sprintf("%d of %d pump cycles lie outside the weather record and were left out.", out, len(k.Cycles))})
	}
	k.Cycles = in
}

// longRun is the length from which a pump run points to a blocked line rather than to much water [s]
// (common practice, no source).
const longRun = 3600

// longRuns notes logged runs of hours.
func (k *Case) longRuns() {
	n, longest := 0, 0.0
	for _, c := range k.Cycles {
		if c.Run >= longRun {
			n, longest = n+1, math.Max(longest, c.Run)
		}
	}
	if n > 0 {
		k.Notes = append(k.Notes, Warning{"long-runs", fmt.Sprintf("The pump ran for an hour or more at a time in %d of %d logged runs, %.1f h at the longest: a likely sign of a blocked line or of a stuck check valve. The runs are simulated as if all that water had reached the basin.", n, len(k.Cycles), longest/3600)})
	}
}

// guess adds the guesses of which only the weather and the cycles say whether they are needed.
func (k *Case) guess() {
	site := &k.Layout.Site
	buried := false
	for _, s := range k.Layout.Segments {
		buried = buried || s.Setting == pipe.Buried
	}
	if buried {
		k.Layout.Guesses = append(k.Layout.Guesses, groundGuesses(site, k.Weather)...)
	}
	if _, n := meanFlow(k.Cycles); len(k.Cycles) > 0 && n == 0 && len(k.Layout.Pumps) == 0 {
		k.Layout.Guesses = append(k.Layout.Guesses, pipe.Guess{Key: "pump[0].curve", Text: typicalPower, LowText: "1/4 hp", HighText: "1/2 hp", Source: "typical submersible sump pump; common practice, no source"})
	}
}

// groundGuesses are the annual mean and swing of the ground where neither the layout nor a
// whole year of weather gives them.
func groundGuesses(site *pipe.Site, s *weather.Series) []pipe.Guess {
	var out []pipe.Guess
	_, _, whole := s.Annual()
	if !whole && site.GroundMean == nil {
		out = append(out, pipe.Guess{Key: "site.ground_mean", Dimension: units.Temperature, Value: defaultGroundMean, Low: 4, High: 12, Source: groundSource})
	}
	if !whole && site.GroundSwing == nil {
		out = append(out, pipe.Guess{Key: "site.ground_swing", Dimension: units.TemperatureDifference, Value: defaultGroundSwing, Low: 9, High: 16, Source: groundSource})
	}
	return out
}

const groundSource = "northern United States and southern Canada; a weather record of a whole year would say; common practice, no source"

// Settings steer a run; the zero value takes the defaults.
type Settings struct {
	Shells   Shells
	Stepping Stepping
	// Nucleation is the temperature [°C] to which water that does not touch open air
	// supercools before it freezes; 0, the default, is none. A segment's own value wins.
	Nucleation float64
	// SlushLimit is the ice share [-] from which slush shuts a full bore, which opens again below half of it; 0 takes the
	// default of 0.04.
	SlushLimit float64
	// WithoutDendritic leaves out the second simulation, in which water supercools to −4 °C: Verdict.ClosedDendritic
	// stays nil, and nothing else changes.
	WithoutDendritic bool
	// Ground, if not nil, is where cases over the same weather and site share the undisturbed ground.
	Ground *GroundStore
	// Progress, if not nil, is told now and then how far the run is, from 0 to 1.
	Progress func(share float64)
}

// slushLimit is SlushLimit or its default.
func (s Settings) slushLimit() float64 {
	if s.SlushLimit == 0 {
		return defaultSlushLimit
	}
	return s.SlushLimit
}

// Defaults of quantities that neither the layout nor the weather gives.
const (
	defaultGroundMean   = 8.0  // annual mean at the ground surface [°C]
	defaultGroundSwing  = 12.0 // half the summer-to-winter range there [K]
	coldestDay          = 20.0 // days from the year's start, for the annual wave (end of 20 January; common practice, no source)
	dendriticNucleation = -4.0 // for the dendritic closure time [°C]; observed range −1 to −7 (from memory)
	defaultSlushLimit   = 0.04 // ice share from which slush shuts a full bore [-] (assumption without source)
)
