package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
	"winterline/weather"
)

// groundTracks is the undisturbed ground through the record at every depth that a part
// of the line asks for, and the depth of frost. It is computed once and then read only.
type groundTracks struct {
	sky    *sky
	site   *pipe.Site
	tracks map[int]*track // by depth in whole centimetres
	order  []*track       // in the order asked for
	frost  []float64      // lowest frozen point at each weather row [m]
	// mean and swing of the annual wave at the surface, and where they come from.
	mean, swing float64
	origin      string // layout, weather, default
	settled     bool   // the spin-up reached its periodic state
}

// newGround prepares the ground of a site for a record.
func newGround(site *pipe.Site, s *weather.Series, k *sky) *groundTracks {
	g := &groundTracks{sky: k, site: site, tracks: map[int]*track{}, origin: "layout"}
	g.mean, g.swing = defaultGroundMean, defaultGroundSwing
	if mean, swing, ok := s.Annual(); ok {
		g.mean, g.swing = mean, swing
	}
	g.mean, g.swing = pick(site.GroundMean, g.mean), pick(site.GroundSwing, g.swing)
	return g
}

// at asks for the ground at a depth [m], held to whole centimetres.
func (g *groundTracks) at(depth float64) *track {
	key := int(math.Round(depth * 100))
	if t, ok := g.tracks[key]; ok {
		return t
	}
	d := float64(key) / 100
	t := &track{sky: g.sky, law: soilPhase(soilAt(g.site, d)), u: make([]float64, len(g.sky.time)), depth: d}
	g.tracks[key] = t
	g.order = append(g.order, t)
	return t
}

// run marches the undisturbed ground through the record and fills all tracks.
func (g *groundTracks) run(w *stepper, s *weather.Series) error {
	c := newColumn(func(depth float64) pipe.Soil { return soilAt(g.site, depth) }, g.mean)
	day := float64(s.Start.YearDay()) - 1 + float64(s.Start.Hour())/24
	diffusivity := g.site.Soil.ConductivityUnfrozen / g.site.Soil.HeatCapacityUnfrozen
	c.setTemperatures(func(z float64) float64 {
		return heat.AnnualWave(z, day*86400, g.mean, g.swing, coldestDay*86400, diffusivity)
	})
	longest := w.control.Longest
	w.control.Longest = spinStep
	wave := func(t float64) (float64, float64) {
		return g.bare(), g.mean - g.swing*math.Cos(2*math.Pi*(t/86400+day-coldestDay)/365)
	}
	var err error
	g.settled, err = c.spinUp(w, wave, -secondsYear, spinYears)
	w.control.Longest = longest
	if err != nil {
		return err
	}
	return g.record(c, w)
}

const (
	spinStep  = 4 * 86400.0 // longest step of the spin-up [s]
	spinYears = 150
)

// record marches the column through the weather and keeps what was asked for.
func (g *groundTracks) record(c *column, w *stepper) error {
	g.frost = make([]float64, len(g.sky.time))
	c.dt = 60
	for i := range g.sky.time {
		for _, t := range g.order {
			t.u[i] = c.enthalpyAt(t.depth, t.law)
		}
		g.frost[i] = c.frost()
		if i+1 == len(g.sky.time) {
			break
		}
		g.sky.row = i
		if err := c.march(w, g.cover, g.sky.time[i], g.sky.time[i+1]); err != nil {
			return err
		}
	}
	g.sky.row = 0
	return nil
}

const (
	groundFilm  = 20.0  // air film over open ground, radiation included [W/(m² K)] (0.05 m² K/W)
	snowDensity = 250.0 // settled snow [kg/m³]
)

// leastSurface is the least resistance at the ground's surface, that of a millimetre of
// soil [m² K/W]: with none at all the uppermost volume would have no temperature of its own.
const leastSurface = 1e-3

// coverResistance is that of what grows or lies on the ground, snow apart [m² K/W]
// (turf and thatch as a few centimetres of loose organic matter; paving as 10 cm of
// asphalt or concrete; common practice, no source).
var coverResistance = map[pipe.Surface]float64{pipe.Grass: 0.10, pipe.Bare: 0, pipe.Gravel: 0.04, pipe.Paved: 0.07}

// bare is the resistance over ground without snow [m² K/W].
func (g *groundTracks) bare() float64 {
	if g.site.SurfaceResistance != nil {
		return math.Max(*g.site.SurfaceResistance, leastSurface)
	}
	return 1/groundFilm + coverResistance[g.site.Surface]
}

// cover is what the column sees at an instant of the record: air behind film, cover and
// the snow that lies on the line.
func (g *groundTracks) cover(t float64) (resistance, temperature float64) {
	r := g.bare()
	if g.site.SurfaceResistance == nil {
		r += g.sky.snowAt(t) * g.site.SnowOnLine / heat.SnowConductivityCalonne(snowDensity)
	}
	return r, g.sky.at(t).temp
}
