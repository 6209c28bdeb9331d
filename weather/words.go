package weather

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// How numbers, times and texts of the user's read in messages, notes and the ledger.

// show gives a stamp as files write it, with seconds only where there are some.
func show(t time.Time) string {
	if t.Truncate(time.Minute).Equal(t) {
		return t.Format("2006-01-02 15:04")
	}
	return t.Format("2006-01-02 15:04:05.999")
}

// decimal writes a number as files do.
func decimal(v float64) string { return fmt.Sprintf("%g", v) }

// hours words a length of time [s].
func hours(seconds float64) string {
	return strconv.FormatFloat(math.Round(seconds/360)/10, 'f', -1, 64) + " h"
}

// millimetres writes a depth of water [m].
func millimetres(v float64) string { return fmt.Sprintf("%.4g mm", 1000*v) }

// minutes words a length of time [s].
func minutes(seconds int64) string { return fmt.Sprintf("%.3g min", float64(seconds)/60) }

// percent words a share, never rounded up.
func percent(share float64) string { return fmt.Sprintf("%.0f %%", math.Floor(100*share)) }
