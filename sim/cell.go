package sim

import (
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// cell is a stretch of pipe with one temperature at each radius. Its thermal state is
// the enthalpy of its control volumes, u, and nothing else; how much water stands in
// it is set by share and the mesh's depth ratio.
//
// A pool is replaced by the cylinder of water that has the same ratio of area to wetted
// perimeter. The mesh is that of a full pipe whose water shells are scaled by the depth
// ratio, and the cell is the share of it that the wetted wall is of the whole wall: heat of a
// mesh [J/m] times share and length is that of the cell [J].
type cell struct {
	place
	mesh *mesh
	u    []float64 // enthalpy of each volume [K]; part of the slab of all cells
	read shellsRead
	past past
	idle idle
	kept cellKept
	even *evenFlow // nil for a vertical cell

	bore       float64 // inside diameter [m]
	manning    float64 // Manning's n of the bore [s/m^(1/3)]
	length     float64 // [m]
	share      float64 // wetted share of the wall; 1 for a dry cell, all of whose wall takes part; in an upright slice, the share of its height under water
	reach      float64 // in an upright slice, the share of its height up to which ice has grown, which stays when the water drains
	mass       float64 // standing water and ice per metre [kg/m]
	written    float64 // standing water that the layout wants until water runs [kg/m]; 0: what the levels say
	width      float64 // free surface per metre of cell, over share [m]
	soil       int     // index of the first soil volume; mesh.n when there is none
	mixed      bool
	nucleus    float64 // temperature to which the water supercools [°C]; 0: not at all
	slushLimit float64 // ice share from which slush shuts it [-]
	liquid     bool    // its water follows the law of supercooled water: it has not frozen since it was last free of ice
	slushy     bool    // its ice began as slush, from supercooled water

	outside outside
	air     drawnAir
	dt      float64 // step to try next [s]

	tally tally
	last  lastWarm
}

// place is where a cell lies.
type place struct {
	segment  int     // index in the layout; that of the line for the standpipe, the last for elbow and riser to the lid
	part     int     // index of its row in the result: the segment's, or one of its own for standpipe and outlet riser
	x0, x1   float64 // distance from the wall at its ends [m]
	z0, z1   float64 // invert level at its ends [m]; for a vertical cell bottom and top
	vertical bool
	upright  bool // part of the standpipe, or of elbow and riser to the lid
	free     bool // an upright cell in which the water's surface can lie, open to the air
	top      bool // the uppermost of the riser to the lid
}

// tally is what a cell has been through.
type tally struct {
	heatIn      float64    // through the outside, over the record [J]
	groundIn    float64    // from the undisturbed ground's own change [J]
	surfaceIn   float64    // through the free surface or the bare inner wall [J]
	firstIce    float64    // [s]; NaN: never
	heatToIce   float64    // heatIn up to then [J]
	track       []icePoint // ice mass through the interval since the last synchronisation
	at          int        // index of the point of the track that shareAt has come to
	hasFirstIce bool
	slush       *slushPoint // since the recorder last looked; nil: none
}

// icePoint is a cell's ice at an instant.
type icePoint struct {
	t   float64 // [s]
	ice float64 // [kg]
	all float64 // standing water and ice [kg]
}

// wet reports whether water stands in the cell.
func (c *cell) wet() bool { return c.mass > 0 }

// boreArea is the open cross-section without ice [m²].
func (c *cell) boreArea() float64 { return math.Pi / 4 * c.bore * c.bore }

// iceMass is the ice standing in the cell [kg].
func (c *cell) iceMass() float64 { return c.iceShare() * c.mass * c.length }

// filmFill is the share of the bore below which the cell holds but a film, which drained water left on
// the bed: some millimetres of ice at most. It is followed, but not told of as standing water.
const filmFill = 0.01

// film reports that the cell holds no more than a film.
func (c *cell) film() bool { return c.fill() < filmFill }

// point is the ice in the cell's standing water now.
func (c *cell) point(t float64) icePoint {
	if c.film() {
		return icePoint{t: t}
	}
	return icePoint{t, c.iceMass(), c.mass * c.length}
}

// wallContact is the temperature where water meets wall [°C] in state u. No water is colder
// as long as the surroundings of the pipe are colder than the water.
func (c *cell) wallContact(u []float64) float64 {
	m := c.mesh
	i, j := m.water-1, m.water
	ti, tj := m.phase[i].temperature(u[i]), m.phase[j].temperature(u[j])
	ri, rj := m.outLiquid[i], m.inLiquid[j]
	return (ti*rj + tj*ri) / (ri + rj)
}

// heatContent is the enthalpy of all its control volumes [J].
func (c *cell) heatContent() float64 {
	sum := 0.0
	for i := c.firstShell(); i < c.mesh.n; i++ {
		sum += c.mesh.cap[i] * c.u[i]
	}
	return sum * c.share * c.length
}

// iceArea is the cross-section that the ice takes up, its swelling included [m²].
func (c *cell) iceArea() float64 { return c.iceAreaAt(c.iceShare()) }

// iceAreaAt is the same if the share f of the standing water were ice.
func (c *cell) iceAreaAt(f float64) float64 {
	area := f * c.mass / heat.WaterDensity * (1 + heat.IceExpansion)
	if high := max(c.share, c.reach); c.vertical && high > 0 {
		area /= high // the slice holds ice over part of its height only
	}
	return area
}

// standing is the geometry of water that stands in a cell.
type standing struct {
	area  float64 // of water, as liquid [m²]
	share float64 // wetted wall over all wall [-]
	ratio float64 // radius of the equivalent cylinder over the bore's [-]
	width float64 // of the free surface, over share [m]
}

// dryBelow is the share of the bore below which a cell counts as dry, and a film of water is not followed [-].
const dryBelow = 2e-3

// standingAt works out the geometry of a cell that holds an area of water [m²] as
// liquid: a pool in a lying pipe, a column in a slice of a vertical one.
func (c *cell) standingAt(area float64) standing {
	full := c.boreArea()
	fill := min(1, area/full)
	switch {
	case fill < dryBelow:
		return standing{share: 1, ratio: 1}
	case c.vertical:
		s := standing{area: fill * full, share: fill, ratio: 1}
		if c.free && (fill < 1-1e-9 || c.top) {
			s.width = full / c.length / fill
		}
		return s
	case fill >= 1-1e-9:
		return standing{area: full, share: 1, ratio: 1}
	}
	depth := pipe.SegmentDepth(c.bore, fill*full)
	wetted := pipe.WettedPerimeter(c.bore, depth)
	share := wetted / (math.Pi * c.bore)
	return standing{
		area:  fill * full,
		share: share,
		ratio: 2 * fill * full / wetted / (c.bore / 2),
		width: pipe.TopWidth(c.bore, depth) / share,
	}
}
