package sim_test

import (
	"bufio"
	"compress/gzip"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// dataFile opens a record below the folder that WINTERLINE_DATA names, unpacked where its
// name ends in .gz; without the folder the test is skipped.
func dataFile(t *testing.T, path ...string) io.Reader {
	t.Helper()
	folder := os.Getenv("WINTERLINE_DATA")
	if folder == "" {
		t.Skip("WINTERLINE_DATA names no folder of records")
	}
	name := filepath.Join(folder, filepath.Join(path...))
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	if !strings.HasSuffix(name, ".gz") {
		return f
	}
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(name, err)
	}
	return z
}

// dataFields are the lines of a record without its header, each split at blanks. A line
// counts as one of data when it has the given number of fields and all are numbers.
func dataFields(t *testing.T, columns int, path ...string) [][]float64 {
	t.Helper()
	var rows [][]float64
	lines := bufio.NewScanner(dataFile(t, path...))
	for lines.Scan() {
		if fields := strings.Fields(lines.Text()); len(fields) == columns {
			if row, ok := decimals(fields); ok {
				rows = append(rows, row)
			}
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(path, err)
	}
	return rows
}

func decimals(fields []string) ([]float64, bool) {
	row := make([]float64, len(fields))
	for i, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, false
		}
		row[i] = v
	}
	return row, true
}

// decimal is a number; NaN for what is empty or a word for missing.
func decimal(field string) float64 {
	if v, err := strconv.ParseFloat(field, 64); err == nil {
		return v
	}
	return math.NaN()
}

// dataColumn is one column of a record, with NaN where it holds the code for missing.
func dataColumn(rows [][]float64, k int, missing float64) []float64 {
	c := make([]float64, len(rows))
	for i, row := range rows {
		if c[i] = row[k]; c[i] == missing {
			c[i] = math.NaN()
		}
	}
	return c
}

// join fills what is NaN linearly between the values on either side, at the ends with the
// nearest, and returns the same slice.
func join(values []float64) []float64 {
	last := -1
	for i, v := range values {
		if math.IsNaN(v) {
			continue
		}
		for k := last + 1; k < i; k++ {
			values[k] = v
			if last >= 0 {
				values[k] = values[last] + (v-values[last])*float64(k-last)/float64(i-last)
			}
		}
		last = i
	}
	for k := last + 1; last >= 0 && k < len(values); k++ {
		values[k] = values[last]
	}
	return values
}

// atStamps turns means over the interval that ends at each stamp into states at the stamps:
// the mean of the two intervals that meet there.
func atStamps(means []float64) []float64 {
	states := make([]float64, len(means))
	for i := range means {
		states[i] = (means[i] + means[min(i+1, len(means)-1)]) / 2
	}
	return states
}

// dewPoints are those of air temperature [°C] and relative humidity [%].
//
// Source: Magnus's formula over water with the constants of Alduchov and Eskridge (1996),
// Journal of Applied Meteorology 35:601-609 (from memory).
func dewPoints(air, humidity []float64) []float64 {
	const a, b = 17.625, 243.04 // [-], [°C]
	dew := make([]float64, len(air))
	for i, t := range air {
		g := math.Log(math.Max(humidity[i], 1)/100) + a*t/(b+t)
		dew[i] = b * g / (a - g)
	}
	return dew
}
