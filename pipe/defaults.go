package pipe

import "winterline/pipe/units"

// fallback is a default with the range in which the true value usually lies, written as in a
// layout, and where they come from.
type fallback struct{ value, low, high, source string }

const noSource = "common practice, no source"

// defaults are the values taken for what is left out or unknown, by table and key.
var defaults = map[string]fallback{
	"site.surface":             {"grass", "bare", "grass", noSource},
	"site.snow_on_line":        {"1", "0", "1", "natural depth; " + noSource},
	"site.snow_paved":          {"0", "0", "1", "paving is usually cleared; " + noSource},
	"site.wind_exposure":       {"0.4", "0.2", "0.7", "log wind profile over grass (roughness 0.03 m), at 0.3 m (1 ft) over at 10 m (33 ft); range: " + noSource},
	"site.ground_slope":        {"0 %", "0 %", "5 %", "level is assumed; 6 in within 10 ft is the grading that IRC R401.3 asks for (from memory)"},
	"site.room_temperature":    {"15 degC", "10 degC", "20 degC", noSource},
	"site.sheltered":           {"as outdoors", "-10 degC", "10 degC", "outdoor air, the safe side; a closed garage is often half way to the room; " + noSource},
	"site.return_share":        {"50 %", "0 %", "100 %", noSource},
	"site.return_delay":        {"12 h", "3 h", "48 h", noSource},
	"site.topsoil":             {"lawn", "none", "lawn", "humus of temperate grassland, Jobbágy and Jackson 2000 (from memory)"},
	"site.soil":                {"loam", "clay", "sand", "middle of the texture triangle; " + noSource},
	"basin.floor_below_ground": {"7 ft", "6 ft", "8-1/2 ft", "usual basement height; " + noSource},
	"basin.bottom_below_floor": {"24 in", "22 in", "30 in", "IRC 2021 P3303.1.2 and IPC 1113.1.2: at least 24 in"},
	"basin.diameter":           {"18 in", "18 in", "24 in", "IRC 2021 P3303.1.2 and IPC 1113.1.2: at least 18 in"},
	"basin.float_on":           {"9 in", "6 in", "14 in", noSource},
	"basin.float_off":          {"3 in", "2 in", "6 in", noSource},
	"basin.check_valve":        {"true", "false", "true", "required by many local codes, for example Chicago 18-29-1111.3.4"},
	"water_temperature":        {"from the ground", "3 degC", "10 degC", "the lower of mean ground and soil temperature at basin-floor depth; range: " + noSource},
	"pump.curve":               {"1/3 hp", "1/4 hp", "1/2 hp", "typical curves; " + noSource},
	"pump.start":               {"3 in", "1 in", "6 in", "above the main pump's float; " + noSource},
	"segment.length":           {"5 m", "3 m", "15 m", "buried run; " + noSource},
	"segment.slope":            {"1/8 in/ft", "1/16 in/ft", "1/4 in/ft", "model plumbing code table 704.1: at least 1/8 in/ft for 3 to 6 in pipe"},
	"segment.sag":              {"0 in", "0 in", "1 in", "straight as laid; " + noSource},
	"segment.cover":            {"8 in", "4 in", "18 in", noSource},
	"segment.fittings":         {"4.5", "2.5", "8", "two to four elbows, check valve and exit; " + noSource},
	"segment.pipe":             {"1-1/2 in sch 40 PVC", "1-1/4 in sch 40 PVC", "2 in sch 40 PVC", "usual pump discharge; " + noSource},
	"segment.buried":           {"4 in D3034", "3 in D3034", "4 in D2729", "usual gravity line; " + noSource},
	"standpipe.pipe":           {"4 in D3034", "3 in D3034", "4 in sch 40 PVC", noSource},
	"standpipe.rim":            {"12 in", "6 in", "24 in", noSource},
	"standpipe.end":            {"-2 in", "-6 in", "0 in", "below the top of the standpipe; " + noSource},
	"standpipe.slip_travel":    {"2 in", "1 in", "4 in", noSource},
	"relief.height":            {"-6 in", "-12 in", "-3 in", "below the top of the standpipe; " + noSource},
	"relief.segment":           {"6 in", "3 in", "12 in", "above ground; " + noSource},
	"relief.width":             {"3 in", "2 in", "4 in", noSource},
	"relief.opening_height":    {"3 in", "2 in", "4 in", noSource},
	"relief.faces_house":       {"false", "false", "true", noSource},
	"relief.distance_to_house": {"12 in", "6 in", "36 in", noSource},
	"relief.snow_factor":       {"1", "0.5", "2", "drift, roof slide or shovelled snow; " + noSource},
	"relief.spread_area":       {"2 m2", "0.5 m2", "10 m2", "ground over which the water spreads and freezes; " + noSource},
	"outlet.level":             {"1 in", "0 in", "3 in", noSource},
	"outlet.lid_opening_head":  {"1 in", "1/2 in", "3 in", noSource},
	"outlet.spread_area":       {"2 m2", "0.5 m2", "10 m2", "ground over which the water spreads and freezes; " + noSource},
	"outlet.weep":              {"6 mm x 50 mm", "3 mm x 20 mm", "10 mm x 100 mm", "design assumption, no source"},
	"pocket.length":            {"0.6 m", "0.3 m", "1 m", noSource},
	"pocket.width":             {"0.6 m", "0.3 m", "1 m", noSource},
	"pocket.depth":             {"0.45 m", "0.3 m", "0.9 m", noSource},
	"pocket.void":              {"40 %", "35 %", "45 %", "clean uniform crushed stone, TRCA/CVC low-impact-development wiki"},
	"extra_inflow.area":        {"40 m2", "15 m2", "100 m2", "one downspout of a house roof; " + noSource},
	"insulation.thickness":     {"1 in", "1/2 in", "2 in", noSource},

	"site.wind_pressure_coefficient": {"0.3", "0.1", "0.6", "between the faces of low buildings in the open, over the wind at the pipe; wind pressure coefficients of handbooks (from memory)"},
}

// guess makes a fallback a Guess in SI.
func (f fallback) guess(key string, d units.Dimension) Guess {
	return Guess{Key: key, Dimension: d, Value: si(d, f.value), Low: si(d, f.low), High: si(d, f.high), Source: f.source}
}

// offsetGuess is a guess counted from another level [m].
func (f fallback) offsetGuess(key string, from float64) Guess {
	g := f.guess(key, units.Length)
	g.Value, g.Low, g.High = from+g.Value, from+g.Low, from+g.High
	return g
}

// si reads a value of our own tables; a test reads every one of them.
func si(d units.Dimension, text string) float64 {
	v, err := units.Parse(d, text)
	if err != nil {
		return 0
	}
	return v
}
