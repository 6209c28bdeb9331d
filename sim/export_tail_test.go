package sim

import "winterline/sim/heat"

// TailTimes are when the standpipe has drained and when the line has [s]: of a case whose line is
// on its way with kg in each, at a level in the standpipe [m].
func TailTimes(k *Case, standpipe, line, level float64) (stands, runs float64) {
	w := bare(k)
	w.level = level
	n := 0.0
	for i, c := range w.line.cells {
		if i >= w.line.jointAt && !c.upright {
			n += c.length
		}
	}
	for i, c := range w.line.cells {
		switch {
		case w.line.inStandpipe(i):
			w.line.transit[i].mass = standpipe / float64(w.line.standTo-w.line.standFrom)
		case i >= w.line.jointAt && !c.upright:
			w.line.transit[i].mass = line * c.length / n
		}
	}
	w.startTail()
	points := w.tail.curve
	return points[1].time, points[len(points)-1].time
}

// LineTakes is the flow that an open line takes at a level in the standpipe [m³/s].
func LineTakes(k *Case, level float64) float64 {
	takes := bare(k).lineFlow()
	return takes.at(level)
}

// FreezeOut parts a stream into what runs on and the ice that stays.
func FreezeOut(p []Parcel) (liquid []Parcel, ice Parcel) {
	on, stay := toStream(p).freezeOut()
	return fromStream(on), fromStream(stream{stay})[0]
}

// RingAfterDraining is the cross-section of ice [m²] in the top slice of a case's standpipe, full and with a share
// of its water ice, before and after half of the liquid has drained.
func RingAfterDraining(k *Case, ice float64) (before, after float64) {
	w := bare(k)
	c := w.line.cells[w.line.standFrom]
	freeze := func(mass, share float64) float64 {
		c.shape(mass)
		for i := range c.mesh.water {
			c.u[i] = -share * fusion
		}
		return c.iceArea()
	}
	full := c.boreArea() * heat.WaterDensity
	before = freeze(full, ice)
	left := full * (1 - (1-ice)/2)
	return before, freeze(left, ice*full/left)
}
