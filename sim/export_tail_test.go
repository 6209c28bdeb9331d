package sim

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
func LineTakes(k *Case, level float64) float64 { return bare(k).lineFlow()(level) }

// FreezeOut parts a stream into what runs on and the ice that stays.
func FreezeOut(p []Parcel) (liquid []Parcel, ice Parcel) {
	on, stay := toStream(p).freezeOut()
	return fromStream(on), fromStream(stream{stay})[0]
}
