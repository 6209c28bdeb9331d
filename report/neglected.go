package report

// Leaning says on which side of the truth a simplification puts the result.
type Leaning int

// Leanings.
const (
	LeansHardly Leaning = iota
	LeansSafe           // the line freezes sooner, or more, than it would
	LeansUnsafe         // the line freezes later, or less
	LeansEither         // one way here, the other there
)

// String says the leaning in a word.
func (l Leaning) String() string { return [...]string{"hardly", "safe", "unsafe", "either"}[l] }

// Neglected is something that the simulation leaves out. Words may hold `code` and **weight**, as the README writes them.
type Neglected struct {
	What, Then string
	Leans      Leaning
}

// neglectedThings is what the model leaves out, in the README's words and order.
var neglectedThings = []Neglected{
	{"heat along the pipe from cell to cell (it reaches a few centimetres)", "hardly changed", LeansHardly},
	{"heat of the pump and of water rubbing in the pipe (0.2 K)", "on the safe side", LeansSafe},
	{"warmth of the basement in the soil beside the wall", "on the safe side", LeansSafe},
	{"sun on pipes", "on the safe side", LeansSafe},
	{"sun and sky on the ground, where the weather has no `sun_w_m2` with `dew_point` or `longwave_w_m2`",
		"on the safe side for open ground, on the **unsafe** side under snow (clear nights)", LeansEither},
	{"snow, where the weather has no snow depth: the ground is taken as bare",
		"on the safe side for frost, on the **unsafe** side for relief openings", LeansEither},
	{"air drawn in by a downspout that joins the line", "on the **unsafe** side", LeansUnsafe},
	{"water let go at the wall that seeps back to the basin, where a log of the pump is given: the log is taken to hold it",
		"on the **unsafe** side where the line did not freeze then", LeansUnsafe},
	{"what frozen ground and snow take of the warmth of water let go on them, and ice from water that comes out of the top of the standpipe", "on the **unsafe** side", LeansUnsafe},
	{"sun on the ice that water let go makes", "on the safe side", LeansSafe},
	{"the ring of ice that grows around the hole which warm water keeps over a lid: it dams nothing up", "on the **unsafe** side", LeansUnsafe},
	{"a film of ice thinner than some millimetres on the bed of a drained pipe: it is followed, but not told of as ice", "hardly changed", LeansHardly},
	{"what frost heave does to the standing water: the fall that it may take and the litres that may then stand are told, and the simulation keeps to the line as laid",
		"on the **unsafe** side", LeansUnsafe},
	{"ice in a backup pump's own line: it is taken to stay open", "on the **unsafe** side", LeansUnsafe},
	{"soil and wall around a part-full pool whose depth changes: what newly comes under water is taken at the temperature of the strip already wet",
		"either side, small", LeansEither},
}

// NeglectedThings gives what the model leaves out and which way that leans.
func NeglectedThings() []Neglected { return append([]Neglected(nil), neglectedThings...) }
