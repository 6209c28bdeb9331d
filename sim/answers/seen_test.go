package answers

import (
	"testing"

	"winterline/sim"
)

// A line that opens in between: seven closures, of which three overlap, make five spells.
func TestShutSpells(t *testing.T) {
	const hour = 3600.0
	r := &sim.Result{}
	for h := range 241 {
		r.Hourly.Time = append(r.Hourly.Time, float64(h)*hour)
	}
	for _, c := range [][2]float64{{100, 148}, {130, 160}, {150, 161}, {20, 30}, {200, 205}, {210, 220}} {
		end := c[1] * hour
		r.Closures = append(r.Closures, sim.Closure{Shut: c[0] * hour, Reopened: &end})
	}
	r.Closures = append(r.Closures, sim.Closure{Shut: 230 * hour})
	spells := shutSpells(r)
	want := []shutSpell{{20 * hour, 30 * hour, true}, {100 * hour, 161 * hour, true}, {200 * hour, 205 * hour, true}, {210 * hour, 220 * hour, true}, {230 * hour, 240 * hour, false}}
	for i, w := range want {
		if i >= len(spells) || spells[i] != w {
			t.Errorf("spell %d of %v: want %v", i, spells, w)
		}
	}
}
