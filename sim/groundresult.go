package sim

import (
	"time"

	"winterline/pipe"
	"winterline/weather"
)

// GroundSettings steer SimulateGround; the zero value takes the defaults.
type GroundSettings struct {
	Stepping Stepping
	// Depths are those at which the temperature is wanted [m]; nil: DefaultDepths. The
	// depths of measured columns are always added.
	Depths []float64
	// SurfaceFrom, if not nil, is the measured track that drives the ground from its own depth
	// down, in place of air, cover and snow; everything above it is left out.
	SurfaceFrom *weather.SoilTrack
	// Progress, if not nil, is told now and then how far the run is, from 0 to 1.
	Progress func(share float64)
}

// DefaultDepths are those of ground.csv unless others are asked for [m].
var DefaultDepths = []float64{0.05, 0.10, 0.20, 0.30, 0.50, 0.75, 1.00, 1.50, 2.00}

// GroundResult is the undisturbed ground through a weather record under one kind of
// surface: what a thermometer far from any pipe would have read.
type GroundResult struct {
	Name     string // of the case
	Title    string // of the layout
	Invented bool   // the built-in demonstration: an invented house
	Start    time.Time
	Layout   *pipe.Layout
	Profile  *pipe.Profile
	Surface  GroundSurface

	Time        []float64 // seconds since Start, one a weather row
	Air         []float64 // [°C]
	Snow        []float64 // depth that lies on this ground [m]; nil: nothing known of snow
	FrostTop    []float64 // shallowest frozen point [m]; NaN: nothing frozen
	FrostBottom []float64 // lowest frozen point [m]; NaN: nothing frozen
	Frozen      []float64 // thickness of all frozen layers together [m]
	Tracks      []GroundTrack
	Field       GroundField
	Seasons     []FrostSeason // one a winter in which the ground froze, in time order
	Measured    []MeasuredDepth
	// Others are the ground under the other surfaces that buried segments lie under; they share the
	// weather, and hold no measured columns. None where a thermometer drives the ground.
	Others []*GroundResult

	HeatRelative float64 // closing error of the column's heat book, over the heat exchanged [-]
	SpinUpYears  int     // times that the first year was repeated before the record
	Guesses      []pipe.Guess
	Warnings     []Warning
}

// SurfaceDrive says what drives the ground from above.
type SurfaceDrive int

// Drives, from the plainest up.
const (
	AirDrive         SurfaceDrive = iota // air behind film, cover and snow
	NFactorDrive                         // surface at a stated multiple of the air temperature
	EnergyDrive                          // sun, long-wave, wind and evaporation over cover and snow
	ThermometerDrive                     // a measured temperature
)

// GroundSurface is what lies over the ground and how it was driven.
type GroundSurface struct {
	Cover    pipe.Surface
	Drive    SurfaceDrive
	SnowKind weather.SnowKind
	SnowOn   float64 // share of the snow that lies on it [-]
	Depth    float64 // of the thermometer that drives it [m]; 0 otherwise
}

// GroundTrack is the temperature at one depth.
type GroundTrack struct {
	Depth float64   // [m]
	Temp  []float64 // [°C], one a weather row; NaN above a thermometer that drives the ground
}

// GroundField is the temperature by time and depth for a picture: means over several rows where
// the record is long, so that it stays small.
type GroundField struct {
	Time   []float64   // [s]
	Depths []float64   // rising, from the surface down [m]
	Temp   [][]float64 // one slice a time, one value a depth [°C]
}

// FrostSeason is one winter's frost, from July to June.
type FrostSeason struct {
	From, To     float64 // first and last row with anything frozen [s]
	Deepest      float64 // lowest frozen point [m]
	DeepestAt    float64 // when it was first reached [s]
	FreezingDays float64 // freezing index of the air from From to To [K d]
}

// MeasuredDepth sets a measured column beside what was computed at its depth, over the
// rows where both exist.
type MeasuredDepth struct {
	Depth   float64   // [m]
	Temp    []float64 // measured [°C], one a weather row; NaN where missing
	All     Misfit
	Winters []WinterMisfit // November to March, in time order; winters without a value are left out
}

// WinterMisfit is the misfit of one winter.
type WinterMisfit struct {
	Winter int // the year in which it ends
	Misfit
}

// Misfit compares computed with measured values.
type Misfit struct {
	N    int
	Bias float64 // mean of computed less measured [K]
	RMSE float64 // root of the mean squared difference [K]
}
