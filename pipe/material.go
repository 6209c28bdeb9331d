package pipe

// Material is what a wall or an insulation layer is made of.
type Material struct {
	Name         string
	Conductivity float64 // [W/(m K)]
	Density      float64 // [kg/m³]
	HeatCapacity float64 // [J/(kg K)]
	Source       string
}

// Size is a pipe's cross-section and wall.
type Size struct {
	Name            string  // as written, such as "4 in D3034"
	OutsideDiameter float64 // [m]
	Wall            float64 // [m]
	Material        Material
	Roughness       float64 // absolute roughness of the bore [m]
	Manning         float64 // Manning's n [s/m^(1/3)]
	ValleyShare     float64 // corrugated pipe: volume of the valleys below the spill line over bore volume [-]; 0 for smooth
	Source          string
}

// Bore returns the inside diameter [m].
func (s Size) Bore() float64 { return s.OutsideDiameter - 2*s.Wall }

// Soil holds the thermal and hydraulic properties of a soil at its moisture.
type Soil struct {
	Texture               string
	ConductivityUnfrozen  float64 // [W/(m K)]
	ConductivityFrozen    float64 // [W/(m K)]
	HeatCapacityUnfrozen  float64 // volumetric [J/(m³ K)]
	HeatCapacityFrozen    float64 // volumetric [J/(m³ K)]
	Latent                float64 // pore water's heat of fusion [J/m³]
	Freezing              FreezingCurve
	SaturatedConductivity float64 // hydraulic [m/s]
	FrontSuction          float64 // at a wetting front [m of water]
	Porosity              float64 // [-]
	DryDensity            float64 // [kg/m³]
	Moisture              float64 // water over dry soil by weight [-]
	Supposed              bool    // its moisture was not written
	Drained               bool    // SaturatedConductivity was written
	AvailableWater        float64 // by volume, what plants can draw: field capacity less wilting point [-]
	Source                string
}
