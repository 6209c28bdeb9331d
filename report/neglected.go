package report

// leaning says on which side of the truth a simplification puts the result.
type leaning int

// Leanings.
const (
	leansHardly leaning = iota
	leansSafe           // the line freezes sooner, or more, than it would
	leansUnsafe         // the line freezes later, or less
	leansEither         // one way here, the other there
)

// String says the leaning in a word.
func (l leaning) String() string { return [...]string{"hardly", "safe", "unsafe", "either"}[l] }

// neglected is something that the simulation leaves out. Words may hold `code` and **weight**, as the README writes them.
type neglected struct {
	What, Then string
	Leans      leaning
}

// neglectedThings is what the model leaves out, and which way that leans, in the README's words and order.
var neglectedThings = []neglected{
	{"heat along the pipe from cell to cell (it reaches a few centimetres)", "hardly changed", leansHardly},
	{"heat of the pump and of water rubbing in the pipe (0.2 K)", "on the safe side", leansSafe},
	{"thin air high above the sea: wind and still air take heat as they do at sea level", "on the safe side", leansSafe},
	{"warmth of the basement in the soil beside the wall", "on the safe side", leansSafe},
	{"sun on pipes", "on the safe side", leansSafe},
	{"sun and sky on the ground, where the weather has no `sun_w_m2` with `dew_point` or `longwave_w_m2`",
		"on the safe side for open ground, on the **unsafe** side under snow (clear nights)", leansEither},
	{"snow, where the weather has no snow depth: the ground is taken as bare",
		"on the safe side for frost, on the **unsafe** side for relief openings", leansEither},
	{"air drawn in by a downspout that joins the line", "on the **unsafe** side", leansUnsafe},
	{"water let go at the wall that seeps back to the basin, where a log of the pump is given: the log is taken to hold it",
		"on the **unsafe** side where the line did not freeze then", leansUnsafe},
	{"what frozen ground and snow take of the warmth of water let go on them, and ice from water that comes out of the top of the standpipe", "on the **unsafe** side", leansUnsafe},
	{"sun on the ice that water let go makes", "on the safe side", leansSafe},
	{"the ring of ice that grows around the hole which warm water keeps over a lid: it dams nothing up", "on the **unsafe** side", leansUnsafe},
	{"a film of ice thinner than some millimetres on the bed of a drained pipe: it is followed, but not told of as ice", "hardly changed", leansHardly},
	{"what frost heave does to the standing water: the fall that it may take and the litres that may then stand are told, and the simulation keeps to the line as laid",
		"on the **unsafe** side", leansUnsafe},
	{"lenses of ice that were in the ground before the record began, and how it settles after a thaw", "on the **unsafe** side", leansUnsafe},
	{"ice in a backup pump's own line: it is taken to stay open", "on the **unsafe** side", leansUnsafe},
	{"heat that wall and soil lead round to the dry side of a part-full pipe: a pool loses it over its wetted share alone (half full in soil it would lose a fifth to two fifths more, by estimate)",
		"on the **unsafe** side", leansUnsafe},
	{"soil and wall around a part-full pool whose depth changes: what newly comes under water is taken at the temperature of the strip already wet",
		"either side, small", leansEither},
}
