package sim

import (
	"context"
	"math"
	"slices"

	"winterline/pipe"
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
	list []*ground    // the site's own surface first
	past []remembered // from before the first row; nil: nothing is known of it

	shift float64         // by which the record is made warmer [K]
	felt  *weather.Series // the record with that shift
	usual *grounds        // those under the record without the shift; nil: there is no shift
}

// groundKey tells surfaces apart.
type groundKey struct {
	cover  pipe.Surface
	snowOn float64 // share of the snow in the open [-]
}

// newGrounds prepares the ground of a site for a record; cells read it at the sky's row.
func newGrounds(site *pipe.Site, s *weather.Series, k *sky) *grounds {
	g := &grounds{site: site, s: s, sky: k, pack: k.pack, soil: earths{}, felt: s}
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
	one := newGround(g, key, newSurface(g.site, key, g.felt, g.pack))
	if g.usual != nil {
		one.shiftFrom(g.usual.under(key), g.shift)
	}
	g.list = append(g.list, one)
	return one
}

// asked says whether anybody asks for a temperature in the ground.
func (g *grounds) asked() bool {
	for _, one := range g.list {
		if len(one.order) > 0 {
			return true
		}
	}
	return false
}

// run takes all columns that are asked for through the record, or from a store that has them already.
func (g *grounds) run(ctx context.Context, s Stepping, store *GroundStore) error {
	for i, one := range g.list {
		if i > 0 && len(one.order) == 0 {
			continue
		}
		if err := one.recall(g.past); err != nil {
			return err
		}
		if one.startsLater() {
			if err := store.run(ctx, one.usual, s); err != nil {
				return err
			}
		}
		if err := store.run(ctx, one, s); err != nil {
			return err
		}
	}
	return nil
}

// ground is one column of undisturbed ground and what is kept of its way through a record:
// the state at every depth that was asked for, and its course.
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
	// mean and swing of the annual wave at the surface.
	mean, swing float64
	firstYear   int         // how many rows the record's first 365 days have; 0 when it is shorter
	shift       float64     // by which the weather is made warmer [K]
	usual       *ground     // the column under the weather as recorded, from whose start a shifted one goes on; nil: not shifted
	past        *remembered // its state at the first row; nil: the spin-up finds it
	keeps       bool        // it keeps its states, so that other depths can be read later
	course
}

// newGround prepares a column.
func newGround(all *grounds, key groundKey, f *surface) *ground {
	site, s := all.site, all.s
	g := &ground{site: site, s: s, sky: all.sky, soil: all.soil, key: key, surface: f, tracks: map[int]*track{}}
	g.mean, g.swing = defaultGroundMean, defaultGroundSwing
	if mean, swing, ok := s.Annual(); ok {
		g.mean, g.swing = mean, swing
	}
	if s.CoversYear() {
		g.firstYear, _ = slices.BinarySearch(s.Time, secondsYear)
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
	t := &track{sky: g.sky, law: g.soil.of(g.site.SoilUnder(g.key.cover, d)).law, depth: d}
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
	c, err := g.begin(ctx, w)
	if err != nil {
		return err
	}
	return g.record(ctx, c, w, progress)
}

// begin is the column as it stands at the record's first row.
func (g *ground) begin(ctx context.Context, w *stepper) (*column, error) {
	g.surface.prepare()
	c := newColumn(func(z float64) pipe.Soil { return g.site.SoilUnder(g.key.cover, z+g.above) }, g.mean, g.changes()...)
	switch {
	case g.past != nil:
		copy(c.u, g.past.u)
		g.years, g.settled = g.past.years, g.past.settled
	case g.usual != nil:
		copy(c.u, g.usual.start)
		g.years, g.settled = g.usual.years, g.usual.settled
	default:
		if err := g.spinUp(ctx, c, w); err != nil {
			return nil, err
		}
	}
	c.dt = 60
	if g.past != nil {
		c.dt = g.past.dt
	}
	g.start = slices.Clone(c.u)
	return c, nil
}

// changes are the depths below the column's top at which the soil changes [m].
func (g *ground) changes() []float64 {
	var depths []float64
	for _, layer := range g.site.LayersUnder(g.key.cover) {
		depths = append(depths, layer.To-g.above)
	}
	return depths
}

// storeBytes is what a store may come to hold of the column [bytes]: at every row the state of each volume, and the depths
// that were read.
func (g *ground) storeBytes() int {
	volumes := len(columnEdges(g.changes())) - 1
	return 8 * len(g.s.Time) * (volumes + keptTracks)
}
