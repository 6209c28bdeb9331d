package pipe

import "time"

// Cycle is one pump cycle: water that reached the basin and that the pump is asked to lift.
type Cycle struct {
	Start time.Time
	Run   float64 // [s]
	Flow  float64 // [m³/s]; 0: from the pump curve
}

// WaterPlan is the layout's [water] table, used when no pump or inflow file is given.
type WaterPlan struct {
	Every, For float64 // cycles = "every 6 h for 45 s" [s]; 0: not given
	Arrives    Arrival // arrives = "2 gal/h", of which a float makes cycles
	// Temperature of an unlimited supply, for a layout without a basin [°C]; nil: as in a basin.
	Temperature *float64
}

// InflowRow is water reaching the basin from its stamp to the next row's.
type InflowRow struct {
	Time   time.Time
	Inflow float64 // [m³/s]
}

// Span is a stretch of time, such as a power cut.
type Span struct{ Start, End time.Time }

// Seen is something that the owner remembers.
type Seen struct {
	Time time.Time
	What string // shut, relief, wet-floor, open
}
