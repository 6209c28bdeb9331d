package weather

import (
	"bytes"
	"fmt"
	"math"
	"runtime"
	"testing"
	"time"
)

// hourlyFile is an hourly record of whole years with seven columns.
func hourlyFile(years int) []byte {
	var b bytes.Buffer
	b.WriteString("time,air_temp_c,wind_m_s,dew_point_c,cloud_fraction,snow_depth_cm,rain_mm\n")
	start := time.Date(1960, 1, 1, 0, 0, 0, 0, time.UTC)
	end := start.AddDate(years, 0, 0)
	for at, hour := start, 0.0; at.Before(end); at, hour = at.Add(time.Hour), hour+1 {
		air := 8 - 12*math.Cos(2*math.Pi*hour/8766) + 4*math.Sin(2*math.Pi*hour/24)
		fmt.Fprintf(&b, "%s,%.1f,3.4,%.1f,0.6,12.0,0.2\n", at.Format("2006-01-02 15:04"), air, air-3)
	}
	return b.Bytes()
}

func BenchmarkRead(b *testing.B) {
	for _, years := range []int{1, 60} {
		b.Run(fmt.Sprintf("years=%d", years), func(b *testing.B) {
			file := hourlyFile(years)
			b.SetBytes(int64(len(file)))
			b.ReportAllocs()
			for b.Loop() {
				if _, problems := Read("w.csv", bytes.NewReader(file)); len(problems) > 0 {
					b.Fatal(problems)
				}
			}
		})
	}
}

// Sixty years of hours are read with less than 200 MB, all that is thrown away again counted.
func TestReadMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("reads half a million rows")
	}
	file := hourlyFile(60)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	s, problems := Read("w.csv", bytes.NewReader(file))
	runtime.ReadMemStats(&after)
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if len(s.Time) != 525_960 { // 60 · 365 + 15 leap days, in hours
		t.Errorf("%d rows, want 525,960", len(s.Time))
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > 200e6 {
		t.Errorf("%d MB were allocated, want less than 200", used/1e6)
	}
}

// Thirty years of hours: what follows from snow depth and from sun.
func BenchmarkWorkedOut(b *testing.B) {
	s := invented(30*365, func(int) float64 { return 150 }, func(day int) float64 { return float64(day%10) / 10 })
	for i := range s.Time {
		s.Air[i] = 8 - 12*math.Cos(2*math.Pi*float64(i)/8766) + 4*math.Sin(2*math.Pi*float64(i)/24)
		s.SnowDepth = append(s.SnowDepth, 0.2+0.1*math.Sin(float64(i)/300)+0.01*float64(i*i%3))
	}
	b.Run("snow", func(b *testing.B) {
		for b.Loop() {
			s.Snow()
		}
	})
	b.Run("cloud", func(b *testing.B) {
		for b.Loop() {
			s.CloudFromSun()
		}
	})
}
