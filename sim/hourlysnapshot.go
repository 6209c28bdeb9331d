package sim

// snapshot keeps the row with most ice; without any ice, the first row.
func (r *recorder) snapshot(t, frost, snow float64) {
	ice := 0.0
	for _, c := range r.w.line.cells {
		ice += c.iceMass()
	}
	if ice <= r.mostIce && r.worst.Cells != nil {
		return
	}
	r.mostIce = ice
	r.worst = r.picture(t, frost, snow, r.worst.Cells)
}

// picture is the line as it is now; room is what an older picture no longer needs.
func (r *recorder) picture(t, frost, snow float64, room []CellState) Snapshot {
	s := Snapshot{Time: t, Frost: frost, Snow: snow, Cells: room[:0]}
	for i, c := range r.w.line.cells {
		state := CellState{
			Segment: c.segment, X0: c.x0, X1: c.x1, Z0: c.z0, Z1: c.z1, Bore: c.bore,
			Temperature: c.lowestWater(), Closed: r.w.shut[i], Vertical: c.upright,
		}
		if !c.film() {
			state.Fill, state.Ice = c.fill(), c.iceShare()
		}
		s.Cells = append(s.Cells, state)
	}
	return s
}
