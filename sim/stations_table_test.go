package sim_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"winterline/sim/verify"
)

// measuredTable is the table that README, the page of `verify --html` and these tests share.
const measuredTable = "verify/measured.csv"

const measuredHead = `# The ground's temperature computed beside that of thermometers, November to March, and the frost of one site; bias: computed less measured.
# air_rmse: of the best smoothed and lagged air temperature. most_*: limits, empty where a figure is shown only. why: of a missed limit.
# The records are not part of the program. TestStations computes every figure anew where they are; WINTERLINE_UPDATE=1 writes the table, keeping why.
`

// measuredSites names the runs as the table does.
var measuredSites = map[string]string{
	"Fargo below 5 cm": "clay", "Bondville": "field", "Bondville, thermometers moved": "field moved", "Bondville as grass": "field as grass",
	"Bad Lake": "prairie", "Bad Lake, depths of the file's header": "prairie at other depths", "Bad Lake without snow": "prairie without snow",
	"Drummondville E1": "plot 1", "Drummondville E2": "plot 2", "Drummondville E3": "plot 3",
}

// rows are the figures of a run: of every thermometer, unless the run shows what another assumption would have done, and
// of those that count together.
func (r *stationRun) rows() (all []verify.MeasuredRow) {
	site := measuredSites[r.name]
	if !strings.Contains(site, " ") || r.sensors != nil {
		for i, th := range r.thermometers {
			id := fmt.Sprintf("%s, %g cm", site, 100*th.depth)
			if r.sensors != nil {
				id += fmt.Sprintf(", thermometer %d", i+1)
			}
			row := misfitRow(id, site, misfitOf(th.readings), th.air.misfit(th.base, th.readings))
			row.Depth = 100 * th.depth
			if slices.Contains(r.limit.depths, th.depth) {
				row.MostBias, row.MostRMSE = limitOrNone(r.limit.bias), limitOrNone(r.limit.rmse)
			}
			all = append(all, row)
		}
	}
	m, base := r.total()
	row := misfitRow(site+", together", site, m, base)
	if r.limit.better > 0 {
		row.MostShare = 1 - r.limit.better
	}
	return append(all, row)
}

// limitOrNone is a limit, NaN where it is 0 and so none.
func limitOrNone(limit float64) float64 {
	if limit == 0 {
		return math.NaN()
	}
	return limit
}

func misfitRow(id, site string, m, base misfit) verify.MeasuredRow {
	none := math.NaN()
	return verify.MeasuredRow{ID: id, Site: site, Figure: "temperature", Depth: none, N: m.N, Measured: none, Computed: none,
		Bias: m.Bias, RMSE: m.RMSE, AirRMSE: base.RMSE, Unit: "K", MostBias: none, MostRMSE: none, MostShare: none}
}

// frostRow is a figure of one winter's frost.
func frostRow(figure string, winter int, measured, computed, bias float64, unit string, most float64) verify.MeasuredRow {
	none := math.NaN()
	return verify.MeasuredRow{ID: fmt.Sprintf("clay, %s, winter %d", figure, winter), Site: "clay", Figure: figure, Depth: none, Winter: winter,
		N: 1, Measured: measured, Computed: computed, Bias: bias, RMSE: none, AirRMSE: none, Unit: unit, MostBias: most, MostRMSE: none, MostShare: none}
}

// plotsRow is what the plots and winters come to on the mean.
func plotsRow(rmse, most float64) verify.MeasuredRow {
	row := misfitRow("plots, mean of plots and winters", "plots", misfit{}, misfit{})
	row.Bias, row.AirRMSE, row.RMSE, row.MostRMSE = math.NaN(), math.NaN(), rmse, most
	return row
}

// sameMeasured holds the embedded table to what was computed.
func sameMeasured(t *testing.T, rows []verify.MeasuredRow) {
	t.Helper()
	embedded, err := verify.Measured()
	if err != nil {
		t.Fatal(err)
	}
	if os.Getenv("WINTERLINE_UPDATE") != "" {
		writeMeasured(t, rows, embedded)
		return
	}
	if len(rows) != len(embedded) {
		t.Fatalf("%s has %d rows, computed were %d; set WINTERLINE_UPDATE=1 to write it anew", measuredTable, len(embedded), len(rows))
	}
	for i, want := range rows {
		want.Why = embedded[i].Why
		got, computed := measuredFields(embedded[i]), measuredFields(want)
		for k := range got {
			if !sameField(got[k], computed[k]) {
				t.Errorf("%s: %s has %q as %s, computed was %q", want.ID, measuredTable, got[k], measuredColumns[k], computed[k])
			}
		}
	}
}

// sameField says whether two fields are the same word, or numbers no farther apart than by one in the last digit, as by
// rounding on another machine.
func sameField(a, b string) bool {
	x, err1 := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	if err1 != nil || err2 != nil {
		return a == b
	}
	_, fraction, _ := strings.Cut(a, ".")
	return math.Abs(x-y) <= 1.01*math.Pow(10, -float64(len(fraction)))
}

func TestSameField(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{{"1.55", "1.56", true}, {"1.55", "1.57", false}, {"clay", "clay", true}, {"", "0", false}, {"-0.10", "-0.09", true}, {"453", "455", false}} {
		if sameField(c.a, c.b) != c.same {
			t.Errorf("%q and %q: want %v", c.a, c.b, c.same)
		}
	}
}

var measuredColumns = []string{"id", "site", "figure", "depth_cm", "winter", "n", "measured", "computed", "bias", "rmse", "air_rmse", "unit",
	"most_bias", "most_rmse", "most_share", "why"}

// measuredFields are a row's as the table prints them.
func measuredFields(m verify.MeasuredRow) []string {
	print := func(v float64, digits int) string {
		if math.IsNaN(v) {
			return ""
		}
		return strconv.FormatFloat(v, 'f', digits, 64)
	}
	count := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	digits := map[string]int{"K": 2, "cm": 1, "d": 0}[m.Unit]
	return []string{m.ID, m.Site, m.Figure, print(m.Depth, -1), count(m.Winter), count(m.N), print(m.Measured, digits), print(m.Computed, digits),
		print(m.Bias, digits), print(m.RMSE, digits), print(m.AirRMSE, digits), m.Unit, print(m.MostBias, -1), print(m.MostRMSE, -1), print(m.MostShare, -1), m.Why}
}

// writeMeasured writes the table anew, with the reasons that it has.
func writeMeasured(t *testing.T, rows, before []verify.MeasuredRow) {
	t.Helper()
	why := map[string]string{}
	for _, m := range before {
		why[m.ID] = m.Why
	}
	var out strings.Builder
	out.WriteString(measuredHead)
	w := csv.NewWriter(&out)
	lines := [][]string{measuredColumns}
	for _, m := range rows {
		m.Why = why[m.ID]
		lines = append(lines, measuredFields(m))
	}
	if err := w.WriteAll(lines); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(measuredTable, []byte(out.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
