package demo

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"strings"
	"testing"

	"winterline/weather"
)

var update = flag.Bool("update", false, "write weather.csv and pump.csv anew")

// weather.csv is what the generator makes, to the byte.
func TestDemoWeather(t *testing.T) { checkGenerated(t, "weather.csv", weatherFile()) }

// pump.csv is what the generator makes, to the byte.
func TestDemoPump(t *testing.T) { checkGenerated(t, "pump.csv", pumpFile()) }

func checkGenerated(t *testing.T, name, want string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return // the embedded copy is the old one until the next build
	}
	got, err := fs.ReadFile(Files(), name)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, []byte(want)) {
		t.Errorf("%s is not what the generator makes; run go test ./cmd/winterline/demo -update", name)
	}
}

// The winter tells the story that the demonstration is built on.
func TestDemoStory(t *testing.T) {
	s, problems := weather.Read("weather.csv", strings.NewReader(weatherFile()))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if mean := s.Mean(); mean < -7 || mean > -3.5 {
		t.Errorf("mean air: %.1f °C, want a cold winter", mean)
	}
	if at, air := s.Coldest(); air > -28 || air < -30 || s.Stamp(at).Format("Jan") != "Jan" {
		t.Errorf("coldest: %.1f °C at %v, want about -29 °C in January", air, s.Stamp(at))
	}
	pack := s.Snow()
	depth, kind := pack.Depth, pack.Kind
	deepest := 0.0
	for _, d := range depth {
		deepest = max(deepest, d)
	}
	if kind != weather.SnowMeasured || deepest < 7*0.0254 || deepest > 8.2*0.0254 {
		t.Errorf("deepest snow: %.3f m, want 7 to 8 in", deepest)
	}
	if last := depth[len(depth)-1]; last > deepest/3 {
		t.Errorf("snow at the end: %.3f m, want the thaw to take most of it", last)
	}
}
