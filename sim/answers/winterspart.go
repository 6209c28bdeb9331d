package answers

import (
	"fmt"
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

// work is the units of work of an answer: the first ones, each of which takes as long as so many others, and the others.
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

// units are the units of work of a share, from one up to another. Shares take about as long as each other, and each is a
// stretch of the units' order, so that it needs the ground of few winters or draws.
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
