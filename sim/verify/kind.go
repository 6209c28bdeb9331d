package verify

import (
	"slices"
	"strings"
)

// Kind says what a check puts to the test: only a Simulation marches time as a run does.
type Kind int

// Kinds of checks.
const (
	Relation   Kind = iota // a formula, or a few of them, evaluated for one row
	Simulation             // cells or ground columns marched through time by the solver that runs use
	Stored                 // a figure that the program holds: a size, a property, a default
	Reference              // a solution or formula that is held to compare with, and that no run uses
)

// String names the kind as people read it.
func (k Kind) String() string {
	return [...]string{"formula", "simulation", "stored", "yardstick"}[k]
}

// referenceChecks are checks of what no run uses: exact solutions of this package, and relations of sim/heat and sim/flow
// that the linker leaves out of a program without this package.
var referenceChecks = []string{
	"air-prandtl", "ashrae-cooling", "bare-loss", "berggren-", "buried-", "cloud-linear", "composite-manning",
	"constant-resistance-freezing", "critical-", "cylinder-", "emptying-time", "exact-", "filling-time", "film-forced", "film-forced-loss",
	"film-indoor-iso", "film-natural", "film-outdoor-iso", "film-step-temperature", "friction-swamee-jain", "frost-depth", "frost-depth-",
	"full-", "green-ampt-rate", "green-ampt-rate-front", "hazen-williams", "hazen-williams-", "ice-conductivity", "inward-", "iso-",
	"layered-", "line-sink-", "lumped-", "net-long-wave", "neumann-", "nusselt-dittus-boelter", "nusselt-forced", "nusselt-natural",
	"ponding-", "ring-after-slush", "ring-head-loss-hazen-williams", "side-hole-flow", "sky-brutsaert", "sky-clark-", "sky-martin-berdahl",
	"snow-conductivity", "snow-conductivity-yen", "snow-resistance", "stefan-", "step-", "storm-drain-capacity", "textbook-", "three-zones-",
	"two-layer-loss", "velocity", "velocity-over-full", "water-conductivity", "water-prandtl", "weir-flow-contracted", "wire-interface",
}

// Checks whose kind is another than that of their table: of figures that the program holds, and of formulas.
var (
	storedChecks   = []string{"solver-", "sharp-orifice", "degree-day-factor", "melt-base", "rain-snow-limit", "segregation-potential", "frost-group"}
	relationChecks = []string{"johansen", "soil-latent-heat"}
)

// kindOf is the kind of a check in a table of a kind.
func kindOf(check string, table Kind) Kind {
	switch {
	case isOf(check, referenceChecks):
		return Reference
	case isOf(check, storedChecks):
		return Stored
	case isOf(check, relationChecks):
		return Relation
	}
	return table
}

// isOf says whether a check is one of names. A name that ends in a hyphen stands for all that begin so.
func isOf(check string, names []string) bool {
	return slices.ContainsFunc(names, func(name string) bool {
		return check == name || strings.HasSuffix(name, "-") && strings.HasPrefix(check, name)
	})
}
