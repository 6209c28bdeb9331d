package weather

import (
	"slices"
	"testing"
)

// Of two covers of cloud the opaque one is kept, unless the total one has more than twice as many values; an
// opaque one alone stays, as a total one does.
func TestKeepOpaque(t *testing.T) {
	for _, c := range []struct {
		opaque, total []float64
		want          []string
	}{
		{[]float64{0.1, none, 0.3}, []float64{0.2, 0.3, 0.3}, []string{"air", "opaque"}},
		{[]float64{0.1, none, none}, []float64{0.2, 0.3, 0.3}, []string{"air", "total"}},
		{[]float64{0.1, none, none}, nil, []string{"air", "opaque"}},
		{nil, []float64{0.2, 0.3, 0.3}, []string{"air", "total"}},
		{nil, nil, []string{"air"}},
	} {
		r := hourlyRecord(airTemperature, []int64{0, 1, 2}, -1, -2, -3)
		r.columns[0].name = "air"
		if c.total != nil {
			r.columns[r.addColumn(cloudCover, "total")].values = c.total
		}
		if c.opaque != nil {
			r.columns[r.addColumn(cloudCover, "opaque")].values = c.opaque
		}
		r.keepOpaque("opaque")
		var got []string
		for _, column := range r.columns {
			got = append(got, column.name)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v: kept %v", c, got)
		}
	}
}
