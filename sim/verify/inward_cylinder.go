package verify

// InwardCase is a full round pipe freezing inward from its wall, the liquid at 0 °C, with
// the sensible heat of the ice. Everything is dimensionless: a case with any radius,
// conductivity and capacity that gives these numbers must return the same time.
type InwardCase struct {
	ID     string
	Stefan float64 // heat capacity of the ice × difference to the outside / heat of fusion
	Biot   float64 // film·radius/conductivity of the ice; NaN: wall held at the outside temperature
	Front  float64 // radius reached over the pipe's; 0: frozen through
	Time   float64 // Stefan·diffusivity·time/radius²
	Limit  float64 // largest relative error of Time
	Trust  string
}

// InwardCases returns the cases in table order.
func InwardCases() []InwardCase {
	records := mustRead("inward_cylinder.csv")
	cases := make([]InwardCase, len(records))
	for i, r := range records {
		cases[i] = InwardCase{
			ID: r.text("id"), Trust: r.text("trust"),
			Stefan: r.number("stefan"),
			Biot:   r.number("biot"),
			Front:  r.number("front_over_radius"),
			Time:   r.number("time"),
			Limit:  r.number("tol_rel"),
		}
	}
	mustHold(records)
	return cases
}
