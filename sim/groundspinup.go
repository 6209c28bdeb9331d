package sim

import (
	"context"
	"math"

	"winterline/sim/heat"
)

// spinUp takes the column to the periodic state of the record's first whole year, or of an
// annual wave where the record is shorter.
func (g *ground) spinUp(ctx context.Context, c *column, w *stepper) error {
	day := float64(g.s.Start.YearDay()) - 1 + float64(g.s.Start.Hour())/24
	soil := g.site.SoilUnder(g.key.cover, columnDepth)
	c.setTemperatures(func(z float64) float64 {
		return heat.AnnualWave(z, day*86400, g.mean, g.swing, coldestDay*86400, soil.ConductivityUnfrozen/soil.HeatCapacityUnfrozen)
	})
	usual := w.control
	defer func() { w.control = usual }()
	w.control.Longest = spinStep
	if rows := g.firstYear; rows > 0 {
		if err := g.settle(ctx, c, w, spinSettled, spinCoarse, func() error { return g.dailyYear(c, w, rows) }); err != nil {
			return err
		}
		w.control = usual
		return g.hourlyYear(ctx, c, w)
	}
	wave := func(t float64) (float64, float64) {
		return g.surface.bare(), g.mean - g.swing*math.Cos(2*math.Pi*(t/86400+day-coldestDay)/365)
	}
	year := func() error { return c.year(w, wave, 0) }
	if err := g.settle(ctx, c, w, spinRough, spinCoarse, year); err != nil {
		return err
	}
	return g.settle(ctx, c, w, spinSettled, 1, year)
}

// settle repeats a year until it changes no temperature by more than limit [K]. coarse is the tolerance of steps
// meanwhile, over the usual one.
func (g *ground) settle(ctx context.Context, c *column, w *stepper, limit, coarse float64, year func() error) error {
	usual := w.control.Tolerance
	w.control.Tolerance *= coarse
	n, settled, err := c.spinUp(spinYears, limit, func() error {
		if err := ctx.Err(); err != nil {
			return err
		}
		return year()
	})
	w.control.Tolerance = usual
	g.years, g.settled = g.years+n, settled
	return err
}

// hourlyYear marches the record's first year row by row: daily means have left the ground a little
// off from where the record itself leaves it.
func (g *ground) hourlyYear(ctx context.Context, c *column, w *stepper) error {
	var now stretch
	drive := now.at
	rows := g.firstYear
	for i := 0; i+1 < rows; i++ {
		if err := ctx.Err(); err != nil {
			return err
		}
		now.set(g, c, i)
		if err := c.march(w, drive, g.s.Time[i], g.s.Time[i+1]); err != nil {
			return err
		}
	}
	return nil
}

// dailyYear marches the record's first year by its daily means.
func (g *ground) dailyYear(c *column, w *stepper, rows int) error {
	const day = 86400.0
	for row := 0; row < rows; {
		from := math.Floor(g.s.Time[row] / day)
		top, half := c.top()
		var conductance, flow, n float64
		for ; row < rows && math.Floor(g.s.Time[row]/day) == from; row++ {
			b := g.surface.at(row, top, half)
			conductance += 1 / b.resistance
			flow += b.temperature / b.resistance
			n++
		}
		mean := func(float64) (float64, float64) { return n / conductance, flow / conductance }
		end := (from + 1) * day
		if row < rows {
			end = math.Floor(g.s.Time[row]/day) * day
		}
		if err := c.march(w, mean, from*day, end); err != nil {
			return err
		}
	}
	return nil
}
