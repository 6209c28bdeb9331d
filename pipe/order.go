package pipe

import "fmt"

// noSetting stands in for a setting that was refused, so that it causes no further complaint.
const noSetting Setting = -1

// order refuses what cannot stand in a house: it walks the segments in flow order, remembering
// how far out the water has come.
func (b *binder) order(l *Layout) {
	var outside, buried, wall *Segment
	complain := func(i int, before *Segment, why string) {
		seg := l.Segments[i]
		t := &scope{b: b, node: newTable(seg.Line), path: segmentPath(seg.Name, i)}
		t.problemAt(b.settingLines[i], "setting", fmt.Sprintf("%q after %q (%s, line %d)", seg.Setting, before.Name, before.Setting, before.Line), why)
	}
	for i := range l.Segments {
		seg := &l.Segments[i]
		switch seg.Setting {
		case Indoor:
			if before := first(buried, outside, wall); before != nil {
				complain(i, before, "indoor segments first: water that has left the house does not come back in")
			}
		case ThroughWall:
			switch {
			case wall != nil:
				complain(i, wall, "one through-wall segment: the line leaves the house once")
			case first(buried, outside) != nil:
				complain(i, first(buried, outside), "the wall before whatever lies outside it")
			}
			wall = seg
		case OpenAir:
			outside = seg
		case Buried:
			buried = seg
		}
	}
}

// first returns the first of the segments that is there.
func first(segments ...*Segment) *Segment {
	for _, s := range segments {
		if s != nil {
			return s
		}
	}
	return nil
}

// jointFault says what is wrong with a standpipe after segment i, or "".
func (l *Layout) jointFault(i int) string {
	for _, seg := range l.Segments[:i+1] {
		if seg.Setting == Buried {
			return fmt.Sprintf("a segment before the ground: %q is buried, and a standpipe takes the house pipe's open end above ground", seg.Name)
		}
	}
	if i == len(l.Segments)-1 {
		return "a segment that another one follows: the standpipe needs a line to feed"
	}
	if l.Segments[i+1].Setting == Indoor {
		return fmt.Sprintf("a segment at the house's outside: %q after it is indoor", l.Segments[i+1].Name)
	}
	if l.Segments[i+1].Setting == ThroughWall {
		return fmt.Sprintf("a segment at the house's outside: %q after it is through-wall", l.Segments[i+1].Name)
	}
	return ""
}
