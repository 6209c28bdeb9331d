package sim

// Turns makes the first cell of a line shut and open in turn at the given times [s]. It returns the events, and
// how long that segment and the line have been shut [s].
func Turns(k *Case, times []float64) (events []Event, segment, line float64) {
	w := bare(k)
	w.shut = make([]bool, len(w.line.cells))
	w.record = newRecorder(w)
	for _, t := range times {
		w.shut[0] = !w.shut[0]
		w.record.turned(0, w.shut[0], t)
	}
	return w.record.events, w.record.segments[0].shut, w.record.shutTime
}
