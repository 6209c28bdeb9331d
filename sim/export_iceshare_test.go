package sim

import (
	"context"
	"math"
)

// eachRow is a context that is looked at before every weather row of a winter.
type eachRow struct {
	context.Context
	look func()
}

func (e eachRow) Err() error {
	e.look()
	return nil
}

// KeptShells runs a winter and tells, before every weather row and for every cell, what was kept of its water shells
// and what they say: ice share and lowest temperature.
func KeptShells(k *Case, s Settings, tell func(row, cell int, keptIce, ice, keptLow, low float64)) error {
	ground, err := undisturbed(context.Background(), k, s)
	if err != nil {
		return err
	}
	w, err := newWinter(k, s, ground)
	if err != nil {
		return err
	}
	row := 0
	_, err = w.simulate(eachRow{context.Background(), func() {
		for i, c := range w.line.cells {
			low, ice := math.NaN(), 0.0
			if c.wet() {
				ice = c.iceShareIn(c.u)
			}
			if !c.film() {
				low = math.Inf(1)
				for i := range c.mesh.water {
					low = math.Min(low, c.mesh.phase[i].temperature(c.u[i]))
				}
			}
			tell(row, i, c.iceShare(), ice, c.lowestWater(), low)
		}
		row++
	}}, nil)
	return err
}
