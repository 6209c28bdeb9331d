package pipe

// frontSuctions are the suction heads at the wetting front by texture class [m], for Green and Ampt's
// infiltration: Rawls, Brakensiek and Miller 1983, J. Hydraul. Eng. 109:62 (as tabulated in public
// documentation; sandy clay and silty clay from memory). They have no silt, which is given silt
// loam's; crushed rock draws nothing, and of peat nothing is known: both are left at none, the safe side.
var frontSuctions = map[string]float64{
	"sand":            0.0495,
	"loamy sand":      0.0613,
	"sandy loam":      0.1101,
	"loam":            0.0889,
	"silt loam":       0.1668,
	"silt":            0.1668,
	"sandy clay loam": 0.2185,
	"clay loam":       0.2088,
	"silty clay loam": 0.2730,
	"sandy clay":      0.2390,
	"silty clay":      0.2922,
	"clay":            0.3163,
}

// MoistureDeficit is the water by volume that the soil takes until its pores are full [-].
func (s Soil) MoistureDeficit() float64 {
	return max(0, s.Porosity-s.water())
}
