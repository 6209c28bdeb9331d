package flow_test

import (
	"fmt"

	"winterline/sim/flow"
)

// Crane Technical Paper 410, worked problem 7.1: smooth plastic pipe at Re 100,600; printed
// friction factor 0.0179, read off a chart. Colebrook gives 0.0180.
func ExampleFrictionColebrook() {
	fmt.Printf("%.4f\n", flow.FrictionColebrook(100600, 0))
	// Output: 0.0180
}

// Illinois Administrative Code 77, part 906, appendix A, exhibit I: 5 gal/min through 100 ft
// of 1 in schedule 40 plastic pipe (bore 1.049 in, C 150) loses 1.52 ft.
func ExampleHeadLossHazenWilliams() {
	h := flow.HeadLossHazenWilliams(5*6.30902e-5, 1.049*0.0254, 100*0.3048, 150)
	fmt.Printf("%.2f ft\n", h/0.3048)
	// Output: 1.52 ft
}

// Chow 1959, Open-Channel Hydraulics: a circular pipe carries most at 0.938 of its bore,
// 1.076 times its full flow.
func ExampleDischarge() {
	most := flow.Discharge(0.1, 0.01, 0.009, flow.GreatestFill*0.1)
	fmt.Printf("%.3f\n", most/flow.FullDischarge(0.1, 0.01, 0.009))
	// Output: 1.076
}

// Chow, Maidment & Mays 1988, Applied Hydrology, example 4.3.1 (from memory): silt loam,
// K 0.65 cm/h, suction 16.7 cm, moisture deficit 0.34. After an hour 3.17 cm have entered and
// the rate is 1.81 cm/h; the book rounds the depth first.
func ExampleGreenAmpt() {
	const cm, hour = 0.01, 3600.0
	k, pull := 0.65*cm/hour, 16.7*cm*0.34
	fmt.Printf("%.2f cm, %.2f cm/h\n", flow.GreenAmpt(k, pull, hour)/cm, flow.GreenAmptRate(k, pull, 3.17*cm)/cm*hour)
	// Output: 3.17 cm, 1.81 cm/h
}
