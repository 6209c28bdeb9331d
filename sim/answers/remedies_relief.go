package answers

import (
	"fmt"
	"math"

	"winterline/pipe"
)

// What a relief opening and a standpipe that are added look like (common practice, no source) [m].
const (
	reliefWidth    = 0.075
	reliefOpening  = 0.050
	reliefDistance = 0.60 // from the house
	reliefBelowEnd = 0.15 // bottom below the house pipe's end
	rimAboveEnd    = 0.05
	lowestEnd      = 0.30 // of a house pipe above ground
	raise          = 0.10 // by which openings and pipe ends are set higher
	gapLeft        = 0.05 // least left between an opening's bottom and the house pipe's end
)

// reliefs add an opening where there is none, or change those that there are.
func (m *maker) reliefs() {
	if len(m.layout.Reliefs) == 0 {
		m.addRelief()
		return
	}
	m.add(m.raiseRelief(raise))
	snow := Change{Kind: ClearRelief, Segment: -1, Takes: TakesOwner}
	wide := Change{Kind: EnlargeRelief, Segment: -1, Amount: 2 * m.layout.Reliefs[0].Width, Takes: TakesOwner, Risks: RiskWallWater}
	for i, r := range m.layout.Reliefs {
		snow.Edits = append(snow.Edits, pipe.Edit{Path: reliefPath(i, "snow_factor"), Value: "0"})
		wide.Edits = append(wide.Edits, pipe.Edit{Path: reliefPath(i, "width"), Value: metres(2 * r.Width)})
	}
	if m.result.Verdict.HighestSnow != nil && *m.result.Verdict.HighestSnow > 0 {
		m.add(snow)
	}
	m.add(wide)
}

func reliefPath(i int, name string) string { return fmt.Sprintf("relief[%d].%s", i, name) }

// addRelief opens the standpipe, or a glued line where it comes out of the house.
func (m *maker) addRelief() {
	height := reliefBelowEnd
	if sp := m.layout.Standpipe; sp != nil {
		height = math.Max(0, math.Min(sp.HousePipeEnd, sp.Rim)-reliefBelowEnd)
	} else if first := m.lineStart(); first == 0 || first == len(m.layout.Segments) {
		return // a pipe without a house
	}
	m.add(m.newOpening(height))
}

// newOpening adds an opening at a height above ground [m].
func (m *maker) newOpening(height float64) Change {
	c := Change{Key: key(AddRelief), Kind: AddRelief, Segment: -1, Amount: height, Takes: TakesOwner | TakesApproval, Risks: RiskWallWater}
	at := "standpipe"
	if m.layout.Standpipe == nil {
		c.Segment = min(m.lineStart(), len(m.layout.Segments)-1)
		at = m.layout.Segments[c.Segment].Name
	}
	c.Edits = []pipe.Edit{{Path: "relief[0]", Value: newRelief(at, height)}}
	return c
}

// newRelief is an opening as a table takes it; it lets go away from the house, in the open.
func newRelief(at string, height float64) string {
	return fmt.Sprintf("{ at = %q, height = %q, width = %q, opening_height = %q, faces_house = false, distance_to_house = %q, snow_factor = 1.0 }",
		at, metres(height), metres(reliefWidth), metres(reliefOpening), metres(reliefDistance))
}

// raiseRelief sets all openings higher (up > 0) or lower. Where that leaves too little room below the house pipe's
// end or the standpipe's rim, these are set higher, too.
func (m *maker) raiseRelief(up float64) Change {
	c := Change{Kind: RaiseRelief, Segment: -1, Amount: math.Inf(1), Takes: TakesOwner, Risks: RiskWallWater}
	lack := 0.0
	for i, r := range m.layout.Reliefs {
		c.Amount = math.Min(c.Amount, r.Height+up)
		c.Edits = append(c.Edits, pipe.Edit{Path: reliefPath(i, "height"), Value: metres(r.Height + up)})
		if sp := m.layout.Standpipe; sp != nil && r.Segment < 0 {
			lack = max(lack, r.Height+up+gapLeft-sp.HousePipeEnd, r.Height+up+math.Min(r.OpeningHeight, sp.Rim-r.Height)-sp.Rim)
		}
	}
	c.Key = key(RaiseRelief, mm(c.Amount))
	if lack > 1e-6 {
		m.raiseEnd(&c, lack)
	}
	return c
}

// raiseEnd sets the house pipe's end and the standpipe's rim higher, and makes the riser longer to reach it. The rim
// goes before the openings, which have to lie below it.
func (m *maker) raiseEnd(c *Change, up float64) {
	sp := m.layout.Standpipe
	house, ok := m.houseSide(sp.After+1, up)
	if !ok {
		c.Barred = BarNoRiser
	}
	c.Takes |= TakesLicensed
	c.Edits = append(c.Edits,
		pipe.Edit{Path: "standpipe.house_pipe_end", Value: metres(sp.HousePipeEnd + up)},
		pipe.Edit{Path: "standpipe.rim", Value: metres(sp.Rim + up)})
	c.Edits = append(c.Edits, house...)
}

// standpipes part a glued line, or give a house pipe more room above the water.
func (m *maker) standpipes() {
	if sp := m.layout.Standpipe; sp != nil {
		c := Change{Kind: RaiseHousePipe, Segment: -1, Amount: sp.HousePipeEnd + raise}
		m.raiseEnd(&c, raise)
		m.add(c)
		return
	}
	next := m.firstBuried()
	if next == 0 || next == len(m.layout.Segments) {
		return
	}
	top := m.standpipe(next)
	relief := top
	relief.Kind = AddStandpipe
	at := math.Max(0.05, top.Amount-reliefBelowEnd)
	relief.Edits = append(append([]pipe.Edit(nil), top.Edits...),
		pipe.Edit{Path: fmt.Sprintf("relief[%d]", len(m.layout.Reliefs)), Value: newRelief("standpipe", at)})
	m.add(relief)
	m.add(top)
}

// standpipe parts a glued line in front of segment next. The house pipe ends where the riser brings it, and where
// that is too low the riser gets longer.
func (m *maker) standpipe(next int) Change {
	end := m.profile.Segments[next-1].Z1
	if b := m.layout.Basin; b != nil {
		end = -b.FloorBelowGround - b.BottomBelowFloor
		for _, s := range m.layout.Segments[:next] {
			end -= s.Drop
		}
	}
	c := Change{Kind: AddStandpipeTop, Segment: next - 1, Amount: math.Max(end, lowestEnd), Takes: TakesLicensed | TakesApproval | TakesDig,
		Risks: RiskWallWater}
	c.Edits = []pipe.Edit{{Path: "standpipe", Value: fmt.Sprintf("{ after = %q, pipe = \"4 in D3034\", house_pipe_end = %q, rim = %q, slip_travel = \"75 mm\" }",
		m.layout.Segments[next-1].Name, metres(c.Amount), metres(c.Amount+rimAboveEnd))}}
	if up := c.Amount - end; up > 1e-6 {
		m.meet(&c, next, up)
	}
	// A glued line may hang on its basin; the line behind a standpipe hangs on its cover.
	if m.layout.Segments[next].Cover == nil && m.layout.Outlet.Kind == pipe.Lid {
		c.Edits = append(c.Edits, m.edit(next, "cover", pair(m.profile.CoverAt(next, 0), m.profile.CoverAt(next, 1))))
	}
	return c
}
