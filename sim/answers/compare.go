package answers

import (
	"context"
	"math"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
	"winterline/weather"
)

// CompareQuestion asks what becomes of layouts under the same weather.
type CompareQuestion struct {
	Rivals  []Rival           // the first is what the others are set against
	Spans   []*weather.Series // of the record, in order: one, or those between its long gaps
	Margins bool              // how many degrees colder each winter could have been, too
	Seed    uint64            // of what is drawn at random
	Version string            // of the program
	Inputs  map[string]string // SHA-256 of what was read, by name
}

// Rival is one of the layouts that are compared.
type Rival struct {
	Source              // without weather
	Changes []pipe.Edit // what makes the first one into this; nil: a case of its own
}

// whole is the source with the changes among its edits.
func (r Rival) whole() Source {
	s := r.Source
	s.Edits = append(append([]pipe.Edit(nil), r.Edits...), r.Changes...)
	return s
}

// Layout reads the layout with its changes, or says what is wrong with it.
func (r Rival) Layout() (*pipe.Layout, units.Problems) {
	return pipe.ReadLayoutWith(r.File, r.Text, r.whole().Edits)
}

// Comparison is what became of layouts under the same weather. A record of one winter, or of a part of one, stands for
// one winter among its outcomes.
type Comparison struct {
	WintersAnswer
	Changes [][]pipe.Edit // by layout, as asked
	Single  []*sim.Result // of that one winter, by layout; nil: these are all the winters of a long record
}

// ManyWinters says whether a record has the whole of several winters as they were, so that each is simulated.
func ManyWinters(spans []*weather.Series) bool {
	n := 0
	for _, s := range spans {
		if realRecord(s) != nil {
			return false
		}
		whole, _ := s.WholeWinters()
		n += len(whole)
	}
	return n >= leastWinters
}

// Compare simulates all layouts in every winter of a long record, else through the one record that there is.
func (e *Engine) Compare(ctx context.Context, q *CompareQuestion) (*Comparison, error) {
	c := &Comparison{}
	for _, r := range q.Rivals {
		c.Changes = append(c.Changes, r.Changes)
	}
	if !ManyWinters(q.Spans) {
		return c, e.compareOne(ctx, q, c)
	}
	a, err := e.Winters(ctx, q.winters())
	if err != nil {
		return nil, err
	}
	c.WintersAnswer = *a
	return c, nil
}

// winters is the question as one about every winter.
func (q *CompareQuestion) winters() *WintersQuestion {
	w := &WintersQuestion{Spans: q.Spans, Margins: q.Margins, Seed: q.Seed, Version: q.Version, Inputs: q.Inputs}
	for _, r := range q.Rivals {
		w.Layouts = append(w.Layouts, r.whole())
	}
	return w
}

// compareOne simulates all layouts through the first span, side by side, with one ground where their sites agree.
func (e *Engine) compareOne(ctx context.Context, q *CompareQuestion, c *Comparison) error {
	w := q.winters()
	span, err := w.casesOver(q.Spans[0])
	if err != nil {
		return err
	}
	n := len(span.cases)
	c.Single = make([]*sim.Result, n)
	margins := make([]*Margin, n)
	settings := e.Settings
	if settings.Ground == nil {
		settings.Ground = sim.NewGroundStore()
	}
	told, first := newAdvance(n, e.Progress), 1.0
	if q.Margins {
		first = firstRunShare
	}
	quiet := &Engine{Workers: e.Workers, Settings: settings}
	err = quiet.each(ctx, n, func(ctx context.Context, i int) error {
		one := settings
		one.Progress = told.of(i, 0, first)
		var err error
		if c.Single[i], err = sim.Run(ctx, span.cases[i], one); err != nil || !q.Margins {
			return err
		}
		within := &Engine{Workers: max(1, quiet.workers()/n), Settings: settings, Progress: told.steps(i, first, 1)}
		m, err := within.Margin(ctx, span.cases[i], sim.OutcomeOf(c.Single[i]))
		margins[i] = &m
		return err
	})
	if err != nil {
		return err
	}
	winter := oneWinter(q.Spans[0])
	p := &wintersPlan{question: w, spans: []spanPlan{span}, winters: []plannedWinter{{Winter: winter}}}
	c.About = p.about()
	for i, r := range c.Single {
		o := outcomeOf(winter, i, span.cases[i], r)
		o.Margin = margins[i]
		c.Outcomes = append(c.Outcomes, o)
	}
	return nil
}

// firstRunShare is how much of the work on a layout the run before its margins is, roughly.
const firstRunShare = 0.25

// oneWinter is what a record holds, taken as one winter: that in which it was coldest.
func oneWinter(s *weather.Series) weather.Winter {
	out := weather.Winter{WinterCold: weather.WinterCold{Lowest: math.Inf(1)}}
	most := -1.0
	for _, w := range s.Winters() {
		if w.DegreeDays > most {
			out.Ends, most = w.Ends, w.DegreeDays
		}
		out.DegreeDays += w.DegreeDays
		out.Days += w.Days
	}
	for i, air := range s.Air {
		if air < out.Lowest {
			out.Lowest, out.LowestAt = air, s.Stamp(s.Time[i])
		}
	}
	return out
}
