package main

import (
	"bytes"
	"strings"
	"testing"

	"winterline/sim/verify"
)

// A study that misses ends as plain verify does: with 1, after the whole table.
func TestConvergenceMissed(t *testing.T) {
	var out bytes.Buffer
	o := &verifyOptions{streams: streams{stdout: &out}}
	err := runConvergence(t.Context(), o, verify.Fineness{Nodes: 0.25, Steps: 1}, "house")
	if exitCode(err) != exitFailed || !strings.Contains(out.String(), "MISSED closing (house, line)") {
		t.Errorf("%v\n%s", err, out.String())
	}
}
