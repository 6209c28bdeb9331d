package report

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

func encoded(t *testing.T, r *sim.Result, p Provenance) map[string]any {
	t.Helper()
	var b bytes.Buffer
	if err := SummaryFile(r, p).Write(&b); err != nil {
		t.Fatal(err)
	}
	var m map[string]any
	if err := json.Unmarshal(b.Bytes(), &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func keys(t *testing.T, v any) string {
	t.Helper()
	m, ok := v.(map[string]any)
	if !ok {
		t.Fatalf("%v is no object", v)
	}
	var names []string
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	return strings.Join(names, " ")
}

// All keys are there in the mildest case, where nothing happened, and in the worst.
func TestSummaryKeys(t *testing.T) {
	for _, r := range []*sim.Result{plain(sim.Clear), plain(sim.Flooded), verificationCell()} {
		m := encoded(t, r, Provenance{})
		for name, want := range map[string]string{
			"verdict": "closed closed_dendritic first_ice floor relief spill state",
			"margin":  "dry_k open_k",
			"balance": "heat_relative water_relative",
			"stats":   "cells cycles newton newton_residual_k nodes rejected steps",

			"settings": "arrives cycles demonstration inflow layout pump weather zone_h",
		} {
			if got := keys(t, m[name]); got != want {
				t.Errorf("%s has %s, want %s", name, got, want)
			}
		}
		if got, want := keys(t, m), "air_gap balance case caution draught findings guesses inputs ledger margin mounds movement schema settings stats tables trapped_water verdict version warnings"; got != want {
			t.Errorf("got %s, want %s", got, want)
		}
		for _, name := range []string{"guesses", "findings", "warnings"} {
			if _, ok := m[name].([]any); !ok {
				t.Errorf("%s is %v, want a list", name, m[name])
			}
		}
		if m["caution"] != caution || m["schema"] != runSchema {
			t.Errorf("caution or schema missing")
		}
	}
}

func TestSummaryMoments(t *testing.T) {
	r := plain(sim.ShutRelieved)
	r.Verdict.Closed = ptr(1180.333333 * 3600)
	r.Verdict.Spill = nil
	verdict := encoded(t, r, Provenance{})["verdict"].(map[string]any)
	want := map[string]any{"hour": 1180.3333, "time": "2026-01-19 04:20"}
	if !reflect.DeepEqual(verdict["closed"], want) {
		t.Errorf("closed is %v, want %v", verdict["closed"], want)
	}
	if v, present := verdict["spill"]; !present || v != nil {
		t.Errorf("spill is %v (present: %v), want null", v, present)
	}
	if verdict["state"] != "shut-relieved" {
		t.Errorf("state is %v", verdict["state"])
	}
}

// NaN and -0 have no place in JSON that people read.
func TestSummaryNumbers(t *testing.T) {
	r := plain(sim.Clear)
	r.Balance.HeatRelative = math.NaN()
	r.Ledger.HeldLine = math.Copysign(0, -1)
	var b bytes.Buffer
	if err := Summarize(r, Provenance{}).Encode(&b); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"heat_relative": null`, `"held_line_l": 0,`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in\n%s", want, b.String())
		}
	}
}

func TestSummaryProvenance(t *testing.T) {
	r := plain(sim.Clear)
	r.Warnings = []sim.Warning{{Kind: "no-snow-record", Sentence: "No snow record & no pack."}}
	m := encoded(t, r, Provenance{
		Version:  "1.2",
		Inputs:   map[string]string{"weather.csv": "ab", "layout.toml": "cd"},
		Findings: []pipe.Finding{{Kind: "flat-run", Sentence: "The yard run falls less than 1/8 in a foot."}},
	})
	if m["version"] != "1.2" || m["case"] != "larkspur-hollow" {
		t.Errorf("version %v, case %v", m["version"], m["case"])
	}
	if got := m["warnings"].([]any)[0].(map[string]any)["sentence"]; got != "No snow record & no pack." {
		t.Errorf("warning is %v", got)
	}
	if finding := m["findings"].([]any)[0].(map[string]any); finding["kind"] != "flat-run" || m["inputs"].(map[string]any)["layout.toml"] != "cd" {
		t.Errorf("findings %v, inputs %v", m["findings"], m["inputs"])
	}
	guesses := m["guesses"].([]any)
	temperature, soil := guesses[2].(map[string]any), guesses[3].(map[string]any)
	if temperature["unit"] != "°C" || temperature["value"] != 8.0 || temperature["text"] != nil {
		t.Errorf("guess of a temperature: %v", temperature)
	}
	if soil["text"] != "loam" || soil["value"] != nil || soil["low"] != nil {
		t.Errorf("guess of a word: %v", soil)
	}
}
