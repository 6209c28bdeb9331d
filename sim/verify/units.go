package verify

// US customary units in which some published tables are printed; such rows keep their
// printed figures and their evaluators convert.
const (
	inch           = 0.0254                                       // [m]
	foot           = 0.3048                                       // [m]
	gallon         = 3.785411784e-3                               // [m³]
	gallonPerMin   = gallon / 60                                  // [m³/s]
	pound          = 0.45359237                                   // [kg]
	britishThermal = 1055.05585262                                // [J], international table
	perHour        = 1.0 / 3600                                   // [1/s]
	day            = 86400.0                                      // [s]
	kelvinPerF     = 5.0 / 9                                      // [K]
	centimetre     = 0.01                                         // [m]
	btuHourFootF   = britishThermal * perHour / foot / kelvinPerF // thermal conductivity [W/(m K)]
	btuInHourFt2F  = btuHourFootF / 12                            // [W/(m K)]
)

// fahrenheit returns the temperature [°C] of f [°F].
func fahrenheit(f float64) float64 { return (f - 32) * kelvinPerF }
