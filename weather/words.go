package weather

import (
	"fmt"
	"math"
	"strconv"
	"time"
)

// How numbers, times and texts of the user's read in messages, notes and the ledger.

// showTime gives a stamp as files write it, with seconds only where there are some.
func showTime(t time.Time) string {
	if t.Truncate(time.Minute).Equal(t) {
		return t.Format("2006-01-02 15:04")
	}
	return t.Format("2006-01-02 15:04:05.999")
}

// decimal writes a number as files do.
func decimal(v float64) string { return fmt.Sprintf("%g", v) }

// showHours words a length of time [s].
func showHours(seconds float64) string {
	return strconv.FormatFloat(math.Round(seconds/360)/10, 'f', -1, 64) + " h"
}

// showMillimetres writes a depth of water [m].
func showMillimetres(v float64) string { return fmt.Sprintf("%.4g mm", 1000*v) }

// showMinutes words a length of time [s].
func showMinutes(seconds int64) string { return fmt.Sprintf("%.3g min", float64(seconds)/60) }

// showPercent words a share, never rounded up.
func showPercent(share float64) string { return fmt.Sprintf("%.0f %%", math.Floor(100*share)) }

// rounded rounds to the nearest part of one: 100 to hundredths.
func rounded(v, parts float64) float64 {
	return math.Round(v*parts)/parts + 0 // no minus before a zero
}

// threeDecimals gives a number to at most three decimals.
func threeDecimals(v float64) string { return strconv.FormatFloat(rounded(v, 1000), 'f', -1, 64) }

// twoDecimals and oneDecimal give numbers to so many decimals; oneDecimal without a zero there.
func twoDecimals(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }
func oneDecimal(v float64) string  { return threeDecimals(rounded(v, 10)) }
