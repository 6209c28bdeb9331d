package report

// The words of the evidence page: what was checked, by subject, against what, and what that does not show.

// evidenceTale is a subject of the evidence page: its tables of checks and what is to be said of them.
type evidenceTale struct {
	id, name string
	topics   []string
	words    string
}

// evidenceTales are the subjects in the order of the page. Every table of sim/verify belongs to one of them.
var evidenceTales = []evidenceTale{
	{"properties", "Water, ice and air", []string{"water", "air"},
		"Density, heat, conductivity and viscosity of water and ice, heat of fusion, melting under pressure, and the same of air. " +
			"Water and ice are held against the formulations of the water industry's international association, as an open library evaluates them, air against a reference equation and a textbook table. " +
			"The rows that begin with solver are the constants that a run uses at every temperature."},
	{"films", "Films of wind, still air and flow in a pipe", []string{"film", "inside"},
		"How readily a pipe gives heat to wind and still air, and water to its pipe. The correlations were evaluated apart, and textbook examples worked again. " +
			"Correlations of this kind scatter by 10 to 30 % about measurements (textbook lore, from memory): evaluating them exactly does not make them truer. For pipes in the open this matters most."},
	{"sky", "Sky", []string{"sky"},
		"How cold the sky is that a pipe or the ground sees, clear or clouded, by several published formulas. They differ from each other by more than any row here from its source."},
	{"conduction", "Conduction through walls, foam and ground", []string{"conduction"},
		"Shape factors of a buried pipe, the field around it, layers of wall and foam in series, the critical radius. Exact solutions of steady conduction, evaluated apart, and textbook examples."},
	{"pipes", "Pipe sizes and sections", []string{"pipe", "section"},
		"Diameters, walls, materials and roughness that the program holds are set beside published tables, and areas and wetted perimeters of part-full pipes beside geometry. A size that is held wrong would be found here; a pipe that is not what its print says would not."},
	{"soil", "Soil", []string{"soil"},
		"Conductivity of moist soil, frozen or not, by the method that most programs use, with its coefficients from memory; porosity and moisture of the texture classes as published. " +
			"A class is an average: two soils of one class can differ by a quarter or more in conductivity (common knowledge, no source). The soil of a real yard is by far the larger doubt."},
	{"snow", "Snow", []string{"snow", "snowpack"},
		"Conductivity, density, settling and melting of snow by published formulas, evaluated apart. How much snow lies on a given line, no formula knows."},
	{"ground", "Ground and frost depth in closed form", []string{"ground"},
		"Yearly waves, and the classical formulas of frost depth, against their published examples and evaluations apart. A run does not use these formulas: it marches a column of ground, which is held against them and better solutions below."},
	{"cooling", "Cooling and freezing times in closed form", []string{"cooling", "slush"},
		"How long a full pipe takes to cool and to freeze by the formulas of handbooks and standards, the exact cooling of a cylinder, and how much slush supercooled water makes. A run marches its pipes through time and does not use the times."},
	{"front", "Freezing fronts: exact solutions", []string{"front", "three_zones"},
		"Exact solutions of freezing in a half-space, around a line and in a pipe, and freezing over a range of temperatures. These check the yardsticks with which the simulation is measured further below, not the simulation."},
	{"friction", "Friction and pumping", []string{"friction"},
		"Friction factors and heads, fittings, and the flow at which a pump and a line agree. Formulas evaluated apart, and a table of a plumbing code."},
	{"gravity", "Flow by gravity", []string{"gravity"},
		"Part-full pipes: discharge, velocity and depth by Manning's formula, evaluated apart, beside tables of plumbing codes. How rough a buried pipe is after years is an input, with a guess of its own."},
	{"openings", "Openings, weirs and rims", []string{"opening"},
		"What a relief opening, a weep hole, a rim and a standpipe let out at a head, and the level at which a blocked outlet holds. Textbook formulas, a measured sharp-edged orifice, and balances solved apart. Ice or leaves in an opening are not in any of them."},
	{"infiltration", "Water that soaks away", []string{"infiltration"},
		"How fast water goes into soil and out of a rock pit, by published formulas and worked examples. How much less frozen ground takes is one exponent, from memory."},
	{"blockage", "A pipe narrowed by ice", []string{"blockage"},
		"What a ring of ice leaves of a pipe's area and capacity, and the flow of a pump against it. Formulas evaluated apart; real ice lies unevenly, which these do not know."},
	{"heave", "Frost heave", []string{"heave"},
		"How far freezing ground lifts, by volume and by what it draws up, and the frost groups of soils. The potentials of soils are typical ranges, most of them from memory: a movement is good to a factor of two at best (judgement, no source)."},
	{"sump", "Sump and pump cycles", []string{"sump"},
		"Volumes between floats, running and resting times, the air gap. Plain balances, worked out apart."},
	{"defaults", "Defaults", []string{"default"},
		"Usual values that are taken for what a layout does not tell. The check is that the program holds the value that its table gives, so an error of 0 says nothing of your house. Where the source says common practice or design assumption, there is no other source."},
	{"chance", "Chance and return periods", []string{"chance"},
		"Moments, extreme-value laws and ranges of counted shares against other statistical software and textbook fits."},
	{"cells", "The simulation: a pipe freezing", []string{"radial_freeze", "inward_cylinder"},
		"A full pipe in steady or swinging cold, marched by the solver that runs use, against independent solvers of much finer division: when the first ice comes, when 10, 50, 90 and 99.9 % is ice, and the heat given off by then. " +
			"The other solvers work the same equations, one bore, water at rest: they show that the solving is right."},
	{"columns", "The simulation: ground freezing and thawing", []string{"ground_column", "column_season", "column_step", "column_wave"},
		"Ground columns, marched as in a run, against an independent solver, against exact freezing, thawing and yearly waves, and against the classical formulas of frost depth, in columns that neglect what those formulas neglect. " +
			"Rows whose names end in exact hold the exact solutions themselves and not the column."},
	{"line", "The simulation: a reference line of twelve cells", []string{"reference_line"},
		"Twelve pipes in foam through a winter of 3,600 hours, filled anew every twelve hours, against an independent solver: heat lost, most ice, hours with ice, first ice."},
}

