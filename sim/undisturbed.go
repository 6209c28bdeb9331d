package sim

import "context"

// undisturbed is the ground at every depth that the line asks for. It depends on site and weather
// alone, so that runs which differ in the water share it.
func undisturbed(ctx context.Context, k *Case, s Settings) (*grounds, error) {
	g := groundAsked(k, s)
	if !g.asked() && !g.asRecorded().asked() {
		return g, nil
	}
	return g, g.run(ctx, s.Stepping, s.Ground)
}

// groundAsked is the ground of a case with all depths that are asked for, before it is run.
func groundAsked(k *Case, s Settings) *grounds {
	g := newShiftedGrounds(&k.Layout.Site, k.Weather, k.Shift)
	newLine(k, s, g)
	if newPocket(k.Layout, pocketFloor(k)) != nil {
		newPocketHeat(k, g)
	}
	if fromGround(k.Layout) {
		g.asRecorded().own().at(k.Layout.Basin.FloorBelowGround)
	}
	if g.asked() || g.asRecorded().asked() {
		g.own().show(DefaultDepths)
		g.own().at(skinDepth)
	}
	g.past = k.past
	return g
}
