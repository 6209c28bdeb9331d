package report

import "math"

// extent is the lowest and the highest number of a series; 0 and 0 if it has none.
func extent(series []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range series {
		if !math.IsNaN(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		return 0, 0
	}
	return low, high
}

// greatest is the highest number of a series; 0 for none.
func greatest(series []float64) float64 {
	_, high := extent(series)
	return high
}

// lowest finds the lowest number of a series and its row; -1 for none.
func lowest(series []float64) (low float64, row int) {
	row = -1
	for i, v := range series {
		if !math.IsNaN(v) && (row < 0 || v < low) {
			low, row = v, i
		}
	}
	return low, row
}

// extremes gives the least and the greatest number of a series with their places; ok is false where it has none.
func extremes(series []float64) (low, high int, ok bool) {
	low, high = -1, -1
	for i, v := range series {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		if low < 0 || v < series[low] {
			low = i
		}
		if high < 0 || v > series[high] {
			high = i
		}
	}
	return low, high, low >= 0
}
