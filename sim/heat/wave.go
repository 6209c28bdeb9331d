package heat

import "math"

// year is the length of the annual wave [s], 365 days.
const year = 365 * 86400.0

// DampingDepth returns the depth [m] at which a wave of the given period [s] has faded to
// 1/e in ground of the given diffusivity [m²/s].
func DampingDepth(diffusivity, period float64) float64 {
	return math.Sqrt(diffusivity * period / math.Pi)
}

// AnnualWave returns the temperature [°C] of ground without phase change at the given depth
// [m] and time [s]. Its surface has the given mean [°C], swings by as much to either side (swing [K]), and is
// coldest at the time coldest [s].
//
// Source: Kusuda & Achenbach 1965, NBS Report 8972.
func AnnualWave(depth, time, mean, swing, coldest, diffusivity float64) float64 {
	x := depth / DampingDepth(diffusivity, year)
	return mean - swing*math.Exp(-x)*math.Cos(2*math.Pi*(time-coldest)/year-x)
}
