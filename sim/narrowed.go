package sim

// narrowed is how far ice has come on the way to shutting the line, at its narrowest: 0 with no ice in a cell's
// way, 1 where one is about to count as shut [-].
func (w *winter) narrowed() float64 {
	worst := 0.0
	inHouse, behind := w.against()
	for i, c := range w.line.cells {
		f := c.iceShare()
		if f <= 0 || !c.wet() {
			continue
		}
		d := behind
		if i < w.line.jointAt {
			d = inHouse
		}
		limit := shutFlow * d.flow
		if free := c.passes(0, d); free > limit {
			worst = max(worst, 1-(c.passes(f, d)-limit)/(free-limit))
		}
	}
	return min(1, worst)
}
