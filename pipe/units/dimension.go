package units

// Dimension says what kind of quantity a key or column holds. It decides which
// unit names are accepted and into which SI unit they convert.
type Dimension int

// The dimensions that layouts, weather and schedules use, each with its SI unit.
const (
	Length                Dimension = iota // m
	Area                                   // m²
	Volume                                 // m³
	Duration                               // s
	Speed                                  // m/s
	Flow                                   // m³/s
	Temperature                            // °C
	TemperatureDifference                  // K; "18 degF" of difference is 10 K
	Fraction                               // 1; "24 %" is 0.24, a bare number is allowed
	Slope                                  // 1; "1/8 in/ft" and "2 %" alike
	Conductivity                           // W/(m K)
	Density                                // kg/m³
	SpecificHeat                           // J/(kg K)
	VolumetricHeat                         // J/(m³ K)
	VolumetricLatent                       // J/m³
	FilmCoefficient                        // W/(m² K)
	ThermalResistance                      // m² K/W
	HydraulicConductivity                  // m/s
)
