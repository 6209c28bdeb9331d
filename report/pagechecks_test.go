package report

import (
	"math"
	"testing"
)

// A book that closes to the last bit, or of which that is not known, is not told of with a power of ten; ten times a power
// is the next power.
func TestHowBooksClose(t *testing.T) {
	for relative, want := range map[float64]string{
		0: "closes exactly", math.Inf(1): "how well it closes is not known", -3.2e-16: "closes to 3 × 10⁻¹⁶ of the heat", 9.7e-12: "closes to 1 × 10⁻¹¹ of the heat",
	} {
		if got := closes(relative, "the heat"); got != want {
			t.Errorf("%g: %q, want %q", relative, got, want)
		}
	}
	if got, want := closes(math.NaN(), "the heat"), "how well it closes is not known"; got != want {
		t.Errorf("not a number: %q, want %q", got, want)
	}
}
