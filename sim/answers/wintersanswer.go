package answers

import (
	"context"
	"path/filepath"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// WintersAnswer is what became of every layout in every winter.
type WintersAnswer struct {
	About    WintersAbout
	Outcomes []WinterOutcome // winter by winter, and layout by layout in each
	Drawn    []DrawnOutcome  // the same for every draw
}

// WintersAbout is what an answer is about. Every share of the work carries it, and shares fit together where it is the same.
type WintersAbout struct {
	Version string            `json:"version"`
	Inputs  map[string]string `json:"inputs"` // SHA-256 by name
	Layouts []LayoutAbout     `json:"layouts"`
	Winters []string          `json:"winters"`
	LeftOut []LeftOut         `json:"left_out"`
	Margins bool              `json:"margins"`        // asked for
	Draws   int               `json:"draws"`          // of what nobody knows well
	Seed    uint64            `json:"seed"`           // of what is drawn at random
	Units   int               `json:"units"`          // of work: winters times layouts, and so many more for every draw
	Format  string            `json:"weather_format"` // of the weather's files
	Spans   int               `json:"weather_spans"`  // of the record that hold a winter that is simulated
	Doubts  []string          `json:"weather_doubts"` // of the weather's readers, in words
}

// LayoutAbout is a layout as an answer names it.
type LayoutAbout struct {
	Name     string        `json:"name"` // of the case
	Title    string        `json:"title"`
	Invented bool          `json:"invented"`
	Guesses  []pipe.Guess  `json:"guesses"`
	Drawn    []Drawn       `json:"drawn"`    // what is drawn, where draws are asked for
	Warnings []sim.Warning `json:"warnings"` // of its inputs
	Cost     *pipe.Cost    `json:"cost"`
}

// Winters answers a question by simulating every layout in every winter.
func (e *Engine) Winters(ctx context.Context, q *WintersQuestion) (*WintersAnswer, error) {
	s, err := e.WintersShare(ctx, q, Part{1, 1})
	if err != nil {
		return nil, err
	}
	return &WintersAnswer{s.About, s.Outcomes, s.Drawn}, nil
}

// about is what the answer will be about.
func (p *wintersPlan) about() WintersAbout {
	first := p.spans[0]
	a := WintersAbout{
		Version: p.question.Version, Inputs: p.question.Inputs, Winters: []string{}, LeftOut: append([]LeftOut{}, p.leftOut...),
		Margins: p.question.Margins, Draws: p.question.Draws, Seed: p.question.Seed, Format: first.series.Format, Spans: len(p.spans), Doubts: []string{},
	}
	for _, w := range p.winters {
		a.Winters = append(a.Winters, w.Name())
	}
	for _, k := range first.cases {
		a.Layouts = append(a.Layouts, LayoutAbout{
			Name: k.Name, Title: k.Layout.Title, Invented: k.Invented,
			Guesses: append([]pipe.Guess{}, k.Layout.Guesses...), Warnings: append([]sim.Warning{}, k.Notes...), Cost: k.Layout.Cost,
			Drawn: p.drawnFor(k),
		})
	}
	a.Units = a.work().units()
	for _, g := range weather.GroupNotes(first.series.Notes, true) {
		g.File = filepath.Base(g.File) // answers name no place on the disk
		a.Doubts = append(a.Doubts, g.Words(filepath.Base(first.series.Source)))
	}
	return a
}
