package sim

// track is the undisturbed ground at one depth through the record: its enthalpy at
// each weather row, joined linearly, and the law that gives its temperature. A buried
// cell takes both its outer temperature and the heat that its own soil gains from it, so
// that a cell which disturbs nothing reads the ground's temperature at all times.
type track struct {
	sky   *sky
	law   phase
	u     []float64 // [K], one a weather row
	depth float64   // [m]
	shown bool      // asked for by the reader of the result, not only by the line
}

// enthalpy at time t [K].
func (k *track) enthalpy(t float64) float64 { return k.between(k.sky.weight(t)) }

// between is enthalpy at a share of the sky's current interval [K].
func (k *track) between(w float64) float64 {
	i := k.sky.row
	return k.u[i] + w*(k.u[i+1]-k.u[i])
}

// temperature at time t [°C].
func (k *track) temperature(t float64) float64 { return k.law.temperature(k.enthalpy(t)) }

// temperatures are those at all weather rows [°C].
func (k *track) temperatures() []float64 {
	t := make([]float64, len(k.u))
	for i, u := range k.u {
		t[i] = k.law.temperature(u)
	}
	return t
}
