package sim

import (
	"math"
	"sort"

	"winterline/sim/heat"
	"winterline/weather"
)

// waterBook sums the water that crossed the boundaries of the system and of the line [kg].
type waterBook struct {
	arrived, undrawn, pumped, extra, backup, outlet, relief, rim, intoPocket sum
	before                                                                   float64 // in the line at the start
}

// finish closes the books and makes the result.
func (w *winter) finish() (*Result, error) {
	r, end := w.record, w.k.Weather.End()
	if err := w.wake(end); err != nil {
		return nil, err
	}
	w.water.undrawn.add(w.run.left) // of a cycle that the record's end cuts
	res := &Result{
		Name: w.k.Name, Title: w.k.Layout.Title, Invented: w.k.Invented, Start: w.k.Weather.Start,
		Layout: w.k.Layout, Profile: w.k.Profile,
		Events: r.events, AirGap: r.airGap, Hourly: r.hourly, Worst: r.worst, Moments: r.momentsTaken(), Cycles: r.cycles, Warnings: w.warnings(),
	}
	if !math.IsNaN(r.shutOn) {
		r.shutTime += end - r.shutOn
	}
	r.verdict.ShutFor = r.shutTime
	r.verdict.State = w.state()
	res.Verdict = r.verdict
	for i := range r.segments {
		res.Segments = append(res.Segments, w.segmentResult(&r.segments[i]))
	}
	res.Movement = w.movement()
	res.Closures = w.closures(res.Cycles)
	res.Draught = w.draught.result()
	res.Mounds = w.mounds.results()
	res.Events = append(res.Events, slipEvents(res.Movement)...)
	trapped, told := w.trappedWater()
	pumping := CountShortCycling(res.Cycles)
	res.Trapped, res.Events = trapped, append(append(res.Events, told...), pumping.events()...)
	sort.SliceStable(res.Events, func(i, j int) bool { return res.Events[i].Time < res.Events[j].Time })
	res.Stats = w.stats()
	if g := w.ground.own(); g.frost != nil {
		res.Ground = w.ground.result(&GroundCase{Name: res.Name, Invented: res.Invented, Profile: res.Profile}, w.k.Layout)
	}
	w.closeWater(res)
	w.closeHeat(res)
	return res, w.believe(res)
}

// state is the verdict in one word.
func (w *winter) state() State {
	v := &w.record.verdict
	switch {
	case v.Floor != nil:
		return Flooded
	case v.Spill != nil:
		return Spilled
	case v.Closed != nil:
		return ShutRelieved
	case v.FirstIce != nil:
		return Iced
	}
	return Clear
}

// segmentResult sums up one segment.
func (w *winter) segmentResult(s *segmentTally) SegmentResult {
	out := s.result
	out.Ice10, out.Ice50, out.Ice90 = s.levels[0], s.levels[1], s.levels[2]
	for _, c := range s.cells {
		out.HeatLost -= c.tally.heatIn
	}
	if s.isShut {
		s.shut += w.k.Weather.End() - s.shutOn
	}
	out.HoursClosed = s.shut / 3600
	return out
}

// stats counts the work.
func (w *winter) stats() Stats {
	s := Stats{Cells: len(w.line.cells), Cycles: len(w.record.cycles), Steps: w.step.steps, Rejected: w.step.rejected, Newton: w.step.newton}
	for _, c := range w.line.cells {
		s.Nodes += c.mesh.n
	}
	return s
}

// closeWater fills in the ledger. What came in and went out are sums over the record; what is held is
// read off the final state.
func (w *winter) closeWater(res *Result) {
	b := &w.water
	v := func(kg float64) float64 { return kg / heat.WaterDensity }
	l := Ledger{
		Arrived: v(b.arrived.value() - b.undrawn.value()), Pumped: v(b.pumped.value()),
		Outlet: v(b.outlet.value()), Relief: v(b.relief.value()), Rim: v(b.rim.value()),
		Extra: v(b.extra.value()), Backup: v(b.backup.value()), HeldLine: v(w.line.held() - b.before),
	}
	if w.pocket != nil {
		l.PocketToSoil, l.HeldPocket = v(w.pocket.drunk), v(w.pocket.held)
	}
	if w.back != nil {
		l.Returned = v(w.back.arrived.value())
	}
	if w.basin != nil {
		l.HeldBasin, l.Floor = v(w.basin.backlog), v(w.basin.floor)
	}
	var miss sum
	for _, part := range []float64{l.Arrived, l.Extra, l.Returned, -l.Backup, -l.Outlet, -l.Relief, -l.Rim, -l.PocketToSoil, -l.HeldLine, -l.HeldPocket, -l.HeldBasin, -l.Floor} {
		miss.add(part)
	}
	l.Error = miss.value()
	res.Ledger = l
	const litre = 1e-3
	scale := math.Max(math.Max(l.Arrived+l.Returned+l.Extra, v(w.line.held())), 1e-6*litre/bookLimit)
	worst := math.Max(math.Abs(l.Error), math.Max(math.Abs(w.lineMiss()), math.Abs(w.pocketMiss())))
	res.Balance.WaterRelative = worst / scale
}

