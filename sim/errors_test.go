package sim

import (
	"strings"
	"testing"

	"winterline/weather"
)

// A run that cannot be believed says which book is off, by how much, and what is borne.
func TestBookErrorSaysHowFarOff(t *testing.T) {
	w := &winter{}
	err := w.believe(&Result{Balance: Balance{WaterRelative: 2.5e-7}})
	if err == nil || err.Error() != "the water book does not close: relative error 2.5e-07, limit 1e-09" {
		t.Errorf("water: %v", err)
	}
	if err := w.believe(&Result{Balance: Balance{HeatRelative: 2e-9}}); err == nil || !strings.Contains(err.Error(), "heat book") {
		t.Errorf("heat: %v", err)
	}
	if err := w.believe(&Result{Balance: Balance{WaterRelative: 1e-9, HeatRelative: 1e-9}}); err != nil {
		t.Errorf("at the limit: %v", err)
	}
}

// Before a case is run its reader is told of a winter that never was, of what its readers doubted, and of the case's own notes.
func TestWarningsOfACase(t *testing.T) {
	k := &Case{
		Weather: &weather.Series{Source: "/far/away/w.csv", Typical: true, Design: []string{"ten-year return"}, Notes: []weather.Note{
			{File: "/far/away/w.csv", About: "wind", Text: "none for a week", Warning: true}, {File: "/far/away/w.csv", About: "clock", Text: "local"},
		}},
		Notes: []Warning{{"own", "The case's own."}},
	}
	var kinds []string
	for _, x := range k.Warnings() {
		kinds = append(kinds, x.Kind)
		if strings.Contains(x.Sentence, "/far/") {
			t.Errorf("%q names a place on the disk", x.Sentence)
		}
	}
	if got := strings.Join(kinds, " "); got != "typical-year design-snap weather-doubt own" {
		t.Errorf("warned of %s", got)
	}
}

// Cutting a column's edges keeps them, and puts the new ones evenly between.
func TestCutEdges(t *testing.T) {
	got := cut([]float64{0, 3, 9}, 3)
	want := []float64{0, 1, 2, 3, 5, 7, 9}
	if len(got) != len(want) {
		t.Fatalf("%v; want %v", got, want)
	}
	for i := range want {
		within(t, "edge [m]", got[i], want[i], 1e-12)
	}
}
