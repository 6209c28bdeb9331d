package sim

import (
	"compress/gzip"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"winterline/pipe"
)

// A station's hourly ground temperatures by depth [m], rows with gaps left out.
type groundRecord struct {
	start time.Time
	depth []float64
	time  []float64   // seconds since start
	temp  [][]float64 // one row an hour [°C]
}

// measuredDepths are those of the deep-soil record [m].
var measuredDepths = []float64{.05, .1, .2, .3, .4, .5, .6, .8, 1, 1.25, 1.5, 1.75, 2, 2.25}

// readDeepSoil reads the North Dakota Agricultural Weather Network's hourly deep-soil
// record: station, time (m/d/yy H:MM, standard time), one column a depth, °C.
func readDeepSoil(t *testing.T, folder string) groundRecord {
	f, err := os.Open(filepath.Join(folder, "fargo-nd-deep-soil", "fargo_hourly_deep_soil_temperature.csv.gz"))
	if err != nil {
		t.Skip(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(z).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rec := groundRecord{depth: measuredDepths}
	jump := time.Date(2018, 4, 25, 12, 0, 0, 0, time.UTC) // one hour 8 to 16 K off at six depths
	for _, row := range rows[1:] {
		at, err := time.Parse("1/2/06 15:04", row[1])
		if err != nil {
			t.Fatal(err)
		}
		if rec.start.IsZero() {
			rec.start = at
		}
		temps, ok := numbers(row[2:])
		if ok && !at.Equal(jump) {
			rec.time = append(rec.time, at.Sub(rec.start).Seconds())
			rec.temp = append(rec.temp, temps)
		}
	}
	return rec
}

func numbers(text []string) ([]float64, bool) {
	out := make([]float64, len(text))
	for i, s := range text {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsNaN(v) {
			return nil, false
		}
		out[i] = v
	}
	return out, true
}

// The column below a thermometer, driven by it, against the thermometers beneath: clay
// as the tables have it, nothing fitted. The limit is about what a soil of unknown
// moisture leaves open; the winters' frost lets the zero curtain show.
func TestColumnAgainstMeasuredGround(t *testing.T) {
	folder := os.Getenv("WINTERLINE_DATA")
	if folder == "" {
		t.Skip("WINTERLINE_DATA names no folder of records")
	}
	const limit = 1.2 // root mean square, November to March [K]
	rec := readDeepSoil(t, folder)
	moisture, _, _, _ := pipe.DefaultMoisture("clay")
	soil, err := pipe.MakeSoil("clay", moisture)
	if err != nil {
		t.Fatal(err)
	}
	top := rec.depth[0]
	c := newColumn(func(float64) pipe.Soil { return soil }, 0)
	c.setTemperatures(func(z float64) float64 { return rec.at(0, z+top) })
	w := newStepper(Stepping{})
	miss := map[float64]*misfit{.2: {}, .5: {}, 1: {}}
	for i := 0; i+1 < len(rec.time); i++ {
		from, to := rec.time[i], rec.time[i+1]
		a, b := rec.temp[i][0], rec.temp[i+1][0]
		thermometer := func(t float64) (float64, float64) { return leastSurface, a + (b-a)*(t-from)/(to-from) }
		if err := c.march(w, thermometer, from, to); err != nil {
			t.Fatal(err)
		}
		if month := rec.start.Add(time.Duration(to) * time.Second).Month(); month >= time.April && month <= time.October {
			continue
		}
		for z, m := range miss {
			m.add(c.temperatureAt(z-top) - rec.at(i+1, z))
		}
	}
	for _, z := range []float64{.2, .5, 1} {
		rms, bias := miss[z].figures()
		t.Logf("%.2f m: root mean square %.2f K, bias %+.2f K", z, rms, bias)
		if rms > limit {
			t.Errorf("%.2f m: root mean square %.2f K, limit %.1f K", z, rms, limit)
		}
	}
}

// at is a row's temperature at a depth [°C], straight between thermometers, and steady
// below the deepest.
func (r groundRecord) at(row int, depth float64) float64 {
	temps := r.temp[row]
	for k := 1; k < len(r.depth); k++ {
		if depth <= r.depth[k] {
			w := (depth - r.depth[k-1]) / (r.depth[k] - r.depth[k-1])
			return temps[k-1] + w*(temps[k]-temps[k-1])
		}
	}
	return temps[len(temps)-1]
}

// misfit gathers differences.
type misfit struct{ n, sum, squares float64 }

func (m *misfit) add(d float64) { m.n, m.sum, m.squares = m.n+1, m.sum+d, m.squares+d*d }

func (m *misfit) figures() (rms, bias float64) { return math.Sqrt(m.squares / m.n), m.sum / m.n }
