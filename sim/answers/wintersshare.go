package answers

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
)

// sharesSchema names the form of a share's JSON.
const sharesSchema = "winterline.winters-share/1"

// WintersShare is a share of the work that answers a question, as it goes from one machine to another.
type WintersShare struct {
	Schema string `json:"schema"`
	Part
	About    WintersAbout    `json:"about"`
	Outcomes []WinterOutcome `json:"outcomes"` // of its units of work without draws, in order
	Drawn    []DrawnOutcome  `json:"drawn"`    // of those with draws
}

// WintersShare does one share of the work.
func (e *Engine) WintersShare(ctx context.Context, q *WintersQuestion, part Part) (*WintersShare, error) {
	p, err := q.plan()
	if err != nil {
		return nil, err
	}
	s := &WintersShare{Schema: sharesSchema, Part: part, About: p.about(), Outcomes: []WinterOutcome{}, Drawn: []DrawnOutcome{}}
	all := s.About.work()
	from, to := part.units(all)
	usual := min(to, all.first) - min(from, all.first)
	drawn := to - from - usual
	stages := stages{e, usual*all.weight + drawn}
	outcomes, err := p.run(ctx, stages.engine(0, usual*all.weight), min(from, all.first), min(to, all.first))
	if err != nil {
		return nil, err
	}
	s.Outcomes = append(s.Outcomes, outcomes...)
	draws, err := p.runDraws(ctx, stages.engine(usual*all.weight, drawn), max(from, all.first)-all.first, max(to, all.first)-all.first)
	if err != nil {
		return nil, err
	}
	s.Drawn = append(s.Drawn, draws...)
	return s, nil
}

// Write writes the share as JSON. Numbers are in the shortest form that reads back to the last bit.
func (s *WintersShare) Write(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(s)
}

// NamedShare is a share and the file that it came from.
type NamedShare struct {
	File string
	WintersShare
}

// ReadShare reads a share that Write wrote. The error says what is wrong with the text.
func ReadShare(file string, text []byte) (NamedShare, error) {
	s := NamedShare{File: file}
	wrong := func(found string) (NamedShare, error) {
		return s, &ShareError{file, found, "a whole share as winters --part writes it"}
	}
	if err := json.Unmarshal(text, &s.WintersShare); err != nil {
		return wrong("no JSON, or only the beginning of it")
	}
	if s.Schema != sharesSchema {
		return wrong(fmt.Sprintf("schema %q", s.Schema))
	}
	if s.Part.Part < 1 || s.Part.Part > s.Of || s.Of > mostParts || s.About.Draws < 0 || s.About.Units != s.About.work().units() {
		return wrong("figures that contradict each other")
	}
	if from, to := s.Part.units(s.About.work()); len(s.Outcomes)+len(s.Drawn) != to-from {
		return wrong(fmt.Sprintf("%d outcomes where share %s has %d", len(s.Outcomes)+len(s.Drawn), s.Part, to-from))
	}
	if found := s.outOfPlace(); found != "" {
		return wrong(found)
	}
	return s, nil
}

// outOfPlace names the first outcome that is not the one due at its place, or lacks a margin that was asked for; "" where
// there is none.
func (s *WintersShare) outOfPlace() string {
	all := s.About.work()
	from, to := s.Part.units(all)
	if due := min(to, all.first) - min(from, all.first); len(s.Outcomes) != due {
		return fmt.Sprintf("%d outcomes without draws where share %s has %d", len(s.Outcomes), s.Part, due)
	}
	for i, o := range s.Outcomes {
		if !s.About.due(from+i, o.Winter, o.Layout) || s.About.Margins != (o.Margin != nil) {
			return fmt.Sprintf("an outcome of winter %q and layout %d out of its place, or without its margin", o.Winter, o.Layout+1)
		}
	}
	for i, o := range s.Drawn {
		if !s.About.due(max(from, all.first)+i, o.Winter, o.Layout) {
			return fmt.Sprintf("an outcome of draw %d, winter %q and layout %d out of its place", o.Draw, o.Winter, o.Layout+1)
		}
	}
	return ""
}

// due says whether a unit of work is that of a winter and a layout.
func (a *WintersAbout) due(unit int, winter string, layout int) bool {
	layouts := len(a.Layouts)
	return layout == unit%layouts && winter == a.Winters[unit/layouts%len(a.Winters)]
}

// ShareError says what is wrong with a share, or with several together.
type ShareError struct{ File, Found, Expected string }

// Error gives "file: found …; expected …".
func (e *ShareError) Error() string {
	return fmt.Sprintf("%s: found %s; expected %s", e.File, e.Found, e.Expected)
}
