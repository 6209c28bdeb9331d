package sim

import (
	"context"
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// grounds are the columns of undisturbed ground of a site, one for each kind of surface
// that a part of the line lies under. They are computed once and then read only.
type grounds struct {
	site *pipe.Site
	s    *weather.Series
	sky  *sky
	pack weather.SnowPack
	soil earths
	list []*ground // the site's own surface first
}

// groundKey tells surfaces apart.
type groundKey struct {
	cover  pipe.Surface
	snowOn float64 // share of the snow in the open [-]
}

// newGrounds prepares the ground of a site for a record; cells read it at the sky's row.
func newGrounds(site *pipe.Site, s *weather.Series, k *sky) *grounds {
	g := &grounds{site: site, s: s, sky: k, pack: k.pack, soil: earths{}}
	g.under(groundKey{site.Surface, site.SnowOnLine})
	return g
}

// own is the ground under the site's own surface.
func (g *grounds) own() *ground { return g.list[0] }

// under is the ground under a kind of surface.
func (g *grounds) under(key groundKey) *ground {
	for _, one := range g.list {
		if one.key == key {
			return one
		}
	}
	one := newGround(g, key, newSurface(g.site, key, g.s, g.pack))
	g.list = append(g.list, one)
	return one
}

// asked says whether any part of the line lies in the ground.
func (g *grounds) asked() bool {
	for _, one := range g.list {
		if len(one.order) > 0 {
			return true
		}
	}
	return false
}

// run marches all columns that are asked for through the record.
func (g *grounds) run(ctx context.Context, s Stepping) error {
	for i, one := range g.list {
		if i > 0 && len(one.order) == 0 {
			continue
		}
		if err := one.run(ctx, newStepper(s), nil); err != nil {
			return err
		}
	}
	return nil
}

// ground is one column of undisturbed ground and what is kept of its way through a record:
// the state at every depth that was asked for, the frost, and a picture of the whole.
type ground struct {
	site    *pipe.Site
	s       *weather.Series
	sky     *sky
	soil    earths
	key     groundKey
	surface *surface
	above   float64        // depth of the column's top below the ground's surface [m]
	tracks  map[int]*track // by depth in whole millimetres
	order   []*track       // in the order asked for
	frost   []frost        // at each weather row
	field   GroundField
	balance float64 // closing error of its heat book [-]
	// mean and swing of the annual wave at the surface.
	mean, swing float64
	years       int  // that the spin-up took
	settled     bool // the spin-up reached its periodic state
}

// newGround prepares a column.
func newGround(all *grounds, key groundKey, f *surface) *ground {
	site, s := all.site, all.s
	g := &ground{site: site, s: s, sky: all.sky, soil: all.soil, key: key, surface: f, tracks: map[int]*track{}}
	g.mean, g.swing = defaultGroundMean, defaultGroundSwing
	if mean, swing, ok := s.Annual(); ok {
		g.mean, g.swing = mean, swing
	}
	g.mean, g.swing = pick(site.GroundMean, g.mean), pick(site.GroundSwing, g.swing)
	return g
}

// at asks for the ground at a depth [m], held to whole millimetres.
func (g *ground) at(depth float64) *track {
	key := int(math.Round(depth * 1000))
	if t, ok := g.tracks[key]; ok {
		return t
	}
	d := float64(key) / 1000
	t := &track{sky: g.sky, law: g.soil.of(g.site.SoilUnder(g.key.cover, d)).law, u: make([]float64, len(g.s.Time)), depth: d}
	g.tracks[key] = t
	g.order = append(g.order, t)
	return t
}

// show asks for the ground at the depths that results show [m], and at those of measured
// columns.
func (g *ground) show(depths []float64) {
	for _, z := range depths {
		g.at(z).shown = true
	}
	for _, t := range g.s.Soil {
		if t.Depth < g.above+columnDepth {
			g.at(t.Depth).shown = true
		}
	}
}

// run brings the column to the record's first row and then through the record, and fills
// all tracks. progress, if not nil, is told how far it is.
func (g *ground) run(ctx context.Context, w *stepper, progress func(float64)) error {
	c := newColumn(func(z float64) pipe.Soil { return g.site.SoilUnder(g.key.cover, z+g.above) }, g.mean, g.changes()...)
	if err := g.spinUp(ctx, c, w); err != nil {
		return err
	}
	return g.record(ctx, c, w, progress)
}

// changes are the depths below the column's top at which the soil changes [m].
func (g *ground) changes() []float64 {
	var depths []float64
	for _, layer := range g.site.LayersUnder(g.key.cover) {
		depths = append(depths, layer.To-g.above)
	}
	return depths
}

// spinUp takes the column to the periodic state of the record's first whole year, or of an
// annual wave where the record is shorter.
func (g *ground) spinUp(ctx context.Context, c *column, w *stepper) error {
	day := float64(g.s.Start.YearDay()) - 1 + float64(g.s.Start.Hour())/24
	soil := g.site.SoilUnder(g.key.cover, columnDepth)
	c.setTemperatures(func(z float64) float64 {
		return heat.AnnualWave(z, day*86400, g.mean, g.swing, coldestDay*86400, soil.ConductivityUnfrozen/soil.HeatCapacityUnfrozen)
	})
	longest := w.control.Longest
	defer func() { w.control.Longest = longest }()
	w.control.Longest = spinStep
	year := func() error {
		wave := func(t float64) (float64, float64) {
			return g.surface.bare(), g.mean - g.swing*math.Cos(2*math.Pi*(t/86400+day-coldestDay)/365)
		}
		return c.year(w, wave, 0)
	}
	if rows := g.firstYear(); rows > 0 {
		year = func() error { return g.dailyYear(c, w, rows) }
	}
	var err error
	g.years, g.settled, err = c.spinUp(spinYears, func() error {
		if err := ctx.Err(); err != nil {
			return err
		}
		return year()
	})
	if err != nil || g.firstYear() == 0 {
		return err
	}
	w.control.Longest = longest
	return g.hourlyYear(ctx, c, w)
}

// hourlyYear marches the record's first year by its rows: daily means leave the ground a little
// off what the record itself would.
func (g *ground) hourlyYear(ctx context.Context, c *column, w *stepper) error {
	var now stretch
	drive := now.at
	rows := g.firstYear()
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

// firstYear is how many rows the record's first 365 days have; 0 when it is shorter.
func (g *ground) firstYear() int {
	if _, _, whole := g.s.Annual(); !whole {
		return 0
	}
	n := 0
	for n < len(g.s.Time) && g.s.Time[n] < secondsYear {
		n++
	}
	return n
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

// record marches the column through the weather and keeps what was asked for.
func (g *ground) record(ctx context.Context, c *column, w *stepper, progress func(float64)) error {
	rows := g.s.Time
	g.frost = make([]frost, len(rows))
	c.dt = 60
	before := c.content()
	c.in, c.both = sum{}, 0
	field := newPicture(&g.field, g.above, len(rows))
	var now stretch
	drive := now.at
	for i := range rows {
		p := c.look(&w.scratch)
		g.keep(p, i)
		field.add(p, rows[i], i+1 == len(rows))
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
	// Ground at rest exchanges next to nothing, and what is left is rounding of all that it holds:
	// its book is judged by no less than the heat of a kelvin of the whole column.
	g.balance = math.Abs(c.content()-before-c.in.value()) / math.Max(c.both, c.kelvin())
	if !(g.balance <= bookLimit) {
		return BookError{"ground heat", g.balance, bookLimit}
	}
	return nil
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

// keep keeps what was asked for at a row.
func (g *ground) keep(p *profile, row int) {
	for _, t := range g.order {
		t.u[row] = math.NaN()
		if t.depth >= g.above {
			t.u[row] = t.law.enthalpyWith(p.at(t.depth - g.above))
		}
	}
	f := p.frost()
	f.top, f.bottom = f.top+g.above, f.bottom+g.above
	g.frost[row] = f
}
