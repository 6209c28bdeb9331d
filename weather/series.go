package weather

import "time"

// Series is a weather record. All slices that are present have one value a row;
// a nil slice means that the record does not have that quantity.
// State variables are instants at the stamp, joined linearly; amounts (Rain,
// SnowfallWater) fall between the stamp and the next row.
type Series struct {
	Source        string      // file or files the record came from
	Start         time.Time   // first stamp; the wall clock in local standard time, carried as UTC
	Time          []float64   // seconds since Start, strictly rising
	Air           []float64   // air temperature [°C]
	Wind          []float64   // wind speed at 10 m [m/s]
	DewPoint      []float64   // [°C]
	Cloud         []float64   // cloud cover [-], 0 to 1
	SnowDepth     []float64   // [m]
	Rain          []float64   // [m of water]
	SnowfallWater []float64   // snowfall as water [m]
	Sun           []float64   // global radiation on the horizontal [W/m²]
	LongWave      []float64   // long-wave radiation from the sky on the horizontal [W/m²]
	Soil          []SoilTrack // measured soil temperatures, for comparison only
	Repairs       []Repair    // what was bridged or mended on reading
	Notes         []Note      // what was assumed or noticed
	Format        string      // the form of the file, such as "plain form"; several joined by " and "
	Typical       bool        // a typical year, put together from months of different years
	Design        []string    // how a design cold snap was made, line by line; nil: a record
	heritage      *heritage   // what a part of a record has from the whole; nil: a record by itself
}

// SoilTrack is a measured soil temperature at one depth; NaN where not recorded.
type SoilTrack struct {
	Depth float64 // [m]
	Temp  []float64
}

// Stamp returns the wall-clock time t seconds after the first row.
func (s *Series) Stamp(t float64) time.Time {
	return s.Start.Add(time.Duration(t * float64(time.Second)))
}

// End returns the last instant of the record [s].
func (s *Series) End() float64 { return s.Time[len(s.Time)-1] }
