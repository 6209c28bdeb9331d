package sim

import (
	"context"

	"winterline/weather"
)

// Felt is what a winter takes from its weather, row by row.
type Felt struct {
	Air, DewPoint, Wind, Sky, Snow []float64 // [°C], [°C], [m/s], [°C], [m]
	Density                        []float64 // of snow [kg/m³]
	Rain, Melt                     []float64 // off the first roof [m]
	Arriving                       []float64 // temperature of the water that arrives [°C]
	Stress, Lack                   []float64 // of the root zone
	Shift                          float64   // [K]
}

// FeltBy brings a case to its first row and reads off what it takes from the weather.
func FeltBy(k *Case) (*Felt, error) {
	w, err := ready(context.Background(), k, Settings{})
	if err != nil {
		return nil, err
	}
	f := &Felt{
		Air: w.sky.air, DewPoint: w.sky.dew, Wind: w.sky.wind, Sky: w.sky.temp, Snow: w.sky.snow, Density: w.sky.pack.Density, Shift: k.Shift,
		Rain: w.roofs[0].rain, Melt: w.roofs[0].melt,
	}
	if e := w.ground.own().surface.energy; e != nil {
		f.Stress, f.Lack = e.water.stress, e.water.lack
	}
	for i := range len(w.sky.time) - 1 {
		w.sky.row = i
		f.Arriving = append(f.Arriving, w.arriving(w.sky.time[i]))
	}
	return f, nil
}

// ShiftedWeather is a record shifted [K].
func ShiftedWeather(s *weather.Series, by float64) *weather.Series { return shiftedWeather(s, by) }

// SkyRadiation is the long-wave radiation of the sky that is worked out where none is recorded [W/m²].
func SkyRadiation(s *weather.Series) []float64 { return skyRadiation(s) }
