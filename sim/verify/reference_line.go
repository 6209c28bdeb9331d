package verify

import "math"

// ReferenceCell is one of twelve independent cells of unit length, full of still water
// (conduction only) and wrapped in foam, over one winter of 3,600 h. Materials as in
// RadialCase.
type ReferenceCell struct {
	ID              string
	OutsideDiameter float64 // [m]
	Wall            float64 // [m]
	Foam            float64 // thickness [m]
	HeatLost        float64 // through the outer surface over the winter [J/m]
	LargestIce      float64 // [-]
	IceTime         float64 // with an ice share above ReferenceIce [s]
	FirstIce        float64 // when the ice share first passes ReferenceIce [s]; NaN: never
	Trust           string
}

// The reference winter.
const (
	ReferenceFilm        = 15.0          // at the foam's surface [W/(m² K)]
	ReferenceStart       = 9.0           // everything, at the start [°C]
	ReferenceRefill      = 9.0           // all water, at each refill; wall and foam stay [°C]
	ReferenceFirstRefill = 3.37 * 3600.0 // [s]
	ReferenceRefillEvery = 12 * 3600.0   // [s]
	ReferenceEnd         = 3600 * 3600.0 // [s]
	ReferenceIce         = 0.01          // ice share from which ice hours and first ice count [-]
)

// ReferenceAir returns the air temperature [°C] of the reference winter t seconds after
// its start: a sum of two cosines at whole hours, linear in between.
func ReferenceAir(t float64) float64 {
	at := func(hour float64) float64 {
		return -4 + 5*math.Cos(2*math.Pi*(hour-15)/24) + 10*math.Sin(2*math.Pi*hour/120)
	}
	hour, part := math.Modf(t / 3600)
	return at(hour)*(1-part) + at(hour+1)*part
}

// ReferenceLine returns the twelve cells in table order.
func ReferenceLine() []ReferenceCell {
	records := mustRead("reference_line.csv")
	cells := make([]ReferenceCell, len(records))
	for i, r := range records {
		cells[i] = ReferenceCell{
			ID: r.text("id"), Trust: r.text("trust"),
			OutsideDiameter: r.number("outside_diameter_m"),
			Wall:            r.number("wall_m"),
			Foam:            r.number("foam_m"),
			HeatLost:        r.number("heat_lost_j_m"),
			LargestIce:      r.number("largest_ice"),
			IceTime:         3600 * r.number("ice_h"),
			FirstIce:        3600 * r.number("first_ice_h"),
		}
	}
	mustHold(records)
	return cells
}
