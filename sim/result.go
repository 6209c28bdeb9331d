package sim

import (
	"time"

	"winterline/pipe"
)

// Result is one simulated winter. A line that froze is a result, not an error.
type Result struct {
	Name     string // of the case
	Title    string // of the layout
	Invented bool   // the built-in demonstration: an invented house
	Start    time.Time
	Layout   *pipe.Layout
	Profile  *pipe.Profile

	Verdict  Verdict
	Segments []SegmentResult // in flow order as in the layout, then standpipe and outlet riser where the line has them
	Events   []Event         // in time order
	Hourly   Hourly
	Ledger   Ledger
	Balance  Balance
	Stats    Stats
	Worst    Snapshot  // the line at the moment with most ice
	Moments  []Moment  // the line at other moments, by kind
	Warnings []Warning // what the reader of the result must know, in order of weight
	Cycles   []CycleRecord
	Ground   *GroundResult // under the site's own surface; nil: nothing is buried
	AirGap   *AirGap       // nil: no house pipe ends open in a standpipe
	Trapped  []Trapped     // water shut in by ice, in the order in which it was
	Closures []Closure     // with what brought each about, in the order in which they were found
	Draught  *Draught      // nil: the line has but one end open to the air
	Mounds   []Mound       // ice on the ground from water let go, at the outlet and then at the relief openings; those to which water came
	Movement *Movement     // by frost heave; nil: nothing is buried, or the class of the soil is not known
}

// State is the verdict in one word, mildest first.
type State int

// States of the verdict, in rising order of harm.
const (
	Clear        State = iota // no ice
	Iced                      // ice, never shut
	ShutRelieved              // line shut, relief carried it, floor dry
	Spilled                   // over the rim, or out of a relief that counts as beside the house
	Flooded                   // water on the basement floor
)

// String gives the word used in summary.json.
func (s State) String() string {
	return [...]string{"clear", "iced", "shut-relieved", "spilled", "flooded"}[s]
}

// Verdict sums up the winter. Times are seconds since the first weather row; a nil
// pointer means that it never happened.
type Verdict struct {
	State           State
	FirstIce        *float64
	Closed          *float64 // line first shut
	ClosedWhere     int      // index in Segments of what shut first; -1: none
	ClosedDistance  float64  // from the wall to where it first shut [m]
	ClosedByMound   bool     // it first shut by ice on the ground at its end, not by ice in it
	ClosedDendritic *float64 // when it would first shut if the water supercooled to −4 °C before freezing
	Reopened        *float64 // when the line opened for the last time; nil: still shut at the end, or never shut
	ShutFor         float64  // total time that the line was shut [s]
	Relief          *float64 // relief first ran
	Spill           *float64 // water first let go beside the house
	Floor           *float64 // floor first wet
	ReliefRuns      int      // cycles in which a relief opening ran
	SpillRuns       int      // cycles in which water went over the rim
	ReliefMargin    *float64 // least clearance of the lowest relief opening over the snow beside it [m]; nil: no relief, or no snow record
	HighestSnow     *float64 // deepest snow at the relief openings [m]
	// Narrowest is how far ice came on the way to shutting the line [-]: 0 with none in its way, 1 where it is about to
	// count as shut; as seen at weather rows.
	Narrowest float64
}

// SegmentResult is one row of segments.csv. Times in seconds since the first weather
// row; nil: never. Ice levels are shares of the standing water.
type SegmentResult struct {
	Name             string
	Setting          pipe.Setting
	Standing         float64 // greatest standing volume of water and ice [m³]
	LowestWater      float64 // lowest temperature of the water or ice [°C]; NaN: never held water
	FirstIce         *float64
	Ice10            *float64
	Ice50            *float64
	Ice90            *float64
	Closed           *float64
	HoursWithIce     float64 // [h]
	HoursClosed      float64 // [h]
	LargestIce       float64 // largest ice share of the standing water [-]
	HeatLost         float64 // heat given up through the outside over the record [J]
	HeatLostFirstIce float64 // the same up to first ice [J]
}

// EventKind says what happened.
type EventKind string

// Kinds of event, as written in events.csv.
const (
	EventFirstIce      EventKind = "first-ice"
	EventSlush         EventKind = "slush"
	EventClosed        EventKind = "closed"
	EventReopened      EventKind = "reopened"
	EventReliefRunning EventKind = "relief-running"
	EventReliefBuried  EventKind = "relief-buried"
	EventReliefStopped EventKind = "relief-stopped"
	EventReliefIced    EventKind = "relief-iced"
	EventLidFrozen     EventKind = "lid-frozen"
	EventRimSpill      EventKind = "rim-spill"
	EventRoofOver      EventKind = "roof-over"
	EventPocketFull    EventKind = "pocket-full"
	EventPocketFrozen  EventKind = "pocket-frozen"
	EventGapUsedUp     EventKind = "gap-used-up"
	EventSlipUsedUp    EventKind = "slip-used-up"
	EventTrappedWater  EventKind = "trapped-water"
	EventShortCycling  EventKind = "short-cycling"
	EventPumpNoFlow    EventKind = "pump-no-flow"
	EventBackupRunning EventKind = "backup-running"
	EventFloorWet      EventKind = "floor-wet"
)

