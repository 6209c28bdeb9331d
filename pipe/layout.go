package pipe

import "winterline/pipe/units"

// Layout is one installation, read from layout.toml, complete: every quantity that
// has a default carries a value, and those that the user left out or called unknown
// are listed in Guesses.
type Layout struct {
	Title        string // as written; "" for none
	Site         Site
	Basin        *Basin // nil: supply unlimited at the water temperature
	Pumps        []Pump
	Segments     []Segment  // in flow order, pump to outlet
	Standpipe    *Standpipe // nil: a line glued to the house pipe
	Reliefs      []Relief
	Outlet       Outlet
	Pocket       *Pocket // nil: none
	Water        WaterPlan
	ExtraInflows []ExtraInflow
	Outages      []Span // power cuts, in order of time
	Seen         []Seen // what the owner remembers, in order of time
	Cost         *Cost  // nil: none written
	Guesses      []Guess
}

// Guess is a quantity that nobody measured: the default in use, the range in which
// the true value usually lies, and where these come from. All values are SI.
type Guess struct {
	Key              string // path as an Edit takes it, such as `site.soil_moisture`, `yard run.cover` or `relief[0].height`
	Dimension        units.Dimension
	Value, Low, High float64
	Text             string // for a guess that is a word (soil = "unknown"): the word in use; "" otherwise
	LowText          string // the same for the ends of its range, as an Edit takes them
	HighText         string
	Source           string
}

// Site is the ground and the air around the house.
type Site struct {
	Soil            Soil        // below all layers, overrides applied; the zero Soil where nothing is buried and none was named
	Layers          []SoilLayer // from the surface down, in order of depth
	Topsoil         []SoilLayer // the same, of what grass makes of the soil; only under grass and without Layers
	GroundMean      *float64    // annual mean at the ground surface [°C]; nil: not written, to be derived from the weather or defaulted
	GroundSwing     *float64    // half the summer-to-winter range at the surface [K]; nil likewise
	GroundSlope     float64     // fall away from the wall [-]
	GroundPoints    []GroundPoint
	Surface         Surface
	SnowOnLine      float64 // share of the recorded depth that lies on the line [-]
	WindExposure    float64 // wind at the pipe over wind at 10 m [-]
	RoomTemperature float64 // basement [°C]
	// ShelteredTemperature is that of a garage or crawlspace [°C]; nil: outdoor air, or half way between room
	// and outdoor air when ShelteredHalfway says so.
	ShelteredTemperature *float64
	ShelteredHalfway     bool
	WaterTable           *float64 // below ground at the far end [m]; nil: none
	ReturnShare          float64  // share of water let go beside the house that comes back to the basin [-]
	ReturnDelay          float64  // [s]
	GroundWritten        bool     // slope or points of the ground were given: covers must agree with them
	// SurfaceResistance replaces film, cover and snow [m² K/W]; nil: computed.
	SurfaceResistance *float64
	NFactor           *NFactor // replaces them likewise; nil: computed

	// WindPressureCoefficient is the difference of the wind's pressure between the line's two open ends over its
	// dynamic pressure at the pipe [-].
	WindPressureCoefficient float64
}

// NFactor ties the ground's surface to the air: the surface's freezing index, its degree-days below 0 °C
// in a winter, over the air's, and its thawing index likewise [-].
type NFactor struct {
	Freezing, Thawing float64
}

// SoilAt returns the soil at a depth [m] under the site's own surface.
func (s *Site) SoilAt(depth float64) Soil { return s.SoilUnder(s.Surface, depth) }

// SoilUnder returns the soil at a depth [m] under a surface.
func (s *Site) SoilUnder(cover Surface, depth float64) Soil {
	for _, layer := range s.LayersUnder(cover) {
		if depth <= layer.To {
			return layer.Soil
		}
	}
	return s.Soil
}

// LayersUnder returns the layers of soil under a surface, from the top down; below them lies Soil.
func (s *Site) LayersUnder(cover Surface) []SoilLayer {
	if cover == Grass && len(s.Layers) == 0 {
		return s.Topsoil
	}
	return s.Layers
}

// GroundPoint is a surveyed point of the ground surface.
type GroundPoint struct {
	Distance, Level float64 // [m]
}

// SoilLayer is a layer of soil, from the end of the one above it down to a depth.
type SoilLayer struct {
	To   float64 // lower edge below ground [m]
	Soil Soil
}

// Surface is what covers the ground above the line.
type Surface int

// Surfaces.
const (
	Grass Surface = iota
	Bare
	Gravel
	Paved
)

var surfaceNames = []string{"grass", "bare", "gravel", "paved"}

// String gives the word used in layout.toml.
func (s Surface) String() string { return surfaceNames[s] }

// Basin is the sump.
type Basin struct {
	FloorBelowGround  float64  // basement floor under the ground at the wall [m]
	BottomBelowFloor  float64  // bottom of the basin under that floor [m]
	Area              float64  // plan area [m²]
	FloatOn, FloatOff float64  // water level above basin bottom [m]
	WaterTemperature  *float64 // of the water that the pump lifts [°C]; nil: worked out from the ground
	CheckValve        bool     // one holds the water of the house pipe back
}

