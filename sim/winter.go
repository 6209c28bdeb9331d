package sim

// winter is one run in progress.
type winter struct {
	k       *Case
	s       Settings
	step    *stepper
	sky     *sky
	ground  *grounds
	line    *line
	joint   *joint
	lift    *lift
	basin   *basin
	back    *returning // nil: nothing comes back
	second  *backup    // nil: there is none
	roofs   []*roof
	mounds  *mounds
	pocket  *pocket
	trap    trap
	draught *draught // nil: the line has but one end open to the air
	heat    *heatBook
	water   waterBook
	record  *recorder
	supply  *track // ground at the basin's floor, whose temperature the water has
	sill    float64
	shut    []bool  // by cell
	settled float64 // when water last came to rest [s]
	run     run     // in progress
	busy    float64 // until when the pump has run [s]
	tail    *tail   // nil: nothing is draining
	level   float64 // at which the standpipe last ran [m]
	pumping float64 // flow that the pump delivers with an open line [m³/s]
	next    int     // index of the next pump cycle
	parted  *keptParting
	behind  *behindJoint
	ebb     tail // where tail points while there is one
}

// newWinter builds the line and brings everything to the first weather row.
func newWinter(k *Case, s Settings, g *grounds) (*winter, error) {
	w := &winter{k: k, s: s, step: newStepper(s.Stepping), heat: &heatBook{}, ground: g, sky: g.sky}
	w.sky.row = 0
	w.line = newLine(k, s, g)
	w.joint = newJoint(k, w.line)
	w.basin = newBasin(k.Layout.Basin)
	w.back = newReturning(k)
	if w.pocket = newPocket(k.Layout, pocketFloor(k)); w.pocket != nil {
		w.pocket.warmth = newPocketHeat(k, g)
	}
	if fromGround(k.Layout) {
		w.supply = g.asRecorded().own().at(k.Layout.Basin.FloorBelowGround)
	}
	w.draught = newDraught(k.Layout, w.line)
	w.shut = make([]bool, len(w.line.cells))
	w.pump()
	w.second = newBackup(k, w.lift)
	w.roofs = newRoofs(k, w.line)
	w.mounds = newMounds(w)
	if w.pumping <= 0 && len(k.Cycles) > 0 {
		return nil, &PumpError{Case: k.Name, ShutOff: w.lift.shutOff() - w.lift.from, Needed: w.line.crest - w.lift.from}
	}
	w.start()
	w.record = newRecorder(w)
	w.record.makeRoom()
	return w, nil
}

// rest is what decides the standing water now.
func (w *winter) rest() rest {
	return rest{
		sill: w.sill, lip: w.joint.lip(w.sky.snowAt(w.settled)), plugs: w.line.findPlugs(w.shut),
		valve: w.k.Layout.Basin == nil || w.k.Layout.Basin.CheckValve,
	}
}

// storedHeat is the enthalpy of all cells and of the rock pit [J].
func (w *winter) storedHeat() float64 {
	var all sum
	for _, c := range w.line.cells {
		all.add(c.heatContent())
	}
	if w.pocket != nil && w.pocket.warmth != nil {
		all.add(w.pocket.warmth.u)
	}
	all.add(stream(w.line.transit).heat())
	return all.value()
}
