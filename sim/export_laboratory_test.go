package sim

// What only the tests ask of single parts.

// Start sets its temperatures [°C] by depth [m].
func (c *SoilColumn) Start(at func(depth float64) float64) { c.setTemperatures(at) }

// Lip is the lowest way out that is free of snow [m].
func (j *Joint) Lip(snow float64) float64 { return j.j.lip(snow) }
