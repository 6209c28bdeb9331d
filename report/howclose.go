package report

import (
	"math"

	"winterline/sim"
	"winterline/sim/answers"
)

// tooClose is the margin under which nobody should lean to either side [K].
const tooClose = 2.0

// howCloseWords says how many degrees colder the winter could have been, or how many warmer would have saved the line.
func howCloseWords(r *sim.Result, m *answers.Margin, s System) []string {
	if m == nil {
		return nil
	}
	return []string{"line: " + lineCloseWords(m.Open, s), "basement: " + basementCloseWords(r, m, s)}
}

// lineCloseWords says it of the line's staying open.
func lineCloseWords(b answers.Bound, s System) string {
	far := s.bothDifferences(math.Abs(b.K))
	switch {
	case b.Beyond && b.K < 0:
		return "would have frozen shut even if the whole winter were more than " + far + " warmer"
	case b.Beyond:
		return "would have stayed open even if the whole winter were more than " + far + " colder"
	case b.K <= -tooClose:
		return "would have stayed open if the whole winter were about " + far + " warmer"
	case b.K < 0:
		return "it froze shut, but too close to call"
	case b.K < tooClose:
		return "it stayed open, but too close to call"
	}
	return "stays open until the whole winter is about " + far + " colder"
}

// basementCloseWords says it of water beside the house and on the floor.
func basementCloseWords(r *sim.Result, m *answers.Margin, s System) string {
	b := m.Dry
	far := s.bothDifferences(math.Abs(b.K))
	const stays = "no water on the floor or beside the house"
	words := stays + " until about " + far + " colder"
	switch {
	case b.Beyond && b.K < 0:
		return "water on the floor or beside the house even at more than " + far + " warmer"
	case b.Beyond:
		words = stays + " at more than " + far + " colder"
	case b.K <= -tooClose:
		return stays + " if the whole winter were about " + far + " warmer"
	case b.K < 0:
		return "water came out, but too close to call"
	case b.K < tooClose:
		return "no water came out, but too close to call"
	}
	if len(r.Layout.Reliefs) > 0 && b.K > m.Open.K {
		words += ", IF someone keeps the relief clear"
	}
	return words
}

// MarginWarnings are what the reader of a margin must know: colder is not always worse.
func MarginWarnings(m answers.Margin) (out []sim.Warning) {
	for _, x := range []struct {
		bound answers.Bound
		words string
	}{{m.Open, "freeze it shut"}, {m.Dry, "let water out beside the house or onto the floor"}} {
		if !x.bound.Monotone {
			out = append(out, sim.Warning{Kind: "margin-order", Sentence: "Colder is not always worse for this line: some winters colder than the first to " + x.words +
				" do not do so. 'How close' tells of the first."})
		}
	}
	return out
}
