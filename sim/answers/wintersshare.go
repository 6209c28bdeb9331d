package answers

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Part is one of several shares of the work, counted from 1.
type Part struct {
	Part int `json:"part"`
	Of   int `json:"of"`
}

// mostParts is how many shares work may be divided into.
const mostParts = 100_000

// ParsePart reads "3/20".
func ParsePart(text string) (Part, error) {
	part, of, _ := strings.Cut(text, "/")
	var p Part
	var err1, err2 error
	p.Part, err1 = strconv.Atoi(part)
	p.Of, err2 = strconv.Atoi(of)
	if err1 != nil || err2 != nil || p.Part < 1 || p.Part > p.Of || p.Of > mostParts {
		return Part{}, fmt.Errorf("found %q; expected one share of several, such as 3/20", text)
	}
	return p, nil
}

// String gives "3/20".
func (p Part) String() string { return fmt.Sprintf("%d/%d", p.Part, p.Of) }

// work is so many units of work, of which the first ones may take longer than the others.
type work struct{ first, weight, others int }

// units is how many there are.
func (w work) units() int { return w.first + w.others }

// marginWeight is how many simulations a winter with its margins takes, roughly.
const marginWeight = 10

// work is all that an answer takes: winters times layouts, and for every draw as much again.
func (a *WintersAbout) work() work {
	n := len(a.Winters) * len(a.Layouts)
	w := work{n, 1, n * a.Draws}
	if a.Margins {
		w.weight = marginWeight
	}
	return w
}

// units are the units of work of a share, from one up to another. Shares take about as long as each other and are in the order
// of the units, so that one needs the ground of few winters or draws.
func (p Part) units(w work) (from, to int) { return w.until(p.Part-1, p.Of), w.until(p.Part, p.Of) }

// until is where part of so many equal parts ends.
func (w work) until(part, of int) int {
	long := w.first * w.weight
	at := part * (long + w.others) / of
	if at < long {
		return at / w.weight
	}
	return w.first + at - long
}

// SharesSchema names the form of a share's JSON.
const SharesSchema = "winterline.winters-share/1"

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
	s := &WintersShare{Schema: SharesSchema, Part: part, About: p.about(), Outcomes: []WinterOutcome{}, Drawn: []DrawnOutcome{}}
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
	if s.Schema != SharesSchema {
		return wrong(fmt.Sprintf("schema %q", s.Schema))
	}
	if s.Part.Part < 1 || s.Part.Part > s.Of || s.Of > mostParts || s.About.Draws < 0 || s.About.Units != s.About.work().units() {
		return wrong("figures that contradict each other")
	}
	if from, to := s.Part.units(s.About.work()); len(s.Outcomes)+len(s.Drawn) != to-from {
		return wrong(fmt.Sprintf("%d outcomes where share %s has %d", len(s.Outcomes)+len(s.Drawn), s.Part, to-from))
	}
	return s, nil
}

// ShareError says what is wrong with a share, or with several together.
type ShareError struct{ File, Found, Expected string }

// Error gives "file: found …; expected …".
func (e *ShareError) Error() string {
	return fmt.Sprintf("%s: found %s; expected %s", e.File, e.Found, e.Expected)
}

// MergeShares joins all shares of an answer, in any order, into the answer that one machine would have given.
func MergeShares(shares []NamedShare) (*WintersAnswer, error) {
	if len(shares) == 0 {
		return nil, &ShareError{"--merge", "no share", "the files of all shares"}
	}
	first := shares[0]
	by := make([]*NamedShare, first.Of)
	for i := range shares {
		s := &shares[i]
		if err := first.fits(s); err != nil {
			return nil, err
		}
		at := &by[s.Part.Part-1]
		if *at != nil {
			return nil, &ShareError{s.File, fmt.Sprintf("share %s, which %s is as well", s.Part, (*at).File), "every share once"}
		}
		*at = s
	}
	var missing []string
	a := &WintersAnswer{About: first.About, Outcomes: []WinterOutcome{}, Drawn: []DrawnOutcome{}}
	for i, s := range by {
		if s == nil {
			missing = append(missing, Part{i + 1, first.Of}.String())
			continue
		}
		a.Outcomes, a.Drawn = append(a.Outcomes, s.Outcomes...), append(a.Drawn, s.Drawn...)
	}
	if len(missing) > 0 {
		return nil, &ShareError{"--merge", "no share " + someOf(missing), fmt.Sprintf("all %d shares", first.Of)}
	}
	return a, nil
}

// fits refuses a share of other work than the first one's.
func (first *NamedShare) fits(s *NamedShare) error {
	if s.Of != first.Of {
		return &ShareError{s.File, fmt.Sprintf("share %s", s.Part), fmt.Sprintf("one of %d shares, as %s is", first.Of, first.File)}
	}
	same := "the same as in " + first.File
	for _, name := range namesOf(first.About.Inputs, s.About.Inputs) {
		if first.About.Inputs[name] != s.About.Inputs[name] {
			return &ShareError{s.File, fmt.Sprintf("another %s behind it (check sum %s)", name, shortSum(s.About.Inputs[name])), same + " (" + shortSum(first.About.Inputs[name]) + ")"}
		}
	}
	if first.About.Version != s.About.Version {
		return &ShareError{s.File, "version " + s.About.Version + " of the program", "that of " + first.File + ", " + first.About.Version}
	}
	// What is left are options that change the work without changing an input.
	a, err1 := json.Marshal(first.About)
	b, err2 := json.Marshal(s.About)
	if err1 != nil || err2 != nil || string(a) != string(b) {
		return &ShareError{s.File, "a share of other work", same}
	}
	return nil
}

// namesOf are the names of two sets of inputs, in alphabetical order.
func namesOf(a, b map[string]string) (names []string) {
	for _, m := range []map[string]string{a, b} {
		for name := range m {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return slices.Compact(names)
}

// shortSum is the beginning of a check sum, enough to tell two apart.
func shortSum(sum string) string {
	if sum == "" {
		return "none"
	}
	return sum[:min(len(sum), 12)]
}

// someOf lists words, of many the first.
func someOf(words []string) string {
	const most = 8
	if len(words) > most {
		return strings.Join(words[:most], ", ") + fmt.Sprintf(" and %d more", len(words)-most)
	}
	return strings.Join(words, ", ")
}
