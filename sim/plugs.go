package sim

// plugs says where ice has shut the line; −1 where it has not.
type plugs struct {
	house      int  // last cell before the joint
	first, run int  // first and last cell from the joint to the foot of the riser to the lid
	riser      bool // the riser to the lid
}

// none reports an open line.
func (p plugs) none() bool { return p.house < 0 && !p.behind() }

// behind reports ice that shuts the line behind the joint.
func (p plugs) behind() bool { return p.run >= 0 || p.riser }

// findPlugs says where the cells that are shut lie.
func (l *line) findPlugs(shut []bool) plugs {
	p := plugs{house: -1, first: -1, run: -1}
	for i, s := range shut {
		switch {
		case !s:
		case i < l.jointAt:
			p.house = i
		case i >= l.elbow:
			p.riser = true
		default:
			if p.first < 0 {
				p.first = i
			}
			p.run = i
		}
	}
	l.shutEnd(&p)
	return p
}

// shutEnd adds what ice on the ground does at the line's end: it shuts the riser to the lid, or
// where there is none the last cell.
func (l *line) shutEnd(p *plugs) {
	switch {
	case !l.iced:
	case l.elbow < len(l.cells):
		p.riser = true
	default:
		p.run = len(l.cells) - 1
		if p.first < 0 {
			p.first = p.run
		}
	}
}
