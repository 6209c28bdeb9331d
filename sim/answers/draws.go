package answers

import (
	"math"
	"slices"
	"strings"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather/chance"
)

// MostDraws is how many draws a question may ask for.
const MostDraws = 10_000

// Drawn is a quantity that nobody knows well, as it is drawn for a layout. What the layout writes is not drawn.
type Drawn struct {
	Quantity string   `json:"quantity"` // as DrawnQuantities names it: soil_moisture, wind_exposure and so on
	Key      string   `json:"key"`      // of the layout; or nucleation, slush_limit, which belong to the simulation
	Low      float64  `json:"low"`      // in SI, °C
	High     float64  `json:"high"`
	Usual    *float64 `json:"usual"`        // likeliest value; nil: all are equally likely
	Log      bool     `json:"by_logarithm"` // it spans decades
	Source   string   `json:"source"`
}

// Quantities that are drawn. Each has one column of the Latin hypercube, whichever layouts need it, so that all layouts
// meet the same draws: where the soil is wetter than usual it is so for all of them. A new one goes to the end, where it
// leaves the others' draws as they are.
const (
	drawMoisture = iota
	drawWind
	drawWater
	drawNucleation
	drawSlush
	drawDrainage
	drawSpread
	drawnQuantities
)

var drawnWords = [drawnQuantities]string{"soil_moisture", "wind_exposure", "water_temperature", "nucleation", "slush_limit", "saturated_conductivity", "spread_area"}

// DrawnQuantities are the keys of all that may be drawn.
func DrawnQuantities() []string { return append([]string(nil), drawnWords[:]...) }

// byLogarithm says whether a quantity spans decades.
func byLogarithm(quantity int) bool { return quantity == drawDrainage || quantity == drawSpread }

// drawn is a quantity with what makes an edit of its value; without a guess it is a setting.
type drawn struct {
	Drawn
	quantity int
	guess    *pipe.Guess
}

// drawnOf are the quantities that are drawn for a case, in a fixed order.
func drawnOf(k *sim.Case) (all []drawn) {
	guesses := k.Layout.Guesses
	if g, ok := k.Layout.DrainageGuess(); ok {
		guesses = append(slices.Clip(guesses), g)
	}
	for quantity, word := range drawnWords {
		switch {
		case quantity == drawNucleation && supercools(k.Layout):
			all = append(all, nucleationDrawn())
		case quantity == drawSlush:
			all = append(all, slushDrawn())
		}
		for _, g := range guesses {
			if strings.HasSuffix(g.Key, "."+word) {
				all = append(all, guessDrawn(quantity, g))
			}
		}
	}
	return all
}

// supercools says whether any water of a layout supercools as the settings say.
func supercools(l *pipe.Layout) bool {
	return slices.ContainsFunc(l.Segments, func(s pipe.Segment) bool { return s.Nucleation == nil })
}

func nucleationDrawn() drawn {
	return settingDrawn(drawNucleation, -7, -4, -1, "water not in touch with open air; observed range (from memory)")
}

func slushDrawn() drawn {
	return settingDrawn(drawSlush, 0.02, 0.04, 0.08, "ice share from which slush shuts a full pipe; assumption without source")
}

func settingDrawn(quantity int, low, usual, high float64, source string) drawn {
	word := drawnWords[quantity]
	return drawn{Drawn{word, word, low, high, &usual, byLogarithm(quantity), source}, quantity, nil}
}

func guessDrawn(quantity int, g pipe.Guess) drawn {
	d := drawn{Drawn{drawnWords[quantity], g.Key, g.Low, g.High, nil, byLogarithm(quantity), g.Source}, quantity, &g}
	if g.Text == "" { // a word, such as "from the ground", is no likeliest value
		usual := min(max(g.Value, g.Low), g.High)
		d.Usual = &usual
	}
	return d
}

// at is the value below which a share p of all draws lie.
func (d *drawn) at(p float64) float64 {
	usual := math.NaN()
	if d.Usual != nil {
		usual = *d.Usual
	}
	return chance.Range{Low: d.Low, High: d.High, Usual: usual, Log: d.Log}.At(p)
}

// draw are the values of all quantities in one draw, as shares of all draws that lie below.
type draw [drawnQuantities]float64

// drawsOf makes n draws, in which each quantity takes a value from each n-th of all that it may be (Latin hypercube).
func drawsOf(n int, seed uint64) []draw {
	ranges := make([]chance.Range, drawnQuantities)
	for i := range ranges {
		ranges[i] = chance.Range{Low: 0, High: 1, Usual: math.NaN()}
	}
	out := make([]draw, n)
	for i, row := range chance.Draws(n, seed, ranges) {
		copy(out[i][:], row)
	}
	return out
}

// edits puts a draw's values into a layout.
func (d draw) edits(all []drawn) (edits []pipe.Edit) {
	for _, one := range all {
		if one.guess != nil {
			edits = append(edits, one.guess.Edit(one.at(d[one.quantity])))
		}
	}
	return edits
}

// settings are those of a run with a draw's values; a segment's own nucleation wins over them.
func (d draw) settings(s sim.Settings) sim.Settings {
	nucleation, slush := nucleationDrawn(), slushDrawn()
	s.Nucleation, s.SlushLimit = nucleation.at(d[drawNucleation]), slush.at(d[drawSlush])
	return s
}
