package pipe

import "winterline/pipe/units"

// LowEdit returns the edit that puts the low end of the range in place of the value in use.
func (g Guess) LowEdit() Edit { return g.edit(g.LowText, g.Low) }

// HighEdit returns the edit that puts the high end of the range in place of the value in use.
func (g Guess) HighEdit() Edit { return g.edit(g.HighText, g.High) }

// Edit returns the edit that puts a value [SI] in place of the one in use.
func (g Guess) Edit(v float64) Edit { return g.edit("", v) }

// keepWithin moves the value and its range to between two bounds.
func (g *Guess) keepWithin(low, high float64) {
	for _, v := range []*float64{&g.Value, &g.Low, &g.High} {
		*v = min(max(*v, low), high)
	}
}

func (g Guess) edit(text string, v float64) Edit {
	if text == "" {
		text = units.Write(g.Dimension, v)
	}
	return Edit{Path: g.Key, Value: text}
}
