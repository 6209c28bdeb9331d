package sim

// Moment is the line at an instant that people ask about, as it stood at the first weather row at or after that.
type Moment struct {
	Kind MomentKind
	Snapshot
}

// MomentKind says what happened at a moment.
type MomentKind int

// Kinds of moment.
const (
	MomentFirstIce MomentKind = iota // the first ice formed
	MomentShut                       // the line first shut
	MomentColdest                    // the outdoor air was coldest
	momentKinds
)

// moment keeps snapshots of the moments that weather row i makes; of equally cold rows the first.
func (r *recorder) moment(i int, frost, snow float64) {
	air := r.w.sky.air
	for kind, now := range [momentKinds]bool{
		MomentFirstIce: r.verdict.FirstIce != nil && r.moments[MomentFirstIce].Cells == nil,
		MomentShut:     r.verdict.Closed != nil && r.moments[MomentShut].Cells == nil,
		MomentColdest:  i == 0 || air[i] < air[r.coldest],
	} {
		if now {
			r.moments[kind] = r.picture(r.w.sky.time[i], frost, snow, r.moments[kind].Cells)
		}
	}
	if air[i] < air[r.coldest] {
		r.coldest = i
	}
}

// momentsTaken are the moments that came, by kind.
func (r *recorder) momentsTaken() (out []Moment) {
	for kind, s := range r.moments {
		if s.Cells != nil {
			out = append(out, Moment{MomentKind(kind), s})
		}
	}
	return out
}
