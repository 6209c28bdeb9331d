package report

import (
	"bytes"
	"encoding/json"
	"math"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"winterline/sim"
)

func groundSummary(t *testing.T, r *sim.GroundResult, p Provenance) map[string]any {
	t.Helper()
	var m map[string]any
	if err := json.Unmarshal(rendered(t, GroundSummaryFile(r, p)), &m); err != nil {
		t.Fatal(err)
	}
	return m
}

// All keys are there, with lists never null, also where nothing froze.
func TestGroundSummaryKeys(t *testing.T) {
	bare := mildWinter()
	bare.Guesses, bare.Profile = nil, nil
	for _, r := range []*sim.GroundResult{oneWinter(), fourYears(), bare} {
		m := groundSummary(t, r, Provenance{Version: "1.2", Inputs: map[string]string{"weather.csv": "ab"}})
		want := "balance case caution deepest_frost findings guesses inputs kind lowest measured schema seasons segments spin_up_years surface version warnings"
		if got := keys(t, m); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
		for _, name := range []string{"seasons", "segments", "lowest", "measured", "guesses", "findings", "warnings"} {
			if _, ok := m[name].([]any); !ok {
				t.Errorf("%s is %v, want a list", name, m[name])
			}
		}
		if m["schema"] != groundSchema || m["kind"] != "ground" || m["caution"] != groundCaution || m["version"] != "1.2" {
			t.Errorf("schema %v, kind %v, version %v", m["schema"], m["kind"], m["version"])
		}
		if got, want := keys(t, m["surface"]), "cover drive snow snow_on thermometer_depth_m"; got != want {
			t.Errorf("surface has %s, want %s", got, want)
		}
	}
	if m := groundSummary(t, bare, Provenance{}); m["deepest_frost"] != nil {
		t.Errorf("nothing froze, and deepest_frost is %v", m["deepest_frost"])
	}
}

func TestGroundSummaryFigures(t *testing.T) {
	r := oneWinter()
	r.Layout, r.Profile = buriedPipe(t)
	r.Seasons = []sim.FrostSeason{{From: 86400, To: 2 * 86400, Deepest: 0.79, DeepestAt: 1.5 * 86400, FreezingDays: 451.23}}
	r.Tracks = []sim.GroundTrack{{Depth: 0.1, Temp: []float64{1, -2.5, -2.5}}}
	r.Measured = []sim.MeasuredDepth{{Depth: 0.1, All: sim.Misfit{N: 3, Bias: -0.25, RMSE: 0.5},
		Winters: []sim.WinterMisfit{{Winter: 2026, Misfit: sim.Misfit{N: 2, Bias: -0.5, RMSE: 0.75}}}}}
	m := groundSummary(t, r, Provenance{})
	for name, want := range map[string]any{
		"deepest_frost": map[string]any{"depth_m": 0.79, "hour": 36.0, "time": "2025-10-02 12:00"},
		"seasons": []any{map[string]any{"winter": "2025-26", "from": map[string]any{"hour": 24.0, "time": "2025-10-02 00:00"},
			"to":      map[string]any{"hour": 48.0, "time": "2025-10-03 00:00"},
			"deepest": map[string]any{"depth_m": 0.79, "hour": 36.0, "time": "2025-10-02 12:00"}, "freezing_index_k_d": 451.2}},
		"segments": []any{map[string]any{"segment": "run", "top_m": 0.3, "bottom_m": 0.6, "frost": []any{}}},
		"lowest":   []any{map[string]any{"depth_m": 0.1, "temp_c": -2.5, "time": map[string]any{"hour": 1.0, "time": "2025-10-01 01:00"}}},
		"measured": []any{map[string]any{"depth_m": 0.1, "all": map[string]any{"n": 3.0, "bias_k": -0.25, "rmse_k": 0.5},
			"winters": []any{map[string]any{"winter": "2025-26", "n": 2.0, "bias_k": -0.5, "rmse_k": 0.75}}}},
		"balance": map[string]any{"heat_relative": 3.4e-13},
	} {
		if !reflect.DeepEqual(m[name], want) {
			t.Errorf("%s is\n%v, want\n%v", name, m[name], want)
		}
	}
}

func TestGroundSummaryHoldsNoNaN(t *testing.T) {
	r := oneWinter()
	nan := math.NaN()
	r.HeatRelative, r.Seasons[0].Deepest, r.Seasons[0].FreezingDays = nan, nan, nan
	r.Measured[0].All, r.Tracks[0].Temp = sim.Misfit{}, []float64{nan}
	var b bytes.Buffer
	if err := SummarizeGround(r, Provenance{}).Encode(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"heat_relative": null`, `"depth_m": null`, `"temp_c": null`, `"rmse_k": null`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in\n%s", want, b.String())
		}
	}
}

// A folder on the ground is ours: it may be replaced.
func TestGroundFolderIsOurs(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "ground")
	r := threeDays()
	files := []File{GroundTable(r), GroundSummaryFile(r, Provenance{})}
	for range 2 {
		if err := writeFolder(dir, files); err != nil {
			t.Fatal(err)
		}
	}
}
