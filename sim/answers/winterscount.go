package answers

import "winterline/sim"

// WintersCount is how many of the winters of one layout went how far. A winter counts in every field that it reached.
type WintersCount struct {
	Winters int
	Iced    int // ice anywhere in the line
	Shut    int // the line froze shut
	Relief  int // a relief opening ran
	Spilled int // water was let go beside the house
	Flooded int // the floor got wet
	Wet     int // any of spilled, flooded and refused
	Refused int // no basin says where the water that the line did not take would have gone
}

// CountOf counts the winters of a layout.
func (a *WintersAnswer) CountOf(layout int) WintersCount {
	var c WintersCount
	for _, o := range a.Of(layout) {
		c.Winters++
		for _, one := range []struct {
			n  *int
			is bool
		}{
			{&c.Iced, o.state() >= sim.Iced}, {&c.Shut, o.Shut != nil}, {&c.Relief, o.ReliefRuns > 0},
			{&c.Spilled, o.Spill != nil}, {&c.Flooded, o.Floor != nil}, {&c.Refused, o.Refused > sim.LeastRefused}, {&c.Wet, o.Wet()},
		} {
			if one.is {
				*one.n++
			}
		}
	}
	return c
}

// Of are the outcomes of one layout, winter by winter.
func (a *WintersAnswer) Of(layout int) (all []WinterOutcome) {
	for _, o := range a.Outcomes {
		if o.Layout == layout {
			all = append(all, o)
		}
	}
	return all
}
