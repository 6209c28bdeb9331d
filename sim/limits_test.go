package sim_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// dailyRows is a record of daily rows.
func dailyRows(rows int) *weather.Series {
	s := &weather.Series{Start: time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC), Time: make([]float64, rows), Air: make([]float64, rows)}
	for i := range rows {
		s.Time[i] = float64(i) * 86400
	}
	return s
}

// What is too large in sum, though each input is within its limits, is refused before it fills the memory.
func TestTooLargeInSum(t *testing.T) {
	const twoYears = 731
	house := strings.Replace(oddHouse, "CURVE", `"1/3 hp"`, 1)
	// The narrowest basin and float range that are read: the float switches all the time.
	busy := strings.NewReplacer(`"18 in"`, `"4 in"`, `float_on = "12 in"`, `float_on = "5.05 in"`).Replace(house)
	many := oddCell + "setting = \"open-air\"\n" + strings.Repeat("[[segment]]\nname = \"run NUMBER\"\npipe = \"1-1/2 in sch 40 PVC\"\nlength = \"1 m\"\ndrop = \"0 m\"\nsetting = \"open-air\"\n", 49) + "[outlet]\nkind = \"open\"\n"
	for strings.Contains(many, "NUMBER") {
		many = strings.Replace(many, "NUMBER", strings.Repeat("i", strings.Count(many, "NUMBER")), 1)
	}
	for name, c := range map[string]struct {
		layout string
		rows   int
		water  sim.Supply
		want   string
	}{
		"plan":     {house + "[water]\ncycles = \"every 10 s for 5 s\"\n", twoYears, sim.Supply{}, "more than 2000000 runs of the pump"},
		"inflow":   {busy, twoYears, sim.Supply{Inflow: []pipe.InflowRow{{Time: dailyRows(1).Start, Inflow: 1e-3}}}, "more than 2000000 runs of the pump"},
		"segments": {many, 500_000, sim.Supply{Given: true}, "50 segments over 500000 weather rows, 25000000 values"},
	} {
		l, problems := pipe.ReadLayout("layout.toml", []byte(c.layout))
		if len(problems) > 0 {
			t.Fatal(name, problems)
		}
		p, problems := l.MakeProfile("layout.toml")
		if len(problems) > 0 {
			t.Fatal(name, problems)
		}
		_, err := sim.NewCase(name, l, p, dailyRows(c.rows), c.water)
		var over *sim.LimitError
		if !errors.As(err, &over) || over.Found != c.want || !strings.Contains(over.Expected, "at most") {
			t.Errorf("%s: got %v; want found %s", name, err, c.want)
		}
	}
}

// So are soil temperatures without end.
func TestTooManyDepths(t *testing.T) {
	l, problems := pipe.ReadGround("layout.toml", []byte(oddCell+"setting = \"open-air\"\n[outlet]\nkind = \"open\"\n[site]\nsoil = \"loam\"\n"))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	k := &sim.GroundCase{Name: "deep", Layout: l, Weather: dailyRows(1_000_000)}
	_, err := sim.SimulateGround(t.Context(), k, sim.GroundSettings{Depths: make([]float64, 50)})
	var over *sim.LimitError
	if !errors.As(err, &over) || over.Found != "50 depths at 1000000 weather rows, 50000000 temperatures" {
		t.Errorf("got %v", err)
	}
}
