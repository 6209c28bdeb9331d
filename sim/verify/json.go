package verify

import (
	"encoding/json"
	"io"
	"math"
)

// Schema names the form in which checks are printed as JSON, StudySchema that of the convergence study.
const (
	Schema      = "winterline.verify/1"
	StudySchema = "winterline.convergence/1"
)

// number is a figure as JSON takes it: null for what is none.
type number float64

// MarshalJSON writes the shortest exact form.
func (n number) MarshalJSON() ([]byte, error) {
	if v := float64(n); !math.IsNaN(v) && !math.IsInf(v, 0) {
		return json.Marshal(v + 0) // −0 as 0
	}
	return []byte("null"), nil
}

// reasonOf is why nothing was computed; nil: something was.
func reasonOf(err error) *string {
	if err == nil {
		return nil
	}
	words := err.Error()
	return &words
}

type jsonOutcome struct {
	ID       string  `json:"id"`
	Check    string  `json:"check"`
	Expected number  `json:"expected"`
	Computed number  `json:"computed"`
	Error    number  `json:"error"`
	Limit    number  `json:"limit"`
	Unit     string  `json:"unit"`
	Pass     bool    `json:"pass"`
	Trust    string  `json:"trust"`
	Source   string  `json:"source"`
	Reason   *string `json:"reason"` // why nothing was computed; null: something was
}

type jsonRow struct {
	Case     string  `json:"case"`
	Quantity string  `json:"quantity"`
	Part     string  `json:"part"`
	Unit     string  `json:"unit"`
	Default  number  `json:"default"`
	Finest   number  `json:"finest"`
	Limit    number  `json:"limit"`
	Pass     bool    `json:"pass"`
	Reason   *string `json:"reason"`
}

// WriteJSON prints every outcome as JSON.
func WriteJSON(w io.Writer, outcomes []Outcome) error {
	page := struct {
		Schema string        `json:"schema"`
		Missed int           `json:"missed"`
		Checks []jsonOutcome `json:"checks"`
	}{Schema: Schema, Checks: []jsonOutcome{}}
	for _, o := range outcomes {
		if !o.Pass {
			page.Missed++
		}
		page.Checks = append(page.Checks, jsonOutcome{o.ID, o.Check, number(o.Expected), number(o.Computed), number(o.Error), number(o.Limit),
			o.Unit, o.Pass, o.Trust, o.Source, reasonOf(o.Err)})
	}
	return encode(w, page)
}

// WriteConvergenceJSON prints every figure of the study as JSON.
func WriteConvergenceJSON(w io.Writer, rows []ConvergenceRow) error {
	page := struct {
		Schema  string    `json:"schema"`
		Missed  int       `json:"missed"`
		Figures []jsonRow `json:"figures"`
	}{Schema: StudySchema, Figures: []jsonRow{}}
	for _, r := range rows {
		if !r.Pass {
			page.Missed++
		}
		page.Figures = append(page.Figures, jsonRow{r.Case, r.Quantity, r.Part, r.Unit, number(r.Default), number(r.Finest()), number(r.Limit), r.Pass, reasonOf(r.Err)})
	}
	return encode(w, page)
}

func encode(w io.Writer, page any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(page)
}
