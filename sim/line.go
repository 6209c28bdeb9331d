package sim

import (
	"math"

	"winterline/pipe"
)

// line is the whole pipe as cells in flow order: house pipe, standpipe from its rim
// down, buried line, elbow and riser up to the lid.
type line struct {
	cells []*cell
	slab  []float64 // enthalpy of all cells, one after the other

	level levelRoom
	flume *flume
	kept  []float64 // by cell, what stays on its way while water runs [kg]; see hold
	off   []float64 // by cell, what sets off of what is on its way [kg]; see trickle

	transit []parcel // by cell, water on its way to the outlet above what stands there at rest

	house        int // number of cells of the house pipe, before the loose joint; 0 for a glued line
	jointAt      int // index of the first cell behind the joint, where water can leave before the end; 0: nowhere
	jointSegment int // number of segments before the joint
	crestAt      int // index of the cell that holds the highest invert of what a check valve keeps full
	elbow        int // index of the first cell of the riser to the lid; len(cells) when there is none
	standFrom    int // the standpipe's slices are cells[standFrom:standTo]
	standTo      int

	crest float64 // highest invert up to the joint, or of all of a glued line [m]
	end   float64 // invert where the line ends [m]
	sill  float64 // level over which water leaves at the outlet [m]
	slot  float64 // level to which an open weep slot drains the line [m]
	iced  bool    // ice on the ground shuts the end
}

// newLine cuts the case's layout into cells; their state is not set yet.
func newLine(k *Case, s Settings, g *grounds) *line {
	b := &builder{layout: k.Layout, profile: k.Profile, shells: s.Shells.orDefault(), ground: g, nucleus: s.Nucleation, slush: s.slushLimit()}
	l := &line{crest: math.Inf(-1)}
	for i := range k.Layout.Segments {
		b.segment(i)
		if p := k.Layout.Standpipe; p != nil && p.After == i {
			l.house, l.standFrom = len(b.cells), len(b.cells)
			l.findCrest(b.cells)
			b.standpipe(i)
			l.standTo = len(b.cells)
			l.jointAt, l.jointSegment = l.house, i+1
		}
	}
	l.elbow = len(b.cells)
	last := len(k.Layout.Segments) - 1
	l.end = k.Profile.Invert(last, 1)
	l.sill, l.slot = l.end, l.end
	if k.Layout.Outlet.Kind == pipe.Lid {
		l.sill = b.lid(last, l.end)
	}
	l.cells = b.cells
	l.shareEvenFlow()
	if l.house == 0 {
		l.findCrest(b.cells)
		l.findRelief(k.Layout.Reliefs)
	}
	l.allocate()
	return l
}

// findRelief puts the joint of a glued line at the middle of the segment that carries its
// first relief opening: the cells up to there lie before it.
func (l *line) findRelief(reliefs []pipe.Relief) {
	if len(reliefs) == 0 {
		return
	}
	at := reliefs[0].Segment
	before, along := 0.0, 0.0
	for _, c := range l.cells {
		if c.segment == at && !c.upright {
			along += c.length
		}
	}
	for i, c := range l.cells {
		switch {
		case c.upright || c.segment > at:
		case c.segment < at:
			l.jointAt = i + 1
		case before+0.5*c.length <= along/2+1e-9:
			before += c.length
			l.jointAt = i + 1
		}
	}
	l.jointSegment = at + 1
}

// entry is the index of the first lying cell behind the joint.
func (l *line) entry() int {
	if l.house > 0 {
		return l.standTo
	}
	return min(l.jointAt, len(l.cells)-1)
}

// uprightName names the upright part that cell i belongs to.
func (l *line) uprightName(i int) string {
	if i < l.standTo {
		return "standpipe"
	}
	return "outlet riser"
}

// findCrest finds the highest point of the pipe so far.
func (l *line) findCrest(cells []*cell) {
	for i, c := range cells {
		if z := max(c.z0, c.z1); z > l.crest {
			l.crest, l.crestAt = z, i
		}
	}
}

// trackRoom is how many steps of an interval a cell has room for from the start.
const trackRoom = 32

// allocate gives every cell its part of one slab.
func (l *line) allocate() {
	n := 0
	for _, c := range l.cells {
		n += c.mesh.n
		c.tally.track = make([]icePoint, 0, trackRoom)
	}
	l.slab = make([]float64, n)
	l.transit = make([]parcel, len(l.cells))
	l.makeRoom()
	l.cut()
}

// makeRoom makes what the line works in, where nothing lasts.
func (l *line) makeRoom() {
	shells := 0
	for _, c := range l.cells {
		shells = max(shells, c.mesh.water)
	}
	l.level, l.flume = newLevelRoom(len(l.cells)), newFlume(shells)
	l.kept, l.off = make([]float64, len(l.cells)), make([]float64, len(l.cells))
}

// cut cuts the slab for the cells.
func (l *line) cut() {
	at := l.slab
	for _, c := range l.cells {
		c.u, at = at[:c.mesh.n:c.mesh.n], at[c.mesh.n:]
	}
}
