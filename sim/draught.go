package sim

import (
	"math"
	"slices"

	"winterline/pipe"
	"winterline/sim/heat"
)

// draught is the outdoor air that stack and wind draw through the drained line between the
// standpipe, or the relief opening of a glued line, and the outlet. Upstream of that the check
// valve keeps the house pipe full of water, so that no air passes there.
//
// A downspout that joins the line is not taken for an opening (unsafe side).
type draught struct {
	airway
	cells []*cell // from the joint to the outlet, in flow order
	rough []float64
	neck  float64 // area between house pipe and standpipe [m²]; 0: no standpipe
	wind  float64 // difference of the wind's pressure between both ends, over its dynamic pressure [-]

	flow           drawnFlow // the last one found, to start from
	speed          float64   // of the air in the line now [m/s]; 0: none is drawn
	time, way, top float64   // for how long air was drawn [s], how far it went in that time [m], its greatest speed [m/s]
}

// Draught is the outdoor air that was drawn through the line.
type Draught struct {
	Hours    float64 // in which it was [h]
	Mean     float64 // its mean speed in those [m/s]
	Greatest float64 // [m/s]
}

// LeastDraught is the speed below which the air in the line counts as still [m/s].
const LeastDraught = 0.01

// drawnAir is what a draught makes of the air in a cell.
type drawnAir struct {
	on    bool
	share float64 // factor on the temperature outdoors [-]
	rest  float64 // what the walls that it has passed add to that [°C]
}

// newDraught finds the way of the air through a line; nil where it is open at one end at most.
func newDraught(l *pipe.Layout, line *line) *draught {
	from, to := line.jointAt, len(line.cells)
	if l.Outlet.Kind == pipe.Lid {
		to = line.elbow
	}
	if from == 0 || from >= to || !l.Draws() {
		return nil
	}
	d := &draught{cells: line.cells[from:to], flow: anyFlow, wind: l.Site.WindPressureCoefficient}
	for i := range d.cells {
		size := l.Segments[d.cells[i].segment].Size
		if p := l.Standpipe; p != nil && from+i < line.standTo {
			size = p.Size
		}
		d.rough = append(d.rough, size.Roughness)
	}
	if p := l.Standpipe; p != nil {
		house, inner := l.Segments[p.After].Size.OutsideDiameter, p.Size.Bore()
		d.neck = math.Max(0, math.Pi/4*(inner*inner-house*house))
	}
	d.reaches = make([]airReach, len(d.cells))
	return d
}

// still lets the air in the line rest, as it does while the pump fills it.
func (d *draught) still() {
	if d == nil {
		return
	}
	d.speed = 0
	for _, c := range d.cells {
		c.air.on = false
	}
}

// book counts a time [s] in which the air ran as it does now.
func (d *draught) book(dt float64) {
	if d != nil && d.speed >= LeastDraught {
		d.time += dt
		d.way += d.speed * dt
		d.top = math.Max(d.top, d.speed)
	}
}

// result sums up the record.
func (d *draught) result() *Draught {
	if d == nil {
		return nil
	}
	r := &Draught{Hours: d.time / 3600, Greatest: d.top}
	if d.time > 0 {
		r.Mean = d.way / d.time
	}
	return r
}

// breathe works out the draught at time t and the air that it brings to every cell it passes;
// both hold until the next call. Water or ice up to the crown anywhere stops it in the whole line.
func (w *winter) breathe(t float64) {
	d := w.draught
	d.still()
	if d == nil {
		return
	}
	house, high := w.houseOpening(t)
	far, low := w.outletOpening()
	if house <= 0 || far <= 0 || !d.survey() {
		return
	}
	air := w.sky.at(t)
	d.height = high - low
	atHouse := d.warmerThan(air.temp) == (d.height < 0) // air comes in there: at the lower end of a line warmer than it
	d.ends = orifice(house) + farEnd(w.k.Layout.Outlet.Kind, far, atHouse)
	if !atHouse {
		slices.Reverse(d.reaches)
	}
	rho := heat.AirDensity(air.temp, heat.Atmosphere)
	flow := d.drawn(air.temp, d.wind*rho/2*air.wind*air.wind, d.flow)
	if flow.rate <= 0 {
		return
	}
	d.flow = flow
	d.speed = d.airway.speed(flow.rate)
	d.carry(airRate(flow.rate, rho), func(i int, share, rest float64) {
		if !atHouse {
			i = len(d.cells) - 1 - i
		}
		d.cells[i].air = drawnAir{true, share, rest}
	})
}

