package main

import (
	"bytes"
	"errors"
	"math"
	"os"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"winterline/weather"
)

// inventedRecord is weather every six hours from 1 July 2001, measured nowhere: 8 °C in the mean, and from the mean to
// winter and to summer so many kelvin, one number a winter, with a wave of five days of 6 K.
func inventedRecord(swings ...float64) ([]byte, error) {
	s := &weather.Series{Start: time.Date(2001, 7, 1, 0, 0, 0, 0, time.UTC)}
	for i := range len(swings)*365*4 + 8 {
		t := 6 * 3600 * float64(i)
		swing := swings[min(i/(365*4), len(swings)-1)]
		air := 8 - swing*math.Cos(2*math.Pi*(t/86400-203)/365) + 6*math.Sin(2*math.Pi*t/86400/5)
		s.Time, s.Air = append(s.Time, t), append(s.Air, math.Round(10*air)/10)
	}
	var text bytes.Buffer
	err := s.WritePlain(&text)
	return text.Bytes(), err
}

// winterRecord: `winterrecord FILE SWING…` writes an invented record of as many winters as there are swings [K].
func winterRecord(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: winterrecord FILE SWING…")
	}
	var swings []float64
	for _, text := range args[1:] {
		swing, err := strconv.ParseFloat(text, 64)
		ts.Check(err)
		swings = append(swings, swing)
	}
	text, err := inventedRecord(swings...)
	ts.Check(errors.Join(err, os.WriteFile(ts.MkAbs(args[0]), text, 0o644)))
}

// The examples of winters name this record.
func writeManyYears(t *testing.T) {
	t.Helper()
	text, err := inventedRecord(10, 20)
	if err := errors.Join(err, os.WriteFile("many-years.csv", text, 0o644)); err != nil {
		t.Fatal(err)
	}
}
