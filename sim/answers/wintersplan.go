package answers

import (
	"fmt"
	"slices"

	"winterline/sim"
	"winterline/weather"
)

// wintersPlan is a question laid out: all its units of work in their fixed order, which is winter by winter, and layout by
// layout in each; then the same for every draw.
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

// enough refuses a question with fewer winters than make one.
func (p *wintersPlan) enough() error {
	if len(p.winters) >= leastWinters {
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
	return &RecordError{AboutWeather, found, fmt.Sprintf("a record with at least %d winters whole from November to March; twenty or more tell how often", leastWinters)}
}
