package answers

import (
	"context"
	"fmt"
	"slices"
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

// LeastWinters is how many whole winters a record must have to be asked about: one is a case for a single run.
const LeastWinters = 2

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

// wintersPlan is a question laid out: all its units of work in their fixed order. That is winter by winter and layout by layout in
// each; then, for every draw, the same.
type wintersPlan struct {
	question *WintersQuestion
	spans    []spanPlan
	winters  []plannedWinter
	leftOut  []LeftOut
	draws    []draw
}

// spanPlan is a span of the record with its cases, one a layout, over the whole of it.
type spanPlan struct {
	series *weather.Series
	cases  []*sim.Case
}

// plannedWinter is a winter to be simulated and the span in which it lies.
type plannedWinter struct {
	weather.Winter
	span int
}

// usual is how many units of work there are without draws.
func (p *wintersPlan) usual() int { return len(p.winters) * len(p.question.Layouts) }

// plan lays a question out.
func (q *WintersQuestion) plan() (*wintersPlan, error) {
	p := &wintersPlan{question: q, draws: drawsOf(q.Draws, q.Seed)}
	for _, s := range q.Spans {
		if err := realRecord(s); err != nil {
			return nil, err
		}
		whole, less := s.WholeWinters()
		for _, w := range less {
			p.leaveOut(w, WhyWeather)
		}
		at := len(p.spans)
		wet := whole[:0:0]
		for _, w := range whole {
			if q.watered(w.Ends) {
				wet = append(wet, w)
			} else {
				p.leaveOut(w.WinterCold, WhyWater)
			}
		}
		if len(wet) == 0 {
			continue
		}
		span, err := q.span(s)
		if err != nil {
			return nil, err
		}
		p.spans = append(p.spans, span)
		for _, w := range wet {
			p.winters = append(p.winters, plannedWinter{w, at})
		}
	}
	p.leftOut = slices.DeleteFunc(p.leftOut, func(l LeftOut) bool {
		return slices.ContainsFunc(p.winters, func(w plannedWinter) bool { return w.Name() == l.Winter }) // another span has the whole of it
	})
	return p, p.enough()
}

// leaveOut notes a winter that is left out; what several spans have of one adds up.
func (p *wintersPlan) leaveOut(w weather.WinterCold, why string) {
	if n := len(p.leftOut); n > 0 && p.leftOut[n-1].Winter == w.Name() {
		p.leftOut[n-1].Days += w.Days
		return
	}
	p.leftOut = append(p.leftOut, LeftOut{w.Name(), w.Days, why})
}

// span makes the cases of a span, whose water must hold in every winter.
func (q *WintersQuestion) span(s *weather.Series) (spanPlan, error) {
	p, err := q.casesOver(s)
	if err != nil {
		return p, err
	}
	for i, k := range p.cases {
		if err := steadyWater(k.Layout.Water, q.Layouts[i].Supply); err != nil {
			return p, err
		}
	}
	return p, nil
}

// casesOver makes the cases of all layouts over a record.
func (q *WintersQuestion) casesOver(s *weather.Series) (spanPlan, error) {
	p := spanPlan{series: s}
	for _, source := range q.Layouts {
		k, err := source.Under(s).Case()
		if err != nil {
			return p, err
		}
		p.cases = append(p.cases, k)
	}
	return p, nil
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

// enough refuses a question with fewer winters than make one.
func (p *wintersPlan) enough() error {
	if len(p.winters) >= LeastWinters {
		return nil
	}
	dry := 0
	for _, l := range p.leftOut {
		if l.Why == WhyWater {
			dry++
		}
	}
	found := fmt.Sprintf("%d whole winters", len(p.winters))
	if len(p.winters) == 1 {
		found = "one whole winter"
	}
	if dry > 0 {
		return &RecordError{AboutWater, fmt.Sprintf("%s in the log of pump or inflow, of %d in the weather", found, len(p.winters)+dry),
			"a log of many winters, or a plan that holds in all of them, such as \"every 6 h for 45 s\""}
	}
	return &RecordError{AboutWeather, found, fmt.Sprintf("a record with at least %d winters whole from November to March; twenty or more tell how often", LeastWinters)}
}

// run simulates units of work without draws from one index up to another. Winters go side by side, and the layouts of a winter, which
// share its ground where their sites agree, one after the other.
func (p *wintersPlan) run(ctx context.Context, e *Engine, from, to int) ([]WinterOutcome, error) {
	layouts := len(p.question.Layouts)
	if from >= to {
		return nil, nil
	}
	first, last := from/layouts, (to-1)/layouts
	cases, err := p.cases(ctx, e, first, last, asWritten)
	if err != nil {
		return nil, err
	}
	out := make([]WinterOutcome, to-from)
	err = e.each(ctx, last-first+1, func(ctx context.Context, i int) error {
		winter := first + i
		settings := e.Settings
		settings.Progress, settings.WithoutDendritic, settings.Ground = nil, true, sim.NewGroundStore()
		for layout, k := range cases[i] {
			unit := winter*layouts + layout
			if unit < from || unit >= to {
				continue
			}
			var err error
			if out[unit-from], err = p.unit(ctx, settings, winter, layout, k); err != nil {
				return fmt.Errorf("winter %s: %w", p.winters[winter].Name(), err)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// unit does one unit of work.
func (p *wintersPlan) unit(ctx context.Context, s sim.Settings, winter, layout int, k *sim.Case) (WinterOutcome, error) {
	r, err := sim.Run(ctx, k, s)
	if err != nil {
		return WinterOutcome{}, err
	}
	o := outcomeOf(p.winters[winter].Winter, layout, k, r)
	if !p.question.Margins {
		return o, nil
	}
	alone := &Engine{Workers: 1, Settings: s} // winters go side by side already
	m, err := alone.Margin(ctx, k, sim.OutcomeOf(r))
	o.Margin = &m
	return o, err
}

// cases are those of the winters from first to last, by winter and layout; of gives a span's.
func (p *wintersPlan) cases(ctx context.Context, e *Engine, first, last int, of func(spanPlan) ([]*sim.Case, error)) ([][]*sim.Case, error) {
	out := make([][]*sim.Case, last-first+1)
	for i, span := range p.spans {
		var winters []weather.Winter
		var at []int
		for w := first; w <= last; w++ {
			if p.winters[w].span == i {
				winters, at = append(winters, p.winters[w].Winter), append(at, w-first)
			}
		}
		if len(winters) == 0 {
			continue
		}
		cases, err := of(span)
		if err != nil {
			return nil, err
		}
		each, err := sim.EachWinter(ctx, cases, winters, e.Settings, e.workers())
		if err != nil {
			return nil, err
		}
		for j, w := range at {
			for layout := range cases {
				out[w] = append(out[w], each[layout][j])
			}
		}
	}
	return out, nil
}

// asWritten are a span's cases as their layouts stand.
func asWritten(s spanPlan) ([]*sim.Case, error) { return s.cases, nil }
