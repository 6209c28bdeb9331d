package verify

import (
	"slices"
	"strings"
)

// checkColumns are those of every table of checks that are no inputs.
var checkColumns = []string{"id", "check", "expected", "unit", "tol_abs", "tol_rel", "source", "trust"}

// Columns that are inputs, of the tables whose rows hold several expected figures.
var (
	cellGiven = []string{"size", "outside_diameter_m", "wall_m", "foam_m", "film_w_m2_k", "start_c", "liquid", "air_mean_c", "air_swing_k",
		"air_period_h", "air_lead_h", "end_h"}
	inwardGiven = []string{"stefan", "biot", "front_over_radius"}
	columnGiven = []string{"conductivity_unfrozen_w_m_k", "conductivity_frozen_w_m_k", "capacity_unfrozen_j_m3_k", "capacity_frozen_j_m3_k",
		"latent_j_m3", "surface_resistance_m2_k_w", "air_mean_c", "annual_swing_k", "daily_swing_k"}
	lineGiven = []string{"outside_diameter_m", "wall_m", "foam_m"}
)

// givenByRow tells the inputs of each row of a table, by its id and by its case; columns nil: all but those of every table.
func givenByRow(records []*record, columns []string) map[string]string {
	given := map[string]string{}
	for _, r := range records {
		var words []string
		for _, name := range r.names {
			input := slices.Contains(columns, name) || columns == nil && !slices.Contains(checkColumns, name)
			if value := r.fields[name]; input && value != "" {
				words = append(words, name+"="+value)
			}
		}
		text := strings.Join(words, ", ")
		given[r.fields["id"]] = text
		if name := r.fields["case"]; name != "" {
			given[name] = text
		}
	}
	return given
}
