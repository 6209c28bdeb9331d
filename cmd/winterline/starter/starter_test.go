package starter

import (
	"bytes"
	"flag"
	"fmt"
	"io/fs"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"winterline/weather"
)

var update = flag.Bool("update", false, "write weather.csv and pump.csv anew")

const days = 12

var start = time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)

// weatherFile is a plain cold spell: two mild days, a fall to about -20 °C on the sixth
// night and back, over ground with some snow.
func weatherFile() string {
	var b strings.Builder
	b.WriteString(`# INVENTED WEATHER, to be replaced by a record of your own place. Local standard time.
# Other names that may stand in the header: air_temp_f, wind_mph, wind_km_h, dew_point_c, dew_point_f,
# cloud_fraction, snow_depth_m, snow_depth_in, rain_mm, rain_in, snowfall_water_mm, sun_w_m2.
# Leave out the columns that you do not have; only time and air temperature must be there.
time,air_temp_c,wind_m_s,snow_depth_cm
`)
	for hour := 0; hour <= days*24; hour++ {
		day := float64(hour) / 24
		cold := math.Exp(-math.Pow((day-6.2)/2, 2))
		air := -2 - 14*cold - 4*math.Cos(2*math.Pi*(day-4.0/24))
		wind := 3.5 - 1.5*cold - math.Cos(2*math.Pi*(day-2.0/24))
		snow := 4 + 6/(1+math.Exp(-8*(day-3))) - 0.15*day
		fmt.Fprintf(&b, "%s,%.1f,%.1f,%.1f\n", stamp(hour*60), air, wind, snow)
	}
	return strings.ReplaceAll(b.String(), ",-0.0", ",0.0")
}

// pumpFile is a run of 12 s about every 4 h.
func pumpFile() string {
	var b strings.Builder
	b.WriteString("# INVENTED PUMP CYCLES, to be replaced by your own: when the pump started and for how many seconds it ran.\n")
	b.WriteString("start,run_s\n")
	for i, minute := 0, 100; minute < days*24*60; i++ {
		fmt.Fprintf(&b, "%s,%d\n", stamp(minute), 11+i%3)
		minute += 225 + 15*(i*i%5)
	}
	return b.String()
}

func stamp(minute int) string {
	return start.Add(time.Duration(minute) * time.Minute).Format("2006-01-02 15:04")
}

// The files are what the generator makes, to the byte.
func TestStarterFiles(t *testing.T) {
	for _, c := range []struct{ name, want string }{{"weather.csv", weatherFile()}, {"pump.csv", pumpFile()}} {
		if *update {
			if err := os.WriteFile(c.name, []byte(c.want), 0o644); err != nil {
				t.Fatal(err)
			}
			continue // the embedded copy is the old one until the next build
		}
		got, err := fs.ReadFile(Files(), c.name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, []byte(c.want)) {
			t.Errorf("%s is not what the generator makes; run go test ./cmd/winterline/starter -update", c.name)
		}
	}
}

// The weather reads, lasts twelve days and holds a cold spell.
func TestStarterWeather(t *testing.T) {
	s, problems := weather.Read("weather.csv", strings.NewReader(weatherFile()))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if s.End() != days*86400 {
		t.Errorf("length: got %g days, want %d", s.End()/86400, days)
	}
	if _, air := s.Coldest(); air > -17 || air < -23 {
		t.Errorf("coldest: got %.1f °C, want about -20", air)
	}
}
