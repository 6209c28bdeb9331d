package answers

import (
	"fmt"
	"math"

	"winterline/pipe"
)

// foam is the insulation that changes add, as a layout names it.
const foam = "closed-cell foam"

// insulation puts foam round the segments that shut, and round all outdoors where that is more.
func (m *maker) insulation() {
	targets := m.targets()
	var all []int
	for i, s := range m.layout.Segments {
		if outdoors(s) {
			all = append(all, i)
		}
	}
	for _, thickness := range []float64{0.025, 0.050} {
		for _, i := range targets {
			c := m.insulate(i, thickness)
			c.Key = key(Insulate, m.layout.Segments[i].Name, mm(thickness))
			m.add(c)
		}
	}
	if len(all) <= 1 {
		return
	}
	const thickness = 0.050
	c := Change{Key: key(InsulateAll, mm(thickness)), Kind: InsulateAll, Segment: -1, Amount: thickness}
	for _, i := range all {
		one := m.insulate(i, thickness)
		c.Edits, c.Takes = append(c.Edits, one.Edits...), c.Takes|one.Takes
	}
	m.add(c)
}

// insulate puts one layer of foam round a segment.
func (m *maker) insulate(i int, thickness float64) Change {
	c := Change{Kind: Insulate, Segment: i, Amount: thickness, Takes: TakesOwner}
	if m.layout.Segments[i].Setting == pipe.Buried {
		c.Takes = TakesOwner | TakesDig
	}
	had := len(m.layout.Segments[i].Insulation)
	// A layer of no thickness is left out of a layout but has its place in the file: the new one goes behind all.
	for at := had; ; at++ {
		edit := m.edit(i, fmt.Sprintf("insulation[%d]", at), fmt.Sprintf("{ thickness = %q, material = %q }", metres(thickness), foam))
		k, err := m.source.Case(edit)
		if err != nil || len(k.Layout.Segments[i].Insulation) == had+1 || thickness == 0 {
			c.Edits = []pipe.Edit{edit}
			return c
		}
	}
}

// straighter lays segments that sag straight.
func (m *maker) straighter() {
	for i, s := range m.layout.Segments {
		if s.Sag > 0 {
			m.add(Change{Key: key(RemoveSag, s.Name), Kind: RemoveSag, Segment: i, Amount: s.Sag,
				Edits: []pipe.Edit{m.edit(i, "sag", metres(0))}, Takes: TakesOwner | TakesDig})
		}
	}
}

// wider lays all buried pipe behind a standpipe, or of a glued line, in 4 in where it is smaller.
func (m *maker) wider() {
	const name = "4 in D3034"
	size, _ := pipe.FindSize(name)
	c := Change{Kind: WidenPipe, Segment: -1, Amount: size.Bore(), Takes: TakesOwner | TakesDig}
	for i, s := range m.layout.Segments {
		if s.Setting == pipe.Buried && s.Size.Bore() < 0.9*size.Bore() {
			c.Edits = append(c.Edits, m.edit(i, "pipe", name))
		}
	}
	if len(c.Edits) > 0 {
		m.add(c)
	}
}

// underground lays segments in the open under the ground.
func (m *maker) underground() {
	const cover = 0.30 // [m]
	for i, s := range m.layout.Segments {
		if s.Setting != pipe.OpenAir || math.Abs(s.Drop) > s.Length/2 {
			continue
		}
		c := Change{Key: key(BuryOpen, s.Name, mm(cover)), Kind: BuryOpen, Segment: i, Amount: cover, Takes: TakesOwner | TakesDig,
			Edits: []pipe.Edit{m.edit(i, "setting", "buried"), m.edit(i, "cover", metres(cover))}}
		if m.layout.Outlet.Kind == pipe.Open {
			c.Takes |= TakesGround
		}
		if m.layout.Standpipe == nil {
			m.meet(&c, i, m.profile.CoverAt(i, 0)-cover)
		}
		m.add(c)
	}
}
