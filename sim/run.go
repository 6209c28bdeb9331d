package sim

import (
	"context"
	"fmt"
	"math"

	"winterline/pipe"
	"winterline/sim/heat"
)

// Run simulates the case. A line that froze is a result; an error means that the run
// cannot be believed (a step that does not converge, a book that does not close) or was
// cancelled. Where water got cold enough to freeze, a copy of the winter goes on beside it from there, with
// water that supercools to −4 °C, for the time at which dendritic ice would shut the line.
func Run(ctx context.Context, k *Case, s Settings) (*Result, error) {
	w, err := ready(ctx, k, s)
	if err != nil {
		return nil, err
	}
	if s.Nucleation < 0 || s.WithoutDendritic {
		return w.simulate(ctx, nil)
	}
	beside, stop := context.WithCancel(ctx)
	defer stop()
	liquid := &fork{} // the winter before any of its water came near freezing
	res, err := w.simulate(beside, liquid)
	switch {
	case err != nil:
		stop()
	case res.Verdict.FirstIce != nil && liquid.going == nil:
		liquid.goOn(beside)
	}
	d := liquid.answer()
	switch {
	case err != nil:
		return nil, err
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case d.err != nil: // the answer itself stands
		res.Warnings = append(res.Warnings, Warning{"no-dendritic-time", "When the line would shut if its water supercooled first could not be worked out."})
	}
	res.Verdict.ClosedDendritic = d.closed
	return res, nil
}

// ready is a winter at its first row, over ground that has gone through the record.
func ready(ctx context.Context, k *Case, s Settings) (*winter, error) {
	ground, err := undisturbed(ctx, k, s)
	if err != nil {
		return nil, err
	}
	return newWinter(k, s, ground)
}

// winter is one run in progress.
type winter struct {
	k       *Case
	s       Settings
	step    *stepper
	sky     *sky
	ground  *grounds
	line    *line
	joint   *joint
	lift    *lift
	basin   *basin
	back    *returning // nil: nothing comes back
	second  *backup    // nil: there is none
	roofs   []*roof
	mounds  *mounds
	pocket  *pocket
	trap    trap
	draught *draught // nil: the line has but one end open to the air
	heat    *heatBook
	water   waterBook
	record  *recorder
	supply  *track // ground at the basin's floor, whose temperature the water has
	sill    float64
	shut    []bool  // by cell
	settled float64 // when water last came to rest [s]
	run     run     // in progress
	busy    float64 // until when the pump has run [s]
	tail    *tail   // nil: nothing is draining
	level   float64 // at which the standpipe last ran [m]
	pumping float64 // flow that the pump delivers with an open line [m³/s]
	next    int     // index of the next pump cycle
	parted  *keptParting
	behind  *behindJoint
	ebb     tail // where tail points while there is one
}

// newWinter builds the line and brings everything to the first weather row.
func newWinter(k *Case, s Settings, g *grounds) (*winter, error) {
	w := &winter{k: k, s: s, step: newStepper(s.Stepping), heat: &heatBook{}, ground: g, sky: g.sky}
	w.sky.row = 0
	w.line = newLine(k, s, g)
	w.joint = newJoint(k, w.line)
	w.basin = newBasin(k.Layout.Basin)
	w.back = newReturning(k)
	if w.pocket = newPocket(k.Layout, pocketFloor(k)); w.pocket != nil {
		w.pocket.warmth = newPocketHeat(k, g)
	}
	if fromGround(k.Layout) {
		w.supply = g.asRecorded().own().at(k.Layout.Basin.FloorBelowGround)
	}
	w.draught = newDraught(k.Layout, w.line)
	w.shut = make([]bool, len(w.line.cells))
	w.pump()
	w.second = newBackup(k, w.lift)
	w.roofs = newRoofs(k, w.line)
	w.mounds = newMounds(w)
	if w.pumping <= 0 && len(k.Cycles) > 0 {
		const foot = 0.3048 // [m]
		most, needed := w.lift.shutOff()-w.lift.from, w.line.crest-w.lift.from
		return nil, fmt.Errorf("the pump lifts nothing: it shuts off at %.1f ft (%.2f m) of head, and the line's highest point lies %.1f ft (%.2f m) above the water in the basin",
			most/foot, most, needed/foot, needed)
	}
	w.start()
	w.record = newRecorder(w)
	w.record.makeRoom()
	return w, nil
}