// lineMiss is the closing error of the line's own book [m³]: what was pumped into it, less what left it
// and what its cells hold more than at the start.
func (w *winter) lineMiss() float64 {
	b := &w.water
	var miss sum
	for _, kg := range []float64{b.pumped.value(), b.extra.value(), -b.outlet.value(), -b.relief.value(), -b.rim.value(), -b.intoPocket.value(), b.before, -w.line.held()} {
		miss.add(kg)
	}
	return miss.value() / heat.WaterDensity
}

// pocketMiss is the same for the rock pit: what the slot let in, less what the soil took and
// what it holds.
func (w *winter) pocketMiss() float64 {
	if w.pocket == nil {
		return 0
	}
	return (w.water.intoPocket.value() - w.pocket.drunk - w.pocket.held) / heat.WaterDensity
}

// closeHeat fills in the heat balance.
func (w *winter) closeHeat(res *Result) {
	var outside, ground, surface sum
	for _, c := range w.line.cells {
		outside.add(c.tally.heatIn)
		ground.add(c.tally.groundIn)
		surface.add(c.tally.surfaceIn)
	}
	w.heat.add(heatOutside, outside.value())
	w.heat.add(heatGround, ground.value())
	w.heat.add(heatSurface, surface.value())
	w.heat.close(w.storedHeat(), &res.Balance)
	res.Balance.NewtonResidual = w.step.residual
}

// believe refuses a result whose books do not close.
func (w *winter) believe(res *Result) error {
	b := res.Balance
	if !(b.WaterRelative <= bookLimit) {
		return BookError{"water", b.WaterRelative, bookLimit}
	}
	if !(b.HeatRelative <= bookLimit) {
		return BookError{"heat", b.HeatRelative, bookLimit}
	}
	return nil
}

// warnings are what the reader must know beside the verdict.
func (w *winter) warnings() []Warning {
	out := append(append([]Warning(nil), w.k.Notes...), recordWarnings(w.k.Weather)...)
	if w.sky.pack.Kind == weather.SnowNone {
		out = append(out, Warning{"no-snow-record", "No snow depth in the weather: relief assumed free of snow (unsafe side), ground assumed bare for frost (safe side)."})
	}
	if w.k.Weather.Wind == nil {
		out = append(out, Warning{"no-wind-record", "No wind in the weather: 3 m/s (7 mph), 10 m (33 ft) above the ground, is assumed throughout."})
	}
	out = append(out, w.leftOut()...)
	if len(w.k.Layout.ExtraInflows) > 0 && w.roofs == nil {
		out = append(out, Warning{"no-rain-record", "A roof joins the line, and the weather has neither rain nor snowfall: its water is left out (unsafe side)."})
	}
	if g := w.ground.own(); g.frost != nil {
		for _, x := range g.warnings() {
			if x.Kind != "no-snow-record" { // told above, with the relief
				out = append(out, x)
			}
		}
	}
	return out
}

// leftOut says which of the layout's inputs this simulation does not use.
func (w *winter) leftOut() []Warning {
	var out []Warning
	l := w.k.Layout
	if w.k.Logged && l.Basin != nil && l.Site.ReturnShare > 0 && w.water.relief.value()+w.water.rim.value() > 0 {
		out = append(out, Warning{"return-in-log", "Water let go beside the house may come back to the basin. The pump's log is taken to hold all that came, so none is added here (unsafe side where the line did not freeze in the winter of the log)."})
	}
	if w.second != nil && w.second.own {
		out = append(out, Warning{"backup-line-open", "The backup pump's own line is taken to stay open: it is not simulated (unsafe side)."})
	}
	if w.basin == nil && w.record.refusedAny {
		out = append(out, Warning{"refused-without-basin", "The line refused water, and the layout has no [basin] to say where it stays: whether the floor gets wet is not known (unsafe side)."})
	}
	return out
}