// Event is something that happened at one place and instant.
type Event struct {
	Time    float64 // seconds since the first weather row
	Kind    EventKind
	Where   string   // segment name, "standpipe", "pocket", "basin", "ground at outlet" or "ground at relief 1"
	Value   *float64 // SI; nil: the event carries no number
	Unit    string   // SI unit of Value as the table writes it, such as "m" or "L" (the one non-SI unit, for volumes)
	Meaning string   // one plain sentence
}

// Hourly is what the result holds at each weather row; all slices have one value a row.
// Volumes by path are running totals [m³].
type Hourly struct {
	Time      []float64 // [s]
	Air       []float64 // [°C]
	Wind      []float64 // at the pipe [m/s]
	SnowDepth []float64 // on the line [m]; nil: no snow record
	Frost     []float64 // depth of the lowest frozen point of the undisturbed ground [m]; 0: none
	Basin     []float64 // water level above basin bottom [m]; nil: no basin
	Standpipe []float64 // water level above ground at the wall [m]; nil: no standpipe
	Pocket    []float64 // share of the pocket's void that is full [-]; nil: no pocket
	Draught   []float64 // speed of outdoor air drawn through the line, up to that row [m/s]; nil: the line has but one open end
	// Thickness of the ice on the ground from water let go [m]; of several relief openings the most.
	MoundOutlet []float64 // nil: no spread area is known
	MoundRelief []float64 // nil: no relief opening
	Outlet      []float64
	Relief      []float64
	Rim         []float64
	ToSoil      []float64
	Floor       []float64
	Segments    []SegmentHourly // as Result.Segments
}

// SegmentHourly is one segment at each weather row.
type SegmentHourly struct {
	Water []float64 // lowest temperature of the standing water or ice [°C]; NaN: no water
	Ice   []float64 // ice share of the standing water [-]
	Fill  []float64 // standing water and ice over bore volume [-]
}

// Mound is the ice that water let go made at one place on the ground. What it lost ran off or was
// drunk by the ground: Arrived less RanOff is what is left.
type Mound struct {
	Place           string  // "outlet", or "relief 1" and so on in the layout's order
	SpreadArea      float64 // [m²]
	Arrived, RanOff float64 // [m³]
	Thickest        float64 // ice [m]
	Mass            float64 // of that ice [kg]
	At              float64 // when that was [s]
	Hours           float64 // with ice [h]
	Left, LeftIce   float64 // at the end: ice and water, and the ice of it [kg]
}

// Ledger says where the water went over the whole record [m³]. Held volumes are the
// change from the first row to the last, water and ice together.
type Ledger struct {
	Arrived      float64 // reached the basin, or was drawn from an unlimited supply
	Pumped       float64 // left the basin through the pump
	Extra        float64 // joined the line from elsewhere
	Returned     float64 // of what was let go beside the house, came back to the basin; also counted where it left
	Backup       float64 // lifted by a backup pump through a line of its own
	Outlet       float64 // let go at the far end
	Relief       float64 // out of relief openings
	Rim          float64 // over the standpipe's rim, beside the house
	PocketToSoil float64 // drunk by the soil around the rock pit
	HeldLine     float64
	HeldPocket   float64
	HeldBasin    float64
	Floor        float64 // on the basement floor
	Error        float64 // in less out less held
}

// Balance holds both books' closing errors.
type Balance struct {
	WaterRelative  float64 // closing error over what was pumped or held [-]
	HeatRelative   float64 // closing error over the heat exchanged [-]
	HeatExchanged  float64 // sum of all heat that crossed a boundary, either way [J]
	NewtonResidual float64 // largest accepted residual of an implicit step, in K of the node it stood in
	Terms          []HeatTerm
}

// HeatTerm is one entry of the heat book [J], in and out apart.
type HeatTerm struct {
	Name    string
	In, Out float64
}

// Stats counts the work done.
type Stats struct {
	Cells, Nodes, Cycles, Steps, Rejected, Newton int
}

// Snapshot is the line at one instant, for the profile chart.
type Snapshot struct {
	Time  float64 // seconds since the first weather row
	Frost float64 // frost depth of the undisturbed ground [m]
	Snow  float64 // depth on the line [m]
	Cells []CellState
}

// CellState is one cell of a snapshot.
type CellState struct {
	Segment     int
	X0, X1      float64 // distance from the wall at its ends [m]
	Z0, Z1      float64 // invert level at its ends [m]
	Bore        float64 // [m]
	Fill        float64 // standing water and ice over bore volume [-]
	Ice         float64 // ice share of that [-]
	Temperature float64 // lowest of its water or ice [°C]; NaN: no water
	Closed      bool
	Vertical    bool // standpipe, elbow or riser to the lid
}

// Warning is a sentence that belongs beside the verdict.
type Warning struct {
	Kind     string // stable word, such as "no-snow-record"
	Sentence string
}

// CycleRecord is what became of the water of one pump cycle.
type CycleRecord struct {
	Time    float64 // when the pump started, seconds since the first weather row
	Volume  float64 // that the pump was to lift [m³]
	Outlet  float64 // of that, left at the far end [m³]
	Relief  float64 // out of relief openings [m³]
	Rim     float64 // over the standpipe's rim [m³]
	Refused float64 // not pumped: the line did not take it, or the next cycle came too soon [m³]
	Run     float64 // time the pump ran [s]
	Level   float64 // highest level in the standpipe above ground at the wall [m]; NaN: no standpipe
}
