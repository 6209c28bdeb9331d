package verify_test

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"

	"winterline/sim/verify"
)

func told(t *testing.T, rows []verify.ConvergenceRow, all bool) string {
	t.Helper()
	var out bytes.Buffer
	if err := verify.WriteConvergence(&out, rows, all); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// The buried cell is near enough by default; the house is not with a quarter of the nodes. What is
// finer does not depend on what is judged.
func TestConvergenceJudges(t *testing.T) {
	cell := verify.Converge(t.Context(), verify.DefaultFineness, nil, "buried cell")
	if text := told(t, cell, true); !verify.Converged(cell) || strings.Contains(text, "MISSED") || !strings.Contains(text, " 0 missed") {
		t.Errorf("buried cell:\n%s", text)
	}
	house := verify.Converge(t.Context(), verify.Fineness{Nodes: 0.25, Steps: 1}, nil, "house")
	text := told(t, house, false)
	for _, want := range []string{"MISSED closing (house, line)", "too coarsely for"} {
		if verify.Converged(house) || !strings.Contains(text, want) {
			t.Errorf("a quarter of the nodes: no %q in\n%s", want, text)
		}
	}
	coarse := verify.Converge(t.Context(), verify.Fineness{Nodes: 0.5, Steps: 1}, nil, "buried cell")
	for i := range cell {
		if coarse[i].Finer != cell[i].Finer && !math.IsNaN(cell[i].Finest()) {
			t.Errorf("%s: %v and %v", cell[i].Quantity, coarse[i].Finer, cell[i].Finer)
		}
	}
}

func TestConvergenceCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	rows := verify.Converge(ctx, verify.DefaultFineness, nil, "house")
	if verify.Converged(rows) || verify.Converged(nil) || !strings.Contains(told(t, rows, false), "nothing is shown") {
		t.Errorf("%+v", rows)
	}
}

// A figure that only one of two came to is as far off as can be; one that neither came to is not off.
func TestConvergenceNever(t *testing.T) {
	never := math.NaN()
	row := verify.ConvergenceRow{Case: "c", Quantity: "closing", Unit: "h", Default: 70, Finer: [4]float64{70, 70, 70, never}, Limit: 0.5}
	if !math.IsInf(row.Ratio(), 1) {
		t.Errorf("ratio %g", row.Ratio())
	}
	for _, want := range []string{"never", "only one of them", "MISSED closing (c)"} {
		if text := told(t, []verify.ConvergenceRow{row}, true); !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	row.Default = never
	if row.Ratio() != 0 {
		t.Errorf("ratio %g", row.Ratio())
	}
}

// Of several parts the one that uses most of its limit is told.
func TestConvergenceWorstPart(t *testing.T) {
	part := func(name string, value float64) verify.ConvergenceRow {
		return verify.ConvergenceRow{Case: "c", Quantity: "closing", Part: name, Unit: "h", Default: value, Finer: [4]float64{70, 70, 70, 70}, Limit: 0.5, Pass: true}
	}
	rows := []verify.ConvergenceRow{part("one", 70.1), part("two", 69.6), part("three", 70.2)}
	brief, whole := told(t, rows, false), told(t, rows, true)
	if strings.Contains(brief, "one") || !strings.Contains(brief, "two") || strings.Count(whole, "closing  ") != 3 {
		t.Errorf("%s\n%s", brief, whole)
	}
	if want := "more than 80 % of its limit"; !strings.Contains(brief, want) {
		t.Errorf("no %q in\n%s", want, brief)
	}
}
