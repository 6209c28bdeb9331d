package verify

import "math"

// MeasuredRow is a figure of the ground that was computed from a record of weather, beside what thermometers in that
// ground showed. The records are not part of the program: the figures stand in measured.csv, and the tests of sim
// compute each of them afresh where the records are.
type MeasuredRow struct {
	ID, Site           string
	Figure             string  // "temperature", or what the site's rows of one winter are of
	Depth              float64 // of the thermometer [cm]; NaN: several together
	Winter             int     // in the record's order; 0: all of them
	N                  int     // readings that were compared
	Measured, Computed float64 // [Unit]; NaN where only the difference says anything
	Bias               float64 // mean of computed less measured [Unit]
	RMSE               float64 // root mean square of the same [Unit]; NaN for a single figure
	AirRMSE            float64 // that of the best guess from the air's temperature alone [Unit]
	Unit               string
	MostBias, MostRMSE float64 // limits of the size of Bias and of RMSE [Unit]; NaN: shown only
	MostShare          float64 // limit of RMSE over AirRMSE [-]; NaN: none
	Why                string  // why a limit is missed, as far as the record tells; "" where none is
}

// Limited reports whether the row has a limit to keep.
func (m MeasuredRow) Limited() bool {
	return !math.IsNaN(m.MostBias) || !math.IsNaN(m.MostRMSE) || !math.IsNaN(m.MostShare)
}

// Missed reports whether a limit of the row is not kept. No limit is none that can be missed: comparing with NaN is false.
func (m MeasuredRow) Missed() bool {
	return math.Abs(m.Bias) > m.MostBias || m.RMSE > m.MostRMSE || m.RMSE/m.AirRMSE > m.MostShare
}

// Measured gives the comparison with measured ground, in the order of its table. An error says that the table is not
// what it should be.
func Measured() ([]MeasuredRow, error) {
	records, err := readTable("measured.csv")
	if err != nil {
		return nil, err
	}
	var rows []MeasuredRow
	for _, r := range records {
		rows = append(rows, MeasuredRow{
			ID: r.text("id"), Site: r.text("site"), Figure: r.text("figure"), Depth: r.number("depth_cm"),
			Winter: r.whole("winter"), N: r.whole("n"), Measured: r.number("measured"), Computed: r.number("computed"),
			Bias: r.number("bias"), RMSE: r.number("rmse"), AirRMSE: r.number("air_rmse"), Unit: r.text("unit"),
			MostBias: r.number("most_bias"), MostRMSE: r.number("most_rmse"), MostShare: r.number("most_share"), Why: r.text("why"),
		})
		if r.err != nil {
			return nil, r.err
		}
	}
	return rows, nil
}

// whole returns the whole number in the named column; 0 if the field is empty.
func (r *record) whole(column string) int {
	v := r.number(column)
	if math.IsNaN(v) {
		return 0
	}
	return int(v)
}