// trustMeanings say what each trust class is, in the order of the page.
var trustMeanings = []pageFact{
	{"read", "The expected figure stands in a source that was opened, sometimes in a copy or an excerpt of it."},
	{"computed", "The expected figure was worked out outside this program: from an exact solution, from a published formula, or by an independent solver. " +
		"It shows that the program computes what is meant, not that what is meant is right for a pipe in a yard."},
	{"from memory", "The figure, or a coefficient of its formula, was written down from memory, or is a choice without any source. Confirm it before you quote it."},
}

// kindMeanings say what a check puts to the test, by the name of its verify.Kind.
var kindMeanings = []pageFact{
	{"simulation", "The solver that every run uses marches pipes or ground through time."},
	{"formula", "One formula, or a few together, as a run evaluates them or as they are built from such parts."},
	{"stored", "A size, a property or a default that the program holds."},
	{"yardstick", "An exact solution or a formula that no run uses, held to compare with. These checks show that the yardsticks are right."},
}

// measuredSites say what each site of the comparison with thermometers is; no place is named.
var measuredSites = []struct{ site, name, words string }{
	{"clay", "Clay", "Fourteen thermometers from 5 cm to 2.25 m in heavy clay of a cold plain, hourly, four winters. The thermometer at 5 cm drives the computed ground, so this tests the soil and its freezing, not what lies on it. Source: an agricultural weather network."},
	{"field", "Field", "Six thermometers from 2 to 64 cm under a cropped field, silt loam, taken as bare, every half-hour, the cold months of one mild year, until the thermometers moved. Snow is worked out from precipitation. Source: a flux site of a national weather agency."},
	{"prairie", "Prairie", "Seven thermometers in a prairie basin, clay loam under grass, once a day, four winters in whole or in part. Snow is worked out from precipitation. The record's header and the network's usual depths differ; the latter are taken, because at the former heat would have to pass through it more slowly than through any mineral soil. Source: a university's basin record."},
	{"plot", "Plots", "Thermometers at 7.5 cm in three plots of soil under grass, daily means, two winters. Snow depth was measured at a weather station elsewhere, the same for all plots. Source: a university's soil data, with a national weather service's station and reanalysis."},
}

// measuredNames name what was computed by other assumptions, or together.
var measuredNames = map[string]string{
	"clay": "Clay", "field": "Field", "prairie": "Prairie", "plot 1": "Plot 1", "plot 2": "Plot 2", "plot 3": "Plot 3", "plots": "Plots",
	"field moved": "Field, after the thermometers moved", "field as grass": "Field, taken as grass", "prairie at other depths": "Prairie, thermometers at the depths of the record's header",
	"prairie without snow": "Prairie, computed without snow",
}

// convergenceTales say what the cases of the convergence study are.
var convergenceTales = map[string]string{
	"reference line": "the twelve pipes in foam, through a winter of 3,600 hours",
	"buried cell":    "half a metre of shallow pipe that stands full, six weeks of frost",
	"ground columns": "three columns of ground, frost and temperatures at several days",
	"house":          "a line that sags under a cleared path, with a lid and a relief opening, two weeks",
}

// neverCompared is what no figure on the page stands for, with which way that errs.
var neverCompared = []pageFact{
	{"A discharge line through a real winter", "Nobody has published one. Which way the whole errs is not known; the parts above lean both ways."},
	{"Lids, mounds of ice, slush that shuts a line, snow and ice in a relief opening", "Rules of the program's own, from physics and common practice. No row above sets one of them beside a measurement. Which way they err is not known."},
	{"What was written into a layout", "No check can tell whether soil, moisture, depth of cover and pump runs are those of the house. That is most of the doubt in a verdict."},
}
