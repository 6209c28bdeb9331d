package report

import (
	"io"

	"winterline/sim"
)

const groundName = "ground.csv"

// groundRow is one weather row of the ground.
type groundRow struct {
	r *sim.GroundResult
	i int
}

// groundSeries makes the getter of a column from the series that it shows [m].
func groundSeries(pick func(*sim.GroundResult) []float64) func(groundRow) string {
	return func(g groundRow) string { return fixed(at(pick(g.r), g.i), 3) }
}

var groundColumns = []column[groundRow]{
	{Column{"time", "", "local standard time"},
		func(g groundRow) string { return tableTime(g.r.Start, g.r.Time[g.i]) }},
	{Column{"hour", "h", "hours since the first weather row"},
		func(g groundRow) string { return hours(&g.r.Time[g.i]) }},
	{Column{"snow_m", "m", "snow lying on the ground; empty: nothing known of snow"},
		groundSeries(func(r *sim.GroundResult) []float64 { return r.Snow })},
	{Column{"frost_top_m", "m", "depth of the shallowest frozen point; above 0: thawed from above; empty: no frost"},
		groundSeries(func(r *sim.GroundResult) []float64 { return r.FrostTop })},
	{Column{"frost_bottom_m", "m", "depth of the lowest frozen point; empty: no frost"},
		groundSeries(func(r *sim.GroundResult) []float64 { return r.FrostBottom })},
	{Column{"frozen_m", "m", "thickness of all frozen layers together; 0: no frost"},
		groundSeries(func(r *sim.GroundResult) []float64 { return r.Frozen })},
}

// Columns that ground.csv has for every depth.
var (
	soilColumn     = Column{"soil_<depth>m_c", "°C", "temperature of the ground at that depth; empty: not computed"}
	measuredColumn = Column{"measured_<depth>m_c", "°C", "measured there, only where the weather file has it; empty: no value"}
)

// GroundTable gives ground.csv.
func GroundTable(r *sim.GroundResult) File {
	return File{groundName, func(w io.Writer) error { return writeGround(w, r) }}
}

func writeGround(w io.Writer, r *sim.GroundResult) error {
	columns := append([]column[groundRow]{}, groundColumns...)
	add := func(stem, depth string, temps []float64) {
		columns = append(columns, column[groundRow]{
			Column{Name: stem + "_" + depth + "m_c"},
			func(g groundRow) string { return fixed(at(temps, g.i), 3) },
		})
	}
	var depths []float64
	for _, t := range r.Tracks {
		depths = append(depths, t.Depth)
	}
	for i, name := range depthNames(depths) {
		add("soil", name, r.Tracks[i].Temp)
	}
	depths = nil
	for _, m := range r.Measured {
		depths = append(depths, m.Depth)
	}
	for i, name := range depthNames(depths) {
		add("measured", name, r.Measured[i].Temp)
	}
	return writeTable(w, columns, len(r.Time), func(i int) groundRow { return groundRow{r, i} })
}

// depthNames prints depths [m] to the centimetre, and finer where that would give two of
// them the same name.
func depthNames(depths []float64) []string {
	const coarsest, finest = 2, 9
	names := make([]string, len(depths))
	for i, depth := range depths {
		for decimals := coarsest; decimals <= finest; decimals++ {
			names[i] = fixed(roundTo(depth, decimals), decimals)
			if !sameName(depths, i, decimals) {
				break
			}
		}
	}
	return names
}

// sameName says whether another depth than depth i prints alike.
func sameName(depths []float64, i, decimals int) bool {
	for j, other := range depths {
		if j != i && other != depths[i] && roundTo(other, decimals) == roundTo(depths[i], decimals) {
			return true
		}
	}
	return false
}
