package sim

import (
	"context"
	"math"

	"winterline/sim/heat"
)

// What the tests of the draught need of the inside.

// AirReach is a length of an airway: length and bore [m], conductance from the air to the wall
// [W/K], temperature of the wall [°C].
type AirReach struct{ Length, Bore, Conductance, Wall float64 }

// Airway is the way of air between two ends.
type Airway struct{ a airway }

// NewAirway makes a way of smooth empty pipe, the loss at its ends [-] over the velocity head in the
// first reach.
func NewAirway(height, ends float64, reaches ...AirReach) Airway {
	var all []airReach
	for _, r := range reaches {
		c := cell{bore: r.Bore}
		all = append(all, airReach{length: r.Length, area: c.boreArea(), across: r.Bore, roughness: 1.5e-6, conductance: r.Conductance, wall: r.Wall})
	}
	return Airway{airway{all, ends / (all[0].area * all[0].area), height}}
}

// Speed of the air [m/s] that stack and a wind's pressure [Pa] draw through it.
func (w Airway) Speed(outdoors, wind float64) float64 {
	return w.a.speed(w.a.drawn(outdoors, wind, anyFlow).rate)
}

// Flow of the air [m³/s] that is found from one that may be near.
func (w Airway) Flow(outdoors, wind, near float64) float64 {
	return w.a.drawn(outdoors, wind, drawnFlow{near, 1}).rate
}

// ScaledFlow is the flow found by scaling it with the root of the ratio of pressures until that is 1 to the last digits.
func (w Airway) ScaledFlow(outdoors, wind float64) float64 {
	rho, nu := heat.AirDensity(outdoors, heat.Atmosphere), heat.AirKinematicViscosity(outdoors)
	q := anyFlow.rate
	for range 200 {
		p := wind + w.a.stack(outdoors, w.a.inside(outdoors, airRate(q, rho)))
		q *= math.Sqrt(p / w.a.loss(q, rho, nu))
	}
	return q
}

// Means are the air's mean temperatures in each reach [°C] at a capacity rate [W/K].
func (w Airway) Means(outdoors, rate float64) []float64 {
	var all []float64
	w.a.carry(rate, func(_ int, share, rest float64) { all = append(all, share*outdoors+rest) })
	return all
}

// LyingCell is one lying cell behind the joint: its distance from the wall [m], the temperature of
// the air in it and of its bare wall [°C].
type LyingCell struct{ X, Air, Wall float64 }

// DrawnAir is the draught through the line at the first weather row [m/s], with what it makes of
// the air in each lying cell behind the joint.
func DrawnAir(k *Case) (speed float64, cells []LyingCell, err error) {
	w, err := readyWinter(k)
	if err != nil {
		return 0, nil, err
	}
	w.breathe(0)
	if w.draught != nil {
		speed = w.draught.speed
	}
	return speed, w.lyingCells(0), nil
}

// AfterRun runs the case and returns its lying cells at the end with the result.
func AfterRun(k *Case) (*Result, []LyingCell, error) {
	w, err := readyWinter(k)
	if err != nil {
		return nil, nil, err
	}
	r, err := w.simulate(context.Background(), nil)
	return r, w.lyingCells(k.Weather.End()), err
}

func readyWinter(k *Case) (*winter, error) {
	g, err := undisturbed(context.Background(), k, Settings{})
	if err != nil {
		return nil, err
	}
	return newWinter(k, Settings{}, g)
}

func (w *winter) lyingCells(t float64) []LyingCell {
	var cells []LyingCell
	for _, c := range w.line.cells[w.line.jointAt:] {
		if !c.upright {
			wall := c.mesh.phase[c.mesh.water].temperature(c.u[c.mesh.water])
			_, around := c.outside.atSurface(w.sky, t, c.surfaceTemperature())
			cells = append(cells, LyingCell{c.x0, c.innerAir(w.sky.at(t), around), wall})
		}
	}
	return cells
}

// NoAllocations works the draught out many times and returns the allocations of one.
func NoAllocations(k *Case, count func(func()) float64) (float64, error) {
	w, err := readyWinter(k)
	if err != nil {
		return 0, err
	}
	return count(func() { w.breathe(0) }), nil
}

// FreeBore is the free share of a bore [m] of a cell of 0.15 m when water fills a share of it.
func FreeBore(bore, fill float64, vertical bool) float64 {
	c := &cell{place: place{vertical: vertical, upright: vertical}, bore: bore, length: 0.15}
	s := c.standingAt(fill * c.boreArea())
	c.mass, c.share, c.width = s.area*heat.WaterDensity, s.share, s.width
	c.mesh = &mesh{water: 1, cap: []float64{1}, phase: []phase{waterPhase}}
	c.u = []float64{1}
	area, _ := c.freeBore()
	return area / c.boreArea()
}
