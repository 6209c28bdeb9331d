package sim

import (
	"context"
	"math"
)

// reader reads the states of a column, row by row from the first, at the depths of tracks. It has its own
// scratch room, apart from that of the march, so that what it reads depends on nothing but the states.
type reader struct {
	column  // a view of the state read
	scratch scratch
	above   float64 // depth of the column's top [m]
	tracks  []*track
	spots   []spot // of the tracks
}

// newReader prepares a reader, and room in the tracks for so many rows.
func newReader(m *mesh, above float64, tracks []*track, rows int) *reader {
	r := &reader{column: column{mesh: m}, above: above, tracks: tracks}
	for _, t := range tracks {
		t.u = make([]float64, rows)
		r.spots = append(r.spots, m.spot(t.depth-above))
	}
	return r
}

// row reads the state u [K] at a row into all tracks.
func (r *reader) row(row int, u []float64) *profile {
	r.column.u = u
	p := r.look(&r.scratch)
	for i, t := range r.tracks {
		t.u[row] = math.NaN()
		if t.depth >= r.above {
			t.u[row] = t.law.enthalpyWith(p.read(r.spots[i]))
		}
	}
	return p
}

// frost is the frost of the row read last, as depths below the ground's surface [m].
func (r *reader) frost(p *profile) frost {
	f := p.frost()
	f.top, f.bottom = f.top+r.above, f.bottom+r.above
	return f
}

// states are those of a column at all rows of a record [K], one after the other.
type states struct {
	mesh *mesh
	u    []float64
}

// newStates makes room for so many rows.
func newStates(m *mesh, rows int) *states { return &states{m, make([]float64, 0, rows*m.n)} }

// keep adds the state at the next row; on nil it does nothing.
func (s *states) keep(u []float64) {
	if s != nil {
		s.u = append(s.u, u...)
	}
}

// read fills tracks with what they would hold if they had been asked for before the march.
func (s *states) read(ctx context.Context, tracks []*track) error {
	n := s.mesh.n
	r := newReader(s.mesh, 0, tracks, len(s.u)/n)
	for row := range len(s.u) / n {
		if row%256 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		r.row(row, s.u[row*n:(row+1)*n])
	}
	return nil
}