// Pump is one pump with its curve.
type Pump struct {
	Name    string
	Role    PumpRole
	Curve   []CurvePoint // head ascending, flow descending to 0
	Start   float64      // level above basin bottom at which a backup starts [m]
	OwnLine bool         // a backup on segments of its own
}

// CurvePoint is a point of a pump curve.
type CurvePoint struct {
	Head float64 // [m]
	Flow float64 // [m³/s]
}

// PumpRole tells main from backup.
type PumpRole int

// Pump roles.
const (
	MainPump PumpRole = iota
	BackupPump
)

// Segment is a stretch of pipe of one kind in one surrounding.
type Segment struct {
	Name       string
	Size       Size
	Length     float64 // along the pipe [m]
	Drop       float64 // level at the start minus level at the end [m], positive downhill
	Setting    Setting
	Loss       float64 // sum of fitting loss coefficients [-]
	Insulation []Insulation
	Sag        float64     // belly below the straight grade at mid length [m]
	Cover      *[2]float64 // ground surface to top of pipe at start and end [m]; nil: from levels
	// CoverPair is true where both ends of the cover were written; one value alone holds for the
	// whole segment on ground that was left out, and for its start where the ground is given.
	CoverPair bool
	// Of a buried segment that lies under something else than the rest, such as a driveway; nil: the site's.
	Surface    *Surface
	SnowOnLine *float64 // share of the recorded depth [-]
	Painted    bool     // or otherwise kept from sunlight

	// Overrides, mostly for verification.
	FilmCoefficient  *float64 // outside film, radiation included [W/(m² K)]
	StartTemperature *float64 // water, wall and insulation at the first row [°C]
	Standing         *float64 // share of the bore standing full at the first row [-]
	Liquid           Liquid
	Nucleation       *float64 // temperature to which water supercools before ice forms [°C]; nil: none

	Line int // in layout.toml
}

// Over returns what covers the ground above segment i, and the share of the recorded snow that lies on it [-].
func (l *Layout) Over(i int) (cover Surface, snow float64) {
	s := &l.Segments[i]
	cover, snow = l.Site.Surface, l.Site.SnowOnLine
	if s.Surface != nil {
		cover = *s.Surface
	}
	if s.SnowOnLine != nil {
		snow = *s.SnowOnLine
	}
	return cover, snow
}

// Insulation is one layer around a pipe.
type Insulation struct {
	Thickness float64 // [m]
	Material  Material
}

// Setting is where a segment lies.
type Setting int

// Settings.
const (
	Indoor Setting = iota
	ThroughWall
	Sheltered
	OpenAir
	Buried
)

var settingNames = []string{"indoor", "through-wall", "sheltered", "open-air", "buried"}

// String gives the word used in layout.toml and in tables.
func (s Setting) String() string { return settingNames[s] }

// Liquid says how heat moves in liquid water.
type Liquid int

// Liquid models.
const (
	Mixed Liquid = iota // one temperature at any instant
	Still               // conduction only
)

// Standpipe is the loose joint between house pipe and buried line.
type Standpipe struct {
	After        int // index of the segment that ends in it
	Size         Size
	HousePipeEnd float64 // lowest point of the house pipe's open end above ground [m]
	Rim          float64 // top above ground [m]
	SlipTravel   float64 // movement that the joint can take [m]
	Painted      bool    // or otherwise kept from sunlight
	Line         int     // in layout.toml
}

// Relief is a freeze-relief opening.
type Relief struct {
	Segment         int     // index of the segment it sits on; -1: on the standpipe
	Height          float64 // bottom of the opening above ground [m]
	Width           float64 // [m]
	OpeningHeight   float64 // [m]
	FacesHouse      bool    // its water runs towards the house
	DistanceToHouse float64 // from the wall [m]
	SnowFactor      float64 // local over open-field snow depth [-]
	SpreadArea      float64 // of ground over which its water spreads and freezes [m²]; 0: not followed
}

// OutletKind is how the line ends.
type OutletKind int

// Outlet kinds.
const (
	Lid  OutletKind = iota // pop-up emitter on an elbow up from the line
	Open                   // to daylight
)

// String gives the word used in layout.toml.
func (k OutletKind) String() string { return [...]string{"lid", "open"}[k] }

// Outlet is the far end of the line.
type Outlet struct {
	Kind            OutletKind
	Level           *float64 // lid or invert above local ground [m]; nil: where the profile ends
	DistanceToHouse float64  // from the wall [m]
	LidOpeningHead  float64  // how far water has to stand above the lid to open it [m]; 0 for an open end
	SpreadArea      float64  // of ground over which its water spreads and freezes [m²]; 0: not followed
	Line            int      // in layout.toml
	Weep            *Slot    // nil: no weep slot
}

// Slot is the weep slot in the elbow under the lid.
type Slot struct {
	Height, Width float64 // [m]
}

// Pocket is the crushed rock under the weep slot.
type Pocket struct {
	Length, Width, Depth float64 // [m]
	Void                 float64 // share of its volume that water can fill [-]
}

// ExtraInflow is water other than the pump's that joins the line.
type ExtraInflow struct {
	Kind    string  // "roof", the only one so far
	Area    float64 // roof area [m²]
	Segment int     // index of the segment where it joins
}

// Cost holds money figures in the user's currency; used to compare layouts.
type Cost struct {
	Installed, ServiceCall, FloodedBasement float64
}
