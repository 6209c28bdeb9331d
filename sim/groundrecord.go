package sim

import (
	"context"
	"math"
)

// course is what a column went through, and how. It does not change once it is whole, so that runs
// share it.
type course struct {
	start   []float64 // the state of every volume at the first row [K]
	frost   []frost   // at each weather row
	field   GroundField
	balance float64 // closing error of its heat book [-]
	years   int     // that the spin-up took
	settled bool    // the spin-up reached its periodic state
	states  *states // from which other depths can be read later; nil: not kept
}

// record marches the column through the weather and keeps what was asked for.
func (g *ground) record(ctx context.Context, c *column, w *stepper, progress func(float64)) error {
	rows := g.s.Time
	g.frost = make([]frost, len(rows))
	if g.keeps {
		g.states = newStates(c.mesh, len(rows))
	}
	read := newReader(c.mesh, g.above, g.order, len(rows))
	before := c.content()
	c.in, c.both = sum{}, 0
	field := newPicture(&g.field, c.mesh, g.above, len(rows))
	var now stretch
	drive := now.at
	for i := range rows {
		p := read.row(i, c.u)
		g.frost[i] = read.frost(p)
		field.add(p, rows[i], i+1 == len(rows))
		g.states.keep(c.u)
		if i+1 == len(rows) {
			break
		}
		if i%256 == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
			if progress != nil {
				progress(rows[i] / rows[len(rows)-1])
			}
		}
		now.set(g, c, i)
		if err := c.march(w, drive, rows[i], rows[i+1]); err != nil {
			return err
		}
	}
	// Ground at rest exchanges next to nothing, and its closing error is the rounding of all that it holds. So the error
	// is judged against what was exchanged or the heat of one kelvin of the whole column, whichever is more.
	g.balance = math.Abs(c.content()-before-c.in.value()) / math.Max(c.both, c.kelvin())
	if !(g.balance <= bookLimit) {
		return BookError{"ground heat", g.balance, bookLimit}
	}
	return nil
}

// top is the temperature [°C] of the uppermost volume's node, and the resistance from there to the
// surface [m² K/W].
func (c *column) top() (temperature, half float64) {
	last := c.mesh.n - 1
	half = c.mesh.outLiquid[last]
	if c.u[last] < c.mesh.phase[last].freezes() {
		half = c.mesh.outFrozen[last]
	}
	return c.mesh.phase[last].temperature(c.u[last]), half
}

// stretch is what drives a column from one row to the next, joined straight.
type stretch struct {
	from, span float64 // [s]
	a, b       behind
}

func (s *stretch) set(g *ground, c *column, row int) {
	top, half := c.top()
	s.from, s.span = g.s.Time[row], g.s.Time[row+1]-g.s.Time[row]
	s.a, s.b = g.surface.at(row, top, half), g.surface.at(row+1, top, half)
}

func (s *stretch) at(t float64) (resistance, temperature float64) {
	x := (t - s.from) / s.span
	return s.a.resistance + x*(s.b.resistance-s.a.resistance), s.a.temperature + x*(s.b.temperature-s.a.temperature)
}
