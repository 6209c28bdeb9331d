package sim

// Closure is one time that ice shut the line at one place, with what brought it about. Neighbouring cells that
// shut one after the other are one plug. The fields describe the cell that shut first, at the instant it did, unless
// they say otherwise. Times are in seconds since the first weather row. NaN: not known, or there is none.
type Closure struct {
	Where    int      // index in Result.Segments of the part that shut first
	Distance float64  // from the wall to the cell that shut first [m]
	Length   float64  // of that cell, along the pipe [m]
	From, To float64  // distances from the wall between which all cells of the plug lie [m]
	Shut     float64  // when its first cell shut
	Grew     float64  // when its last cell shut
	Reopened *float64 // when the last of its cells opened; nil: shut at the end of the record
	Slush    bool     // its ice began as slush, from water that had stayed liquid below 0 °C
	// Index in Result.Closures of an earlier closure that was still shut, so that no water came past; −1: none.
	After int
	Mound bool // it is ice on the ground over the line's end; Heat, Spent and Layers are left out

	Stood  Stood
	Warm   WarmWater
	Heat   HeatHeld
	Spent  HeatSpent
	Layers []Layer // from the ice's front out to the air, in that order
	Met    Met
	Relief *ReliefThen // nil: the line has no relief opening
	Pocket *PocketThen // nil: there is no rock pit that a slot drains into
	During WhileShut
}

// Barrier is what keeps water standing in a cell.
type Barrier string

// Barriers.
const (
	BarrierSag     Barrier = "sag"             // the pipe rises again behind its belly
	BarrierGrade   Barrier = "grade"           // the pipe rises towards a higher point downstream
	BarrierOutlet  Barrier = "outlet"          // the line's end lies higher
	BarrierLid     Barrier = "lid"             // the riser to the lid, which no slot drains
	BarrierPocket  Barrier = "pocket-full"     // the rock pit is full and keeps the line behind its slot full
	BarrierSlot    Barrier = "slot-iced"       // ice covers the slot
	BarrierSlow    Barrier = "slot-slow"       // the slot is open, and has not drained it yet
	BarrierPlug    Barrier = "ice-downstream"  // ice downstream shuts the line, or stands in its bed
	BarrierEnd     Barrier = "ice-at-end"      // ice on the ground stands before the line's end
	BarrierValve   Barrier = "check-valve"     // the check valve keeps what stands below the crest from running back
	BarrierLaid    Barrier = "left-by-passing" // none any more: it is ice left by water that ran past or drained away
	BarrierWritten Barrier = "as-written"      // the layout says that it stands there
)

// Stood is the water, ice included, that stood where ice shut the line.
type Stood struct {
	Volume   float64 // in that cell [m³]
	Fill     float64 // share of its bore [-]
	Stretch  float64 // in the whole stretch of line in which water stood without a break [m³]
	From, To float64 // distances from the wall between which that stretch lies [m]
	Fall     float64 // of that cell along the flow, over its length [-]; below 0: it rises
	Barrier  Barrier
	At       float64 // distance from the wall to the barrier [m]
	Part     int     // index in Result.Segments of the part that holds the barrier; −1: none does
	Depth    float64 // to which water can stand before the barrier, over the cell's lowest point [m]
}

// leastWarm is the temperature from which on running water counts as warm [°C] (model definition).
const leastWarm = 0.1

// WarmWater is the last warm water that ran through the cell before it shut.
type WarmWater struct {
	Time        float64 // when it had passed; NaN: none since the record's start, which stands in its place below
	Temperature float64 // mean of what came to the cell in that run, the water that it pushed ahead of it included [°C]
	Volume      float64 // of the same [m³]
}

// HeatHeld is the heat of the water that stood in the cell, and how fast it went.
type HeatHeld struct {
	Standing  float64 // water and ice that stood there once the warm water had passed [m³]
	Mean      float64 // temperature of that water [°C]
	IceBefore float64 // share of it that was ice then already [-]
	AboveZero float64 // heat that it held above 0 °C then [J]
	ToShut    float64 // heat that it gave up besides, as it froze, until it shut [J]
	FirstIce  float64 // since when there has been ice without a break [s]
	LossToIce float64 // mean loss of the water from the warm water to first ice [W]; NaN: there was ice already
	Loss      float64 // mean loss of the water from the warm water to closing [W]
}

