package sim

import (
	"math"
	"testing"
)

// A bore that half its water has frozen in passes water through what the ice, 9.07 % larger than the water was, leaves of it: as
// an opening with entry, exit and friction, v² (1.5 + 0.03 L/d)/2g = h.
func TestIcedBorePassesByHand(t *testing.T) {
	c, _ := metreInAir(1, 0)
	open := math.Pi / 4 * c.bore * c.bore * (1 - 0.5*999.84/916.7)
	across := math.Sqrt(open * 4 / math.Pi)
	want := open * math.Sqrt(2*9.80665*0.8/(1.5+0.03*1/across))
	within(t, "flow [m³/s]", c.passes(0.5, driveHead{head: 0.8}), want, 1e-9*want)
}

// Ice shuts a cell that passes no more than a twentieth of what the pump would send, and lets go of it above a tenth; slush
// shuts it at a share of ice, and lets go at half of that.
func TestShutAndOpenAgain(t *testing.T) {
	c, _ := metreInAir(1, 0)
	for _, x := range []struct {
		passes       float64 // of the pump's flow
		shut, stayed bool
	}{{0.048, true, true}, {0.052, false, true}, {0.098, false, true}, {0.102, false, false}} {
		d := driveHead{head: 0.8}
		d.flow = c.passes(0.7, d) / x.passes
		if got, stayed := c.blocks(0.7, d, false), c.blocks(0.7, d, true); got != x.shut || stayed != x.stayed {
			t.Errorf("%g of the flow passes: shuts %v, stays shut %v; want %v, %v", x.passes, got, stayed, x.shut, x.stayed)
		}
	}
	c.slushy, c.slushLimit = true, 0.3
	for _, x := range []struct {
		ice          float64
		shut, stayed bool
	}{{0.14, false, false}, {0.16, false, true}, {0.29, false, true}, {0.31, true, true}} {
		d := driveHead{head: 0.8}
		if got, stayed := c.blocks(x.ice, d, false), c.blocks(x.ice, d, true); got != x.shut || stayed != x.stayed {
			t.Errorf("%g of slush: shuts %v, stays shut %v; want %v, %v", x.ice, got, stayed, x.shut, x.stayed)
		}
	}
}

// A flow under nine tenths of the free one counts as held back, if there is ice that could hold it.
func TestThrottledByIceAlone(t *testing.T) {
	c, _ := metreInAir(1, 0)
	w := &winter{line: &line{cells: []*cell{c.cell}}}
	if w.throttled(0.5, 1) {
		t.Error("held back without ice")
	}
	c.freezeShells(func(int) float64 { return 0.2 })
	if !w.throttled(0.89, 1) || w.throttled(0.91, 1) {
		t.Error("with ice 0.89 of the free flow should count as held back, 0.91 not")
	}
}
