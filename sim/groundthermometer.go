package sim

import (
	"fmt"
	"math"
	"slices"
)

// GapError says that a thermometer that is to drive the ground was silent for too long.
type GapError struct {
	From, To float64 // last reading before the gap and first after it, or the record's ends [s]
}

// Error gives the length of the gap.
func (e *GapError) Error() string {
	return fmt.Sprintf("no reading for %.0f h", (e.To-e.From)/3600)
}

// below lets a thermometer at a depth [m] drive the ground from there down; record holds its readings, without gaps [°C].
func (g *ground) below(depth float64, record []float64) {
	g.above = depth
	g.surface = &surface{cover: g.key.cover, drive: ThermometerDrive, measured: record, air: g.s.Air}
	if g.firstYear == 0 {
		return // part of a year gives no mean: that of the layout or the default stands
	}
	mean := 0.0
	for _, t := range record {
		mean += t / float64(len(record))
	}
	g.mean = pick(g.site.GroundMean, mean)
}

// longestBridge is the longest silence of a driving thermometer that is bridged [s].
const longestBridge = 6 * 3600

// bridged fills short gaps in readings [°C] at the given times [s]; it returns a *GapError for longer ones.
func bridged(temps, times []float64) ([]float64, error) {
	out := slices.Clone(temps)
	last := -1
	for i := 0; i <= len(out); i++ {
		if i < len(out) && math.IsNaN(out[i]) {
			continue
		}
		if i > last+1 {
			if err := bridge(out, times, last, i); err != nil {
				return nil, err
			}
		}
		last = i
	}
	return out, nil
}

// bridge fills the rows between a and b, the nearest rows with readings: straight between the two, and with the one
// that there is where a is −1 or b is behind the last row.
func bridge(out, times []float64, a, b int) error {
	gap := &GapError{times[max(a, 0)], times[min(b, len(out)-1)]}
	if silent := gap.To - gap.From - (times[1] - times[0]); silent > longestBridge || a < 0 && b == len(out) {
		return gap
	}
	for i := a + 1; i < b; i++ {
		switch {
		case a < 0:
			out[i] = out[b]
		case b == len(out):
			out[i] = out[a]
		default:
			out[i] = out[a] + (out[b]-out[a])*(times[i]-times[a])/(times[b]-times[a])
		}
	}
	return nil
}
