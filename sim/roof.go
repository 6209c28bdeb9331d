package sim

import (
	"math"

	"winterline/sim/heat"
)

// roof is rain and melted snow that a downspout brings into the line.
type roof struct {
	area       float64   // [m²]
	entry      int       // index of the cell where it joins
	rain, melt []float64 // from each row to the next [m]
	spilled    sum       // let go at the foot of the downspout because the line was shut [kg]
}

// roofLot is how long an hour's runoff takes to run in [s]: showers and thaws come in spells
// (common practice, no source).
const roofLot = 600.0

// newRoofs are the roofs of a layout.
func newRoofs(k *Case, l *line) []*roof {
	var all []*roof
	rain, melt := k.Weather.Runoff()
	if rain == nil {
		return nil
	}
	for _, e := range k.Layout.ExtraInflows {
		r := &roof{area: e.Area, rain: rain, melt: melt}
		for i, c := range l.cells {
			if !c.upright && c.segment == e.Segment {
				r.entry = i
				break
			}
		}
		all = append(all, r)
	}
	return all
}

// pour runs the roofs' water of a weather row into the line, from t to end at most, and returns
// when that is done.
func (w *winter) pour(row int, t, end float64) (float64, error) {
	for i, r := range w.roofs {
		mass := r.area * (r.rain[row] + r.melt[row]) * heat.WaterDensity
		if mass <= 0 {
			continue
		}
		run := math.Min(roofLot, (end-t)/float64(len(w.roofs)-i)) // each has its share of a short interval
		run = math.Min(run, math.Max(1, w.nextRun()-t))
		if err := w.join(r, row, t, run, mass); err != nil {
			return t, err
		}
		t = math.Min(end, t+run)
		w.busy = t
	}
	return t, nil
}

// warmth is the temperature [°C] of a row's water in air [°C]: rain comes as warm as the air, and what melts at 0 °C.
func (r *roof) warmth(row int, air float64) float64 {
	return math.Max(0, air) * r.rain[row] / (r.rain[row] + r.melt[row])
}

// backedUp is how far over its way out at the joint roof water stands at most [m].
const backedUp = 1.0

// join lets a mass of roof water [kg] into the line over run seconds. Where ice shuts the line, it
// backs up to the joint and leaves there, or, where there is no way out or snow lies over it, runs
// over at the foot of the downspout.
func (w *winter) join(r *roof, row int, t, run, mass float64) error {
	w.judge(t)
	l := w.line
	rate := mass / heat.WaterDensity / run
	state := w.rest()
	shut := state.plugs.behind() || r.entry < l.jointAt && state.plugs.house >= 0
	snow := w.sky.snowAt(t)
	lip := w.joint.lip(snow)
	if shut && (l.jointAt == 0 || math.IsInf(lip, 1)) {
		return w.overflow(r, t, run, mass)
	}
	in := l.flume.lot(parcel{mass, r.warmth(row, w.k.Weather.Air[row])})
	w.water.extra.add(mass)
	w.heat.add(heatExtra, in.heat())
	if shut {
		top := w.joint.rim
		if math.IsInf(top, 1) {
			top = lip
		}
		p := w.joint.part(snow, top+backedUp, func(float64) float64 { return rate }, func(float64) float64 { return 0 })
		w.letGo(in, p, t, run)
		return w.march(t, t+run, false)
	}
	l.release()
	in, err := w.fillBack(r.entry, t, run, in, state)
	if err != nil {
		return err
	}
	w.level = math.Inf(-1)
	defer w.startTail()
	return w.down(passage{start: t, run: run, rate: rate, thin: true}, in, r.entry, state)
}

// fillBack takes the cells before the downspout at index `entry` through run seconds. Those behind the
// joint, the standpipe's among them, fill from the downspout to the level that its water comes to in the line;
// the stream that goes on from there is returned.
func (w *winter) fillBack(entry int, t, run float64, in stream, r rest) (stream, error) {
	l := w.line
	from := min(l.jointAt, entry)
	r.sill = w.sillAfter(in.mass(), r)
	target := l.massAt(l.levels(r))
	room := 0.0
	for i := from; i < entry; i++ {
		room += math.Max(0, target[i]-l.cells[i].mass) * l.cells[i].length
	}
	if room <= crumb {
		from = entry
	}
	for _, c := range l.cells[:from] {
		if err := c.march(w.step, w.sky, t, t+run); err != nil {
			return nil, w.blame(c, err)
		}
	}
	if from == entry {
		return in, nil
	}
	on, back := splitFront(in, math.Min(room, in.mass()), l.flume.rest)
	p := passage{start: t, run: run, rate: back.mass() / heat.WaterDensity / run, thin: true}
	out, err := w.through(p, back, from, entry, target)
	return append(out, on...), err
}

// overflow books roof water that the line does not take.
func (w *winter) overflow(r *roof, t, run, mass float64) error {
	r.spilled.add(mass)
	w.record.roofOver(t, mass)
	return w.march(t, t+run, false)
}
