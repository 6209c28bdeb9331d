package pipe

import "math"

// FreezingCurve says how the pore water of a soil freezes as it cools: at T ≤ Point the share
// (T/Point)^(−Exponent) of it is still liquid. The zero value freezes all of it at 0 °C.
type FreezingCurve struct {
	Point    float64 // temperature at which the pore water begins to freeze [°C], below 0
	Exponent float64 // [-]
}

// Liquid returns the share of the pore water that is liquid at a temperature [°C].
func (f FreezingCurve) Liquid(t float64) float64 {
	switch {
	case t >= f.Point:
		return 1
	case f.Exponent <= 0:
		return 0
	}
	return math.Pow(t/f.Point, -f.Exponent)
}

// The retention curve runs through the water at field capacity and at the wilting point, which
// stand for a suction of 33 and of 1500 kPa.
const (
	fieldSuction   = 33.0   // [kPa]
	wiltingSuction = 1500.0 // [kPa]
	// suctionPerKelvin of frost is density × heat of fusion / melting point, 1220 kPa/K
	// (Clapeyron's relation with the ice at normal pressure).
	suctionPerKelvin = waterDensity * fusionHeat / 273.15 / 1000 // [kPa/K]
)

// The freezing point is held between these [°C]: nearer to 0 suction is below 1.2 kPa, less than what lets
// air into most pores; lower, it is beyond four times the wilting point's, where the retention curve says little.
const (
	highestPoint = -0.001
	lowestPoint  = -5.0
)

// retention is the exponent 1/b of the retention curve [-].
func (t textureRow) retention() float64 {
	return math.Log(t.fieldCapacity/t.wilting) / math.Log(wiltingSuction/fieldSuction)
}

// freezing returns the freezing curve of the soil with its water by volume [-]. Dry soil has none.
//
// Ice forms in a pore when frost draws at the water as hard as drying does: suction ψ = ρ_w L |T|/T0
// (Koopmans and Miller 1966, with the ice pressure taken as 0). What stays liquid is therefore what drying
// would leave, θ = θ33 (ψ/33 kPa)^(−1/b) with b = ln(1500/33)/ln(θ33/θ1500) (Campbell 1974, in the two-point
// form of Saxton and Rawls 2006); all from memory. So the exponent is 1/b, and the soil begins to freeze
// where that water is all it has.
//
// Where nearly full pores would put the point above its range, it is held there and the exponent taken so
// that the wilting point's water is liquid at the wilting point's suction all the same. A soil so dry that
// the point would lie below its range begins to freeze at the range's end, along the same exponent.
func (t textureRow) freezing(water float64) FreezingCurve {
	if water <= 0 {
		return FreezingCurve{}
	}
	exponent := t.retention()
	suction := fieldSuction * math.Pow(water/t.fieldCapacity, -1/exponent)
	point := -suction / suctionPerKelvin
	if point > highestPoint {
		point = highestPoint
		exponent = math.Log(water/t.wilting) / math.Log(wiltingSuction/(-point*suctionPerKelvin))
	}
	return FreezingCurve{Point: max(point, lowestPoint), Exponent: exponent}
}
