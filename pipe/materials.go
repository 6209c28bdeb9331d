package pipe

import (
	"strings"

	"winterline/pipe/units"
)

// materials are the walls and insulations that a layout may name. The first name of each row is
// shown; the others are accepted. Figures marked (from memory) were not checked against the source.
var materials = []struct {
	names []string
	Material
}{
	{[]string{"PVC"}, Material{"PVC", 0.16, 1380, 1000, "CIBSE Guide A, table 3.36"}},
	{[]string{"cellular-core PVC", "foam-core PVC", "cellular core PVC", "foam core PVC"}, Material{"cellular-core PVC", 0.11, 900, 1000,
		"PVC of CIBSE Guide A scaled to the lower density of ASTM F891 pipe (from memory)"}},
	{[]string{"CPVC"}, Material{"CPVC", 0.137, 1550, 900, "handbook value (from memory)"}},
	{[]string{"ABS"}, Material{"ABS", 0.195, 1080, 1424, "Engineering ToolBox, thermoplastics, physical properties"}},
	{[]string{"HDPE", "PE", "polyethylene"}, Material{"HDPE", 0.46, 950, 2300, "Engineering ToolBox, thermoplastics, physical properties"}},
	{[]string{"copper"}, Material{"copper", 401, 8933, 385, "Incropera and DeWitt, table A.1 (from memory)"}},
	{[]string{"steel", "galvanized steel"}, Material{"steel", 60.5, 7854, 434, "Incropera and DeWitt, table A.1, plain carbon steel (from memory)"}},
	{[]string{"closed-cell foam", "closed cell foam", "elastomeric foam", "rubber foam", "nitrile foam"}, Material{"closed-cell foam", 0.035, 60, 1350,
		"elastomeric nitrile foam at 0 °C, between 0.033 at −20 °C and 0.037 at 20 °C: TIASA Thermal Insulation Handbook 2001; heat capacity from memory"}},
	{[]string{"polyethylene foam", "PE foam"}, Material{"polyethylene foam", 0.040, 30, 2300,
		"30 kg/m³, standard, at 0 °C: TIASA Thermal Insulation Handbook 2001; heat capacity as polyethylene"}},
	{[]string{"EPS", "expanded polystyrene"}, Material{"EPS", 0.033, 25, 1450, "TIASA Thermal Insulation Handbook 2001, 10 °C; heat capacity ISO 10456 (from memory)"}},
	{[]string{"XPS", "extruded polystyrene", "foam board"}, Material{"XPS", 0.028, 32, 1450, "TIASA Thermal Insulation Handbook 2001, 10 °C; heat capacity ISO 10456 (from memory)"}},
	{[]string{"polyurethane foam", "PU foam", "spray foam"}, Material{"polyurethane foam", 0.028, 35, 1400, "ISO 10456, rigid foam (from memory)"}},
	{[]string{"mineral wool", "rock wool"}, Material{"mineral wool", 0.037, 100, 1030, "ISO 10456 (from memory)"}},
	{[]string{"fiberglass", "glass wool", "fibreglass"}, Material{"fiberglass", 0.036, 50, 1030, "ISO 10456 (from memory)"}},
}

// FindMaterial looks a material up by name, without regard to case.
func FindMaterial(name string) (Material, bool) {
	for _, m := range materials {
		for _, n := range m.names {
			if strings.EqualFold(n, strings.TrimSpace(name)) {
				return m.Material, true
			}
		}
	}
	return Material{}, false
}

// materialNames lists the materials by their first name.
func materialNames() []string {
	var names []string
	for _, m := range materials {
		names = append(names, m.names[0])
	}
	return names
}

// Bounds of hand-written properties: from still gas to silver, from gas to lead, and beyond any
// solid or liquid's heat capacity.
var (
	conductivityLimit = limit{0.005, 500, "from 0.005 to 500 W/m/K"}
	densityLimit      = limit{0.5, 25_000, "from 0.5 to 25000 kg/m3"}
	capacityLimit     = limit{100, 10_000, "from 100 to 10000 J/kg/K"}
)

// material binds a name or an inline table of properties.
func (s *scope) material(name, byDefault string) (Material, bool) {
	n, st := s.get(name)
	const expected = `a material's name or { conductivity = "0.19 W/m/K", density = "1400 kg/m3", heat_capacity = "900 J/kg/K" }`
	switch {
	case st == faulty:
		return Material{}, false
	case st != given && byDefault != "":
		m, _ := FindMaterial(byDefault)
		s.guessWord(name, fallback{byDefault, "polyethylene foam", "XPS", noSource})
		return m, true
	case st != given:
		s.problem(name, "nothing", expected)
		return Material{}, false
	case n.kind == tableNode:
		return s.b.scope(n, s.key(name), "material").handMade()
	case n.kind == stringNode:
		if m, ok := FindMaterial(n.text); ok {
			return m, true
		}
		s.problem(name, describe(n)+", an unknown material", expected+nearestMaterial(n.text))
		return Material{}, false
	}
	s.problem(name, describe(n), expected)
	return Material{}, false
}

func nearestMaterial(name string) string {
	var all []string
	for _, m := range materials {
		all = append(all, m.names...)
	}
	if hint := suggest(name, all); hint != "" {
		return hint
	}
	return "; known: " + strings.Join(materialNames(), ", ")
}

func (s *scope) handMade() (Material, bool) {
	k, ok1 := s.required("conductivity", units.Conductivity, conductivityLimit)
	rho, ok2 := s.required("density", units.Density, densityLimit)
	c, ok3 := s.required("heat_capacity", units.SpecificHeat, capacityLimit)
	s.finish()
	return Material{Name: "by hand", Conductivity: k, Density: rho, HeatCapacity: c, Source: "layout"}, ok1 && ok2 && ok3
}
