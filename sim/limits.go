package sim

import "fmt"

// Limits of a case: beyond them a typing error is likelier than a winter, and a simulation would fill the memory.
const (
	// maxCycles is how many times the pump may run in a record.
	maxCycles = 2_000_000
	// maxSegmentRows is how many weather rows times segments a result may hold: three tracks of 160 MB.
	maxSegmentRows = 20_000_000
	// maxGroundValues is how many soil temperatures a result may hold: 320 MB.
	maxGroundValues = 40_000_000
)

// LimitError says that a case is too large, though each of its inputs is within its own limits.
type LimitError struct{ Found, Expected string }

// Error gives "found …; expected …".
func (e *LimitError) Error() string { return "found " + e.Found + "; expected " + e.Expected }

// withinLimits refuses what is too large, with the limit named.
func (k *Case) withinLimits() error {
	rows, segments := len(k.Weather.Time), len(k.Layout.Segments)
	switch {
	case len(k.Cycles) > maxCycles:
		return &LimitError{fmt.Sprintf("more than %d runs of the pump", maxCycles), "at most as many; a longer interval, a wider float range, less inflow or a part of the record"}
	case rows*segments > maxSegmentRows:
		return &LimitError{fmt.Sprintf("%d segments over %d weather rows, %d values", segments, rows, rows*segments), fmt.Sprintf("at most %d; fewer segments or a part of the record", maxSegmentRows)}
	}
	return nil
}