// houseOpening is the area [m²] through which air passes at the house end, and its mean level
// [m]: relief openings free of snow, and the standpipe's mouth around the house pipe. Snow
// over the mouth, or over an open outlet, is taken to let air through (safe side).
func (w *winter) houseOpening(t float64) (area, level float64) {
	snow := w.sky.snowAt(t)
	sum := 0.0
	for _, o := range w.joint.reliefs {
		if low := o.clear(snow); low < o.top {
			a := o.width * (o.top - low)
			area += a
			sum += a * 0.5 * (low + o.top)
		}
	}
	if neck := w.draught.neck; neck > 0 {
		area += neck
		sum += neck * w.joint.rim
	}
	return area, sum / area
}

// outletOpening is the same at the far end: the free bore of an open one over the ice before it, or what of the weep
// slot under a shut lid stands clear of water and ice. The rock pit lets air through
// until it is full.
func (w *winter) outletOpening() (area, level float64) {
	l := w.line
	if w.k.Layout.Outlet.Kind == pipe.Open {
		last := w.draught.cells[len(w.draught.cells)-1]
		area, _ = last.freeBore()
		area = math.Min(area, last.boreArea()-pipe.SegmentArea(last.bore, l.sill-l.end)) // ice on the ground before it
		return area, l.end + last.bore/2
	}
	if w.pocket == nil || w.pocket.held >= w.pocket.capacity() || w.slotIced() {
		return 0, 0
	}
	slot := w.k.Layout.Outlet.Weep
	depth := 0.0
	if l.elbow < len(l.cells) {
		depth = l.cells[l.elbow].fill() * l.cells[l.elbow].length
	}
	free := slot.Height - depth
	return slot.Width * free, l.end + slot.Height - free/2
}

// farEnd is the loss at the far end with a free area [m²], over ρ/2 times the flow squared [1/m⁴].
func farEnd(kind pipe.OutletKind, area float64, leaving bool) float64 {
	switch {
	case kind == pipe.Lid:
		return orifice(area)
	case leaving:
		return airExit / (area * area)
	}
	return airEntry / (area * area)
}

// survey reads the free bore of every cell of the way and what its air meets, in flow order. It
// returns false where one is filled to the crown.
func (d *draught) survey() bool {
	for i, c := range d.cells {
		area, around := c.freeBore()
		if area < leastBore*c.boreArea() {
			return false
		}
		r := airReach{length: c.length, area: area, across: 4 * area / around, roughness: d.rough[i]}
		if !c.upright {
			r.conductance, r.wall = c.meets()
		}
		d.reaches[i] = r
	}
	return true
}

// leastBore is the free share of a bore below which water seals it [-].
const leastBore = 1e-3

// warmerThan reports whether wall and water along the way are warmer than the outdoor air on
// average: then the line's air rises out at its higher end.
func (d *draught) warmerThan(outdoors float64) bool {
	sum := 0.0
	for _, r := range d.reaches {
		if r.conductance > 0 {
			sum += r.length * (r.wall - outdoors)
		}
	}
	return sum > 0
}

// freeBore is the cross-section above water and ice [m²] and the length of its edge [m]. Water
// in an upright pipe seals it, unless it stands there less deep than the pipe is wide: air
// then passes over it at the foot.
func (c *cell) freeBore() (area, around float64) {
	around = math.Pi * c.bore
	switch {
	case !c.wet(), c.vertical && c.share < 1 && c.share*c.length < c.bore:
		return c.boreArea(), around
	case c.vertical:
		return 0, around
	}
	filled := c.mass / heat.WaterDensity * (1 + heat.IceExpansion*c.iceShare())
	return math.Max(0, c.boreArea()-filled), around*(1-c.share) + c.width*c.share
}

// meets is what the air in a lying cell exchanges heat with: the conductance [W/K] and the
// temperature behind it [°C]. The bare wall above a pool has the temperature of the
// pool's own wall.
func (c *cell) meets() (conductance, temperature float64) {
	m := c.mesh
	wall := m.phase[m.water].temperature(c.u[m.water])
	bare := 1 / (1/(pipeAirFilm*math.Pi*c.bore) + m.inLiquid[m.water])
	if !c.wet() {
		return bare * c.length, wall
	}
	bare *= 1 - c.share
	node, sheet := c.surfaceSheet()
	pool := c.share * c.width / (1/pipeAirFilm + sheet/heat.IceConductivity)
	surface := m.phase[node].temperature(c.u[node])
	if bare+pool == 0 {
		return 0, wall
	}
	return (bare + pool) * c.length, (bare*wall + pool*surface) / (bare + pool)
}
