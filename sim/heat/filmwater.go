package heat

// filmWater holds what the film in a pipe needs to know of water. It depends on the temperature alone.
type filmWater struct {
	conductivity float64 // [W/(m K)]
	perViscosity float64 // 1 over the kinematic viscosity [s/m²]
	prandtl      float64 // [-]
}

// filmWaterOf computes it at t [°C].
func filmWaterOf(t float64) filmWater {
	viscosity, conductivity := waterTransport(t)
	return filmWater{conductivity, WaterDensityAt(t) / viscosity, viscosity * WaterHeatCapacityAt(t) / conductivity}
}

// Between 0 and 40 °C filmWater is read from a table like that of filmAir, for the same reason and with a relative
// error below 1e-11.
const (
	waterTableTo = 40.0 // [°C]
	waterStep    = 0.25 // [K]
	waterPieces  = int(waterTableTo / (waterStep * filmOrder))
)

// waterPiece holds the j-th forward differences over j factorial.
type waterPiece [filmOrder + 1]filmWater

var waterTable = newWaterTable()

func newWaterTable() (table [waterPieces]waterPiece) {
	for i := range table {
		p := &table[i]
		for j := range p {
			p[j] = filmWaterOf(waterStep * float64(i*filmOrder+j))
		}
		forwardDifferences(p[:])
	}
	return table
}

// less is (a − b)/n.
func (a filmWater) less(b filmWater, n float64) filmWater {
	return filmWater{(a.conductivity - b.conductivity) / n, (a.perViscosity - b.perViscosity) / n, (a.prandtl - b.prandtl) / n}
}

// filmWaterAt is filmWaterOf by the table where that reaches.
func filmWaterAt(t float64) filmWater {
	if !(t >= 0 && t < waterTableTo) {
		return filmWaterOf(t)
	}
	u := t / waterStep
	i := int(u / filmOrder)
	p := &waterTable[i]
	u -= float64(i * filmOrder)
	a := p[filmOrder]
	for j := filmOrder - 1; j >= 0; j-- {
		x := u - float64(j)
		a.conductivity = p[j].conductivity + x*a.conductivity
		a.perViscosity = p[j].perViscosity + x*a.perViscosity
		a.prandtl = p[j].prandtl + x*a.prandtl
	}
	return a
}

// FilmInside returns the film coefficient [W/(m² K)] between water at t [°C] that fills a
// pipe of bore d [m] and length [m] at speed [m/s] and its wall. Properties are those at t:
// over the few kelvin of a discharge line that costs less than the relation's own 10 %.
func FilmInside(t, d, length, speed float64) float64 {
	w := filmWaterAt(t)
	return nusseltInside(speed*d*w.perViscosity, w.prandtl, d/length) * w.conductivity / d
}
