package heat

// What the tests of package heat_test need of the inside.

var (
	NusseltInside       = nusseltInside
	VapourPressureSlope = vapourPressureSlope
	WaterTransport      = waterTransport
)

const Year = year