// undisturbed is the ground at every depth that the line asks for. It depends on site and weather
// alone, so that runs which differ in the water share it.
func undisturbed(ctx context.Context, k *Case, s Settings) (*grounds, error) {
	g := groundAsked(k, s)
	if !g.asked() && !g.asRecorded().asked() {
		return g, nil
	}
	return g, g.run(ctx, s.Stepping, s.Ground)
}

// groundAsked is the ground of a case with all depths that are asked for, before it is run.
func groundAsked(k *Case, s Settings) *grounds {
	g := newShiftedGrounds(&k.Layout.Site, k.Weather, k.Shift)
	newLine(k, s, g)
	if newPocket(k.Layout, pocketFloor(k)) != nil {
		newPocketHeat(k, g)
	}
	if fromGround(k.Layout) {
		g.asRecorded().own().at(k.Layout.Basin.FloorBelowGround)
	}
	if g.asked() || g.asRecorded().asked() {
		g.own().show(DefaultDepths)
		g.own().at(skinDepth)
	}
	g.past = k.past
	return g
}

// fromGround says whether the water that arrives has the ground's temperature beside the
// basin's floor.
func fromGround(l *pipe.Layout) bool {
	return l.Basin != nil && waterTemperature(l) == nil && l.Site.Soil.HeatCapacityUnfrozen > 0
}

// waterTemperature is the written temperature of the water that arrives; nil: not known.
func waterTemperature(l *pipe.Layout) *float64 {
	if l.Basin != nil && l.Basin.WaterTemperature != nil {
		return l.Basin.WaterTemperature
	}
	return l.Water.Temperature
}

// arriving is the temperature of the water in the basin at time t [°C]: written, else the
// lower of the ground's annual mean and the ground beside the basin's floor.
func (w *winter) arriving(t float64) float64 {
	if v := waterTemperature(w.k.Layout); v != nil {
		return *v
	}
	if w.supply == nil {
		return math.Max(0, w.ground.own().mean)
	}
	return math.Max(0, math.Min(w.ground.own().mean, w.supply.temperature(t)))
}

// pump works out what the pump lifts with an open line, and through what.
func (w *winter) pump() {
	before := w.k.Layout.Segments[:w.line.jointSegment]
	w.lift = &lift{curve: mainCurve(w.k.Layout), duct: equivalent(before), from: w.k.Profile.Segments[0].Z0}
	if w.basin != nil {
		w.lift.from = w.basin.bottom + w.basin.idle
	}
	p := w.parting(0, w.lift.to(w.line.crest))
	w.pumping = p.line + p.relief + p.rim
	if flow, n := meanFlow(w.k.Cycles); n > 0 {
		w.pumping = flow
	}
}

// mainCurve is the main pump's curve, or a typical one where the layout has no pump.
func mainCurve(l *pipe.Layout) []pipe.CurvePoint {
	for _, p := range l.Pumps {
		if p.Role == pipe.MainPump {
			return p.Curve
		}
	}
	curve, _ := pipe.TypicalCurve(typicalPower)
	return curve
}

// typicalPower names the pump that is assumed where the layout has none.
const typicalPower = "1/3 hp"

// meanFlow is the mean of the flows that the cycles state [m³/s], and how many do.
func meanFlow(cycles []pipe.Cycle) (flow float64, n int) {
	for _, c := range cycles {
		if c.Flow > 0 {
			flow += c.Flow
			n++
		}
	}
	return flow / math.Max(1, float64(n)), n
}

// start sets the state at the first weather row: wall and insulation at the
// temperature of what surrounds them, water standing where it would rest.
func (w *winter) start() {
	l := w.line
	w.sill = l.sill
	if w.pocket != nil {
		w.sill = l.slot
	}
	mass := l.massAt(l.levels(w.rest()))
	for i, c := range l.cells {
		s := &w.k.Layout.Segments[c.segment]
		t := c.startTemperature(w.sky)
		if !c.upright {
			t = pick(s.StartTemperature, t)
		}
		if s.Standing != nil && !c.upright {
			mass[i] = *s.Standing * c.boreArea() * heat.WaterDensity
			c.written = mass[i]
		}
		water := t
		if t <= 0 && s.StartTemperature == nil {
			water = w.arriving(0) // it came from the pump; the record does not start with ice
		}
		c.begin(mass[i], t, water, w.step.control.First)
		c.last.sill = w.sill
	}
	if w.pocket != nil && w.pocket.warmth != nil {
		w.pocket.warmth.begin()
	}
	w.heat.before = w.storedHeat()
	w.water.before = l.held()
}