// HeatSpent is the cell's book of heat, pipe and soil included, from the last warm water to the end of the interval in
// which it shut: Content = Outside + Surface + Ground + Carried [J]; what comes in is positive.
type HeatSpent struct {
	Until   float64 // end of that interval [s]
	Content float64 // change of what it holds
	Outside float64 // through its outside
	Surface float64 // through the water's free surface or the bare wall, from the air in the pipe
	Ground  float64 // what the undisturbed ground's own change brought
	Carried float64 // with water that came or went since
}

// Layer is one resistance to the heat on its way out.
type Layer struct {
	Kind       string  // LayerIce and so on
	Material   string  // of insulation; "" for others
	Thickness  float64 // [m]; NaN where it has none that would say something
	Resistance float64 // of a metre of pipe [m K/W]
	Share      float64 // of the whole chain's resistance [-]
	// Beyond: the layer is part of the undisturbed ground, which sets the temperature around the cell, and not of the cell's
	// own chain. Its resistance is what soil as thick as would insulate alike would add over the pipe.
	Beyond bool
}

// Kinds of layer.
const (
	LayerIce        = "ice" // from the front to the pipe's wall; the water's film where no ice stands there
	LayerWall       = "pipe wall"
	LayerInsulation = "insulation"
	LayerSoil       = "soil"
	LayerAir        = "air" // film of air at the outside, with what is radiated
	LayerCover      = "ground cover"
	LayerSnow       = "snow"
)

// Met is what the place faced.
type Met struct {
	Air, Wind float64 // outdoors [°C], at the pipe [m/s]
	Outside   float64 // temperature behind the cell's own layers [°C]
	// The air from the last warm water on [°C].
	LowestSince, MeanSince float64
	// The frost that led to it: since when the mean of a day stayed below 0 °C, and the air from then on.
	Spell, LowestSpell, MeanSpell float64
	Ground                        float64 // undisturbed, beside the pipe's axis [°C]
	Depth                         float64 // of that axis [m]
	Frost                         float64 // depth of the lowest frozen point of that ground [m]; 0: none
	Snow                          float64 // depth on the line there [m]
}

// ReliefThen is what the relief openings did as the line shut.
type ReliefThen struct {
	Running bool    // water had run from them since the line last took all
	Snow    float64 // depth beside them, as it drifts [m]
	Clear   float64 // from that snow up to the lowest of them [m]; below 0: under snow
	Blocked bool    // snow and ice stood over all of them
	Iced    float64 // greatest thickness of ice on the ground before them [m]
}

// PocketThen is the rock pit as the line shut.
type PocketThen struct {
	Full        float64 // share of its void [-]
	Ice         float64 // share of its water [-]
	Temperature float64 // [°C]
	Drinking    float64 // what the soil took of it [m³/s]
}

// WhileShut is what became of the pump's water while the place was shut [m³].
type WhileShut struct {
	Cycles, ReliefRuns     int
	Relief, Rim, Refused   float64
	FirstRelief, FirstOver float64 // starts of the first cycles in which a relief ran, or water went over the rim [s]
}

// Weakest and Strongest are the layers beside the ice that resist least and most; false where there are none.
func (c *Closure) Weakest() (Layer, bool) {
	return c.pickLayer(func(a, b Layer) bool { return a.Resistance < b.Resistance })
}

// Strongest is the other end of Weakest.
func (c *Closure) Strongest() (Layer, bool) {
	return c.pickLayer(func(a, b Layer) bool { return a.Resistance > b.Resistance })
}

func (c *Closure) pickLayer(better func(a, b Layer) bool) (best Layer, found bool) {
	for _, l := range c.Layers {
		if l.Kind != LayerIce && (!found || better(l, best)) {
			best, found = l, true
		}
	}
	return best, found
}
