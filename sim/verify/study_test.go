package verify

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"testing"

	"winterline/sim"
)

// The study's reference line is, at the default fineness, the one that the checks run: heat, ice, and when, cell by cell.
func TestStudyRunsTheReferenceLine(t *testing.T) {
	measures, err := lineMeasures(t.Context(), DefaultFineness)
	if err != nil {
		t.Fatal(err)
	}
	s := ReferenceWeather()
	line := LineCells(sim.NewOpenAir(s))
	if len(measures) != 4*len(line) {
		t.Fatalf("%d figures of %d cells", len(measures), len(line))
	}
	for i, c := range line {
		if err := c.winter(t.Context(), s.Time); err != nil {
			t.Fatal(err)
		}
		for k, want := range []float64{c.HeatLost(), c.largest, c.iceTime, c.first} {
			m := measures[4*i+k]
			if m.value != want && !(math.IsNaN(m.value) && math.IsNaN(want)) || m.part != c.Want.ID {
				t.Errorf("%s of %s: %g; the checks have %g", m.quantity, m.part, m.value, want)
			}
		}
	}
}

// The study's ground columns are, at the default fineness, near enough to the references for what people need to know, and
// soil that freezes along its curve is beside the sharp one.
func TestStudyRunsTheGroundReferences(t *testing.T) {
	measures, err := groundMeasures(t.Context(), DefaultFineness)
	if err != nil {
		t.Fatal(err)
	}
	columns, err := convergedColumns()
	if err != nil {
		t.Fatal(err)
	}
	at, sharp := 0, 0
	for _, c := range columns {
		for _, state := range c.States {
			frost := measures[at]
			if c.soil == c.layout().Site.Soil {
				sharp++
				if off := math.Abs(frost.value - state.Frost); off > math.Max(0.01, 0.02*state.Frost) {
					t.Errorf("%s: frost to %g m; the reference has %g", frost.part, frost.value, state.Frost)
				}
			} else if c.soil.Freezing.Exponent <= 0 {
				t.Errorf("%s freezes sharply", c.name)
			}
			at += 1 + len(GroundDepths)
		}
	}
	if at != len(measures) || sharp == 0 || sharp == at {
		t.Errorf("%d figures, told of %d; %d states of sharp freezing", len(measures), at, sharp)
	}
}

// What is printed as JSON: how many missed, null for what is no number, and why nothing was computed.
func TestJSON(t *testing.T) {
	var out bytes.Buffer
	if err := WriteJSON(&out, []Outcome{
		{ID: "A-1", Check: "a < b", Expected: 1, Computed: 1.5, Error: 0.5, Limit: 1, Unit: "m", Pass: true, Trust: "read", Source: "a book"},
		{ID: "A-2", Check: "c", Expected: 2, Computed: math.NaN(), Error: math.Inf(1), Unit: "m", Err: errors.New("no such thing")},
	}); err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(out.Bytes(), []byte(`\u003c`)) {
		t.Errorf("%s\nhas a sign escaped that needs not be", &out)
	}
	var page struct {
		Schema string
		Missed int
		Checks []struct {
			ID                        string
			Expected, Computed, Error *float64
			Pass                      bool
			Reason                    *string
		}
	}
	if err := json.Unmarshal(out.Bytes(), &page); err != nil {
		t.Fatal(err)
	}
	if page.Schema != "winterline.verify/1" || page.Missed != 1 || len(page.Checks) != 2 {
		t.Fatalf("%+v", page)
	}
	if one := page.Checks[0]; one.ID != "A-1" || *one.Expected != 1 || *one.Computed != 1.5 || *one.Error != 0.5 || !one.Pass || one.Reason != nil {
		t.Errorf("%+v", one)
	}
	if two := page.Checks[1]; two.Computed != nil || two.Error != nil || two.Pass || two.Reason == nil || *two.Reason != "no such thing" {
		t.Errorf("%+v", two)
	}
}

// The same of the study, which tells the finest figure.
func TestConvergenceJSON(t *testing.T) {
	never := math.NaN()
	rows := []ConvergenceRow{
		{Case: "house", Quantity: "closing", Part: "line", Unit: "h", Default: 70, Finer: [4]float64{70.2, 70.1, 70.1, 70.3}, Limit: 0.5, Pass: true},
		{Case: "house", Quantity: "opening", Unit: "h", Default: 90, Finer: [4]float64{90, 90, 90, never}, Limit: 0.5},
	}
	var out bytes.Buffer
	if err := WriteConvergenceJSON(&out, rows); err != nil {
		t.Fatal(err)
	}
	var page struct {
		Schema  string
		Missed  int
		Figures []struct {
			Case, Quantity, Part string
			Default, Finest      *float64
			Pass                 bool
		}
	}
	if err := json.Unmarshal(out.Bytes(), &page); err != nil {
		t.Fatal(err)
	}
	if page.Schema != "winterline.convergence/1" || page.Missed != 1 || len(page.Figures) != 2 {
		t.Fatalf("%+v", page)
	}
	if one := page.Figures[0]; one.Part != "line" || *one.Default != 70 || *one.Finest != 70.3 || !one.Pass {
		t.Errorf("%+v", one)
	}
	if two := page.Figures[1]; two.Finest != nil || *two.Default != 90 || two.Pass {
		t.Errorf("%+v", two)
	}
}
