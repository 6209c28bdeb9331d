package heat_test

import (
	"fmt"
	"math"

	"winterline/sim/heat"
)

// Cengel, Heat and Mass Transfer, example 7-5: a steam pipe of 10 cm at 110 °C crossed by
// air of 10 °C at 8 m/s; the book reads k 0.02808 W/(m K), ν 1.896e-5 m²/s, Pr 0.7202 from
// its table and prints Nu = 124, h = 34.8 W/(m² K) with the rounded Nusselt number.
func ExampleNusseltForced() {
	re := 8 * 0.1 / 1.896e-5
	nu := heat.NusseltForced(re, 0.7202)
	fmt.Printf("Nu = %.0f, h = %.1f W/(m² K)\n", nu, math.Round(nu)*0.02808/0.1)
	// Output: Nu = 124, h = 34.8 W/(m² K)
}

// Cengel, Heat and Mass Transfer, example 9-1: a hot-water pipe of 8 cm and 6 m at 70 °C in
// still air of 20 °C; the book prints Ra = 1.869e6, Nu = 17.40, h = 5.869 W/(m² K) and 443 W.
func ExampleNusseltNatural() {
	ra := heat.Rayleigh(0.08, 50, 45, 1.749e-5, 0.7241)
	nu := heat.NusseltNatural(ra, 0.7241)
	h := nu * 0.02699 / 0.08
	fmt.Printf("Nu = %.1f, h = %.2f W/(m² K), Q = %.0f W\n", nu, h, h*math.Pi*0.08*6*50)
	// Output: Nu = 17.4, h = 5.87 W/(m² K), Q = 443 W
}

// Cengel, Heat and Mass Transfer, example 7-5 again, with this package's own air: the book
// prints 34.8 W/(m² K) with air that conducts 2.4 % less at 60 °C than the reference
// equation of Lemmon & Jacobsen 2004.
func ExampleFilmForced() {
	fmt.Printf("%.0f W/(m² K)\n", heat.FilmForced(10, 110, 0.1, 8))
	// Output: 35 W/(m² K)
}

// Holman, Heat Transfer, example 3-1: a pipe of 15 cm and 4 m at 75 °C whose axis lies 20 cm
// under ground of 5 °C and 0.8 W/(m K); the book prints S = 15.35 m and 859.6 W.
func ExampleBuriedShapeFactor() {
	s := heat.BuriedShapeFactor(0.15, 0.20) * 4
	fmt.Printf("S = %.2f m, q = %.1f W\n", s, math.Round(s*100)/100*0.8*70)
	// Output: S = 15.35 m, q = 859.6 W
}

// Holman, Heat Transfer, example 2-5: asbestos of 0.17 W/(m K) under 3 W/(m² K) on a pipe of
// 5 cm at 200 °C in a room of 20 °C; the book prints 5.67 cm and 105.7 W/m at that radius.
func ExampleCriticalRadius() {
	r := heat.CriticalRadius(0.17, 3)
	q := 180 / (heat.LayerResistance(0.025, r, 0.17) + heat.FilmResistance(2*r, 3))
	fmt.Printf("r = %.2f cm, q = %.1f W/m\n", 100*r, q)
	// Output: r = 5.67 cm, q = 105.7 W/m
}

// EnergyPlus Engineering Reference, Sky Radiation Modeling: air at 293 K, dew point 283 K,
// clear; it prints an emissivity of 0.815 with 273 K as the ice point.
func ExampleSkyClarkAllen() {
	fmt.Printf("%.3f\n", heat.SkyClarkAllen(283.15-heat.Kelvin))
	// Output: 0.815
}

// ASHRAE Handbook Fundamentals, time to cool standing water from 42 °F to freezing at
// −18 °F in a 2 in schedule 40 pipe under 1.5 in of insulation of 0.30 Btu in/(h ft² °F), as
// quoted in an article on pipe freezing: 1.4 h.
func ExampleCoolingTime() {
	bore, insulated := 2.067*0.0254, 5.375*0.0254
	capacity := heat.WaterDensity * heat.LiquidHeat * math.Pi / 4 * bore * bore
	resistance := heat.LayerResistance(2.375*0.0254, insulated, 0.30*0.144228)
	t := heat.CoolingTime(capacity, resistance, 5.0/9*(42-32), 0, 5.0/9*(-18-32))
	fmt.Printf("%.1f h\n", t/3600)
	// Output: 1.4 h
}

// IAPWS R14-08(2011): the ice Ih melting curve passes 138.268 MPa at 260 K.
func ExampleMeltingPressure() {
	fmt.Printf("%.3f MPa\n", heat.MeltingPressure(260-heat.Kelvin)/1e6)
	// Output: 138.268 MPa
}
