package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"winterline/report"
	"winterline/sim/verify"
)

// What misses is no reason not to write the page; the exit code is that of a plain verify that misses.
func TestEvidenceOfMisses(t *testing.T) {
	var out bytes.Buffer
	path := filepath.Join(t.TempDir(), "evidence.html")
	o := &verifyOptions{streams: streams{stdout: &out}, html: path}
	err := writeEvidence(o, report.Evidence{
		Checks: []verify.Outcome{{ID: "X-1", Check: "alpha", Topic: "film", Trust: "read", Expected: 2, Computed: 2.1, Error: 0.1, Limit: 0.02}},
		Study:  []verify.ConvergenceRow{{Case: "house", Quantity: "closing", Unit: "h", Default: 70, Finer: [4]float64{72, 72, 72, 72}, Limit: 0.5}},
	})
	if exitCode(err) != exitFailed || !strings.Contains(out.String(), "MISSED X-1 alpha") || !strings.Contains(out.String(), "MISSED closing (house)") {
		t.Errorf("%v\n%s", err, out.String())
	}
	if page, err := os.ReadFile(path); err != nil || !strings.Contains(string(page), "1 check, 1 missed") {
		t.Errorf("%v; the page does not tell of the miss", err)
	}
}

// A run that is interrupted leaves no part of a page.
func TestEvidenceInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out bytes.Buffer
	folder := t.TempDir()
	o := &verifyOptions{streams: streams{stdout: &out, stderr: &out}, html: filepath.Join(folder, "evidence.html")}
	if err := runEvidence(ctx, o); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	if left, err := os.ReadDir(folder); err != nil || len(left) > 0 {
		t.Errorf("%v are left, %v", left, err)
	}
}
