package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
)

// RunSettings are what the command line said that the tables of a run depend on, for the run to be repeated. Files
// go by their names, without the folders they lay in. Null: not said.
type RunSettings struct {
	Demonstration bool     `json:"demonstration"` // the built-in house, no case of the user's
	Layout        *string  `json:"layout"`        // file instead of the case's own; likewise the three below
	Weather       *string  `json:"weather"`
	Pump          *string  `json:"pump"`
	Inflow        *string  `json:"inflow"`
	Cycles        *string  `json:"cycles"` // plan as typed
	Arrives       *string  `json:"arrives"`
	Zone          *float64 `json:"zone_h"` // local standard time less UTC, for weather in UTC
}

// RunRecord is what a summary.json says of the run that wrote it, as far as repeating it needs.
type RunRecord struct {
	Schema   string            `json:"schema"`
	Version  string            `json:"version"`
	Settings *RunSettings      `json:"settings"`
	Inputs   map[string]string `json:"inputs"` // SHA-256 [hex] by name
	Tables   map[string]string `json:"tables"`
}

// ReadRunRecord reads the summary.json of a run. Anything else is refused with found and expected, for a message.
func ReadRunRecord(text []byte) (r *RunRecord, found, expected string) {
	const ours = "a summary.json that winterline run has written"
	r = &RunRecord{}
	if err := json.NewDecoder(bytes.NewReader(text)).Decode(r); err != nil {
		return nil, "no summary that can be read", ours
	}
	switch {
	case r.Schema != runSchema && ownSchema(r.Schema):
		return nil, "the summary of another command", ours
	case r.Schema != runSchema:
		return nil, "no summary of winterline", ours
	case r.Settings == nil || len(r.Tables) == 0:
		return nil, "a summary of an earlier version, without settings and tables", ours + " that holds both"
	}
	s := r.Settings
	for _, name := range []*string{s.Layout, s.Weather, s.Pump, s.Inflow} {
		if name != nil && !plainName(*name) {
			return nil, fmt.Sprintf("the path %q in its settings", *name), "names of files alone"
		}
	}
	return r, "", ""
}

// plainName says whether a name leads nowhere but into the folder it is looked up in.
func plainName(name string) bool {
	return filepath.IsLocal(name) && name == filepath.Base(name) && name != "."
}

// Digests gives the SHA-256 [hex] of files by their names.
func Digests(files []File) (map[string]string, error) {
	out := map[string]string{}
	for _, f := range files {
		sum, err := digest(f.Write)
		if err != nil {
			return nil, err
		}
		out[f.Name] = sum
	}
	return out, nil
}

// ChangedInput is an input that is not what it was when the run was made.
type ChangedInput struct{ Name, Found, Expected string }

// ChangedInputs compares inputs with those of the run. One that only goes by another name is the same.
func (r *RunRecord) ChangedInputs(now map[string]string) []ChangedInput {
	left := map[string]int{}
	for _, sum := range now {
		left[sum]++
	}
	var out []ChangedInput
	for _, name := range slices.Sorted(maps.Keys(r.Inputs)) {
		sum := r.Inputs[name]
		if left[sum] > 0 {
			left[sum]--
			continue
		}
		found := "other content than in the run"
		if _, there := now[name]; !there {
			found = "nothing"
		}
		out = append(out, ChangedInput{name, found, "the input of the run, SHA-256 " + sum})
	}
	for _, name := range slices.Sorted(maps.Keys(now)) {
		if _, known := r.Inputs[name]; !known && left[now[name]] > 0 {
			left[now[name]]--
			out = append(out, ChangedInput{name, "an input that the run did not have", "those of the run alone"})
		}
	}
	return out
}