// startTemperature is that of what lies around the cell at the first row [°C].
func (c *cell) startTemperature(s *sky) float64 {
	_, t := c.outside.atSurface(s, 0, s.at(0).temp)
	return t
}

// begin fills the cell with water [°C] and sets the rest of it to a temperature t [°C];
// water does not start as ice.
func (c *cell) begin(mass, t, water, step float64) {
	c.shape(mass)
	for i := range c.mesh.n {
		at := t
		if i < c.mesh.water {
			at = math.Max(0, water)
		}
		c.u[i] = c.mesh.phase[i].enthalpy(at)
	}
	if c.soil < c.mesh.n {
		for i := c.soil; i < c.mesh.n; i++ {
			c.u[i] = c.outside.ground.u[0]
		}
	}
	c.dt = step
	c.changed()
	c.last = lastWarm{}
	c.last.stands(c)
}

// rest is what decides the standing water now.
func (w *winter) rest() rest {
	return rest{
		sill: w.sill, lip: w.joint.lip(w.sky.snowAt(w.settled)), plugs: w.line.findPlugs(w.shut),
		valve: w.k.Layout.Basin == nil || w.k.Layout.Basin.CheckValve,
	}
}

// storedHeat is the enthalpy of all cells and of the rock pit [J].
func (w *winter) storedHeat() float64 {
	var all sum
	for _, c := range w.line.cells {
		all.add(c.heatContent())
	}
	if w.pocket != nil && w.pocket.warmth != nil {
		all.add(w.pocket.warmth.u)
	}
	all.add(stream(w.line.transit).heat())
	return all.value()
}

// simulate marches through the record, row by row, and sums up. Where keep is not nil it is shown
// every row, for a fork.
func (w *winter) simulate(ctx context.Context, keep *fork) (*Result, error) {
	w.record.row(0)
	return w.simulateFrom(ctx, 0, 0, keep)
}

// simulateFrom is simulate from a row on, which has been recorded; t is when the winter has come there [s].
func (w *winter) simulateFrom(ctx context.Context, row int, t float64, keep *fork) (*Result, error) {
	rows := w.sky.time
	for i := row; i+1 < len(rows); i++ {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if keep != nil {
			keep.follow(ctx, w, i, t)
		}
		var err error
		if t, err = w.advance(i, t); err != nil {
			return nil, err
		}
		w.record.row(i + 1)
		if w.s.Progress != nil && i%24 == 0 {
			w.s.Progress(rows[i+1] / rows[len(rows)-1])
		}
	}
	return w.finish()
}

// advance marches from t, at a weather row, to the next row, from event to event: the next pump cycle or
// the row. Between them cells are independent; water moves only there. It returns when it is done [s].
func (w *winter) advance(row int, t float64) (float64, error) {
	w.sky.row = row
	end := w.sky.time[row+1]
	t, err := w.pour(row, t, end)
	if err != nil {
		return t, err
	}
	for t < end {
		at, run := w.upTo(t, end)
		if t, err = w.drainDown(t, at); err != nil {
			return t, err
		}
		if err := w.march(t, at, !run); err != nil {
			return t, err
		}
		t = at
		if run {
			if t, err = w.cycle(t, end); err != nil {
				return t, err
			}
		}
	}
	return t, w.settle(t)
}

// march takes all cells through still water from t to at; calm: no water runs then.
func (w *winter) march(t, at float64, calm bool) error {
	if at-t <= 1e-6 {
		return nil
	}
	w.breathe(t)
	for _, c := range w.line.cells {
		if calm && c.mayIdle(w.step, t, at) {
			c.letLie(t, at)
			continue
		}
		if err := c.march(w.step, w.sky, t, at); err != nil {
			return w.blame(c, err)
		}
	}
	w.record.interval(t, at)
	w.draught.book(at - t)
	return nil
}
