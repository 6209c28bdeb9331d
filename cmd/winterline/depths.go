package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"winterline/pipe/units"
)

// Bounds of --depths.
const (
	deepest    = 10.0 // where the column of soil ends [m]
	mostDepths = 50
)

// depthList reads --depths and collects all that is wrong with it.
type depthList struct {
	depths   []float64      // [m]
	words    map[int]string // as typed, by the millimetre on which they fall in the table
	problems units.Problems
}

// parseDepths reads a list of depths such as "0.1 m,20 in" [m]; nil for an empty one. All
// that is wrong with it comes as one usage error.
func parseDepths(list string) ([]float64, error) {
	if list == "" {
		return nil, nil
	}
	l := &depthList{words: map[int]string{}}
	words := strings.Split(list, ",")
	if len(words) > mostDepths {
		l.wrong(fmt.Sprintf("%d depths", len(words)), fmt.Sprintf("at most %d", mostDepths))
	}
	for _, word := range words {
		l.add(strings.TrimSpace(word))
	}
	if len(l.problems) > 0 {
		return nil, usage("%w", l.problems)
	}
	return l.depths, nil
}

func (l *depthList) wrong(found, expected string) {
	l.problems = append(l.problems, units.Problem{File: "--depths", Found: found, Expected: expected})
}

// add takes one depth of the list, or refuses it.
func (l *depthList) add(word string) {
	depth, err := units.Parse(units.Length, word)
	if err != nil {
		l.problems = append(l.problems, units.At("--depths", 0, "", err))
		return
	}
	if !(depth >= 0 && depth <= deepest) {
		l.wrong(strconv.Quote(word), "a depth from 0 to 10 m, where the column of soil ends")
		return
	}
	millimetre := int(math.Round(depth * 1000))
	if before, again := l.words[millimetre]; again {
		l.wrong(fmt.Sprintf("%q after %q", word, before), "each depth once, to the millimetre")
		return
	}
	l.words[millimetre] = word
	l.depths = append(l.depths, depth)
}
