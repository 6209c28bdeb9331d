package pipe

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestCircleSegment compares with the classical table of part-full circles, for example Chow 1959,
// appendix A: area/d², wetted perimeter/d, hydraulic radius/d, top width/d by depth/d, to the digits
// printed there.
func TestCircleSegment(t *testing.T) {
	const tol = 1e-4 // relative
	for _, c := range []struct{ depth, area, perimeter, radius, width float64 }{
		{0.05, 0.0146815, 0.451027, 0.0325512, 0.43589},
		{0.1, 0.0408753, 0.643501, 0.0635201, 0.6},
		{0.25, 0.153546, 1.0472, 0.146626, 0.866025},
		{0.3, 0.198168, 1.15928, 0.170941, 0.916515},
		{0.4, 0.29337, 1.36944, 0.214226, 0.979796},
		{0.6, 0.492028, 1.77215, 0.277644, 0.979796},
	} {
		const d = 0.1023
		y := c.depth * d
		for _, q := range []struct {
			name      string
			got, want float64
		}{
			{"area", SegmentArea(d, y), c.area * d * d}, {"wetted perimeter", WettedPerimeter(d, y), c.perimeter * d},
			{"hydraulic radius", HydraulicRadius(d, y), c.radius * d}, {"top width", TopWidth(d, y), c.width * d},
			{"depth from area", SegmentDepth(d, c.area*d*d), y},
		} {
			if math.Abs(q.got/q.want-1) > tol {
				t.Errorf("%s at %g of the diameter: %g, want %g, off by %.2g", q.name, c.depth, q.got, q.want, q.got/q.want-1)
			}
		}
	}
}

func TestCircleSegmentEnds(t *testing.T) {
	const d = 0.1
	full := math.Pi / 4 * d * d
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"empty area", SegmentArea(d, -1), 0}, {"full area", SegmentArea(d, 1), full}, {"full perimeter", WettedPerimeter(d, d), math.Pi * d},
		{"full width", TopWidth(d, d), 0}, {"empty radius", HydraulicRadius(d, 0), 0}, {"depth of nothing", SegmentDepth(d, -1), 0},
		{"depth of too much", SegmentDepth(d, 2*full), d}, {"half", SegmentArea(d, d/2), full / 2},
	} {
		if math.Abs(c.got-c.want) > 1e-15 {
			t.Errorf("%s: %g, want %g", c.name, c.got, c.want)
		}
	}
}

// TestSegmentDepthInverts goes from depth to area and back, over all depths and many sizes.
func TestSegmentDepthInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.01, 2).Draw(t, "d")
		share := rapid.Float64Range(1e-6, 1-1e-6).Draw(t, "y/d")
		if got := SegmentDepth(d, SegmentArea(d, share*d)) / d; math.Abs(got-share) > 1e-9 {
			t.Fatalf("depth %g of d came back as %g", share, got)
		}
	})
}

// TestSegmentDepthAgainstHalving compares with a depth found by halving, and wants one that rises with the area.
func TestSegmentDepthAgainstHalving(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(0.01, 2).Draw(t, "d")
		full := math.Pi / 4 * d * d
		area := full * math.Pow(10, rapid.Float64Range(-9, 0).Draw(t, "lg share"))
		if rapid.Bool().Draw(t, "upper half") {
			area = full - area
		}
		low, high := 0.0, d
		for high-low > 1e-14*d {
			if mid := (low + high) / 2; SegmentArea(d, mid) < area {
				low = mid
			} else {
				high = mid
			}
		}
		// Near the crown areas differ by less than their digits.
		depth := SegmentDepth(d, area)
		allowed := 1e-13*d + 4e-16*full/max(TopWidth(d, low), 1e-9*d)
		if math.Abs(depth-low) > allowed {
			t.Fatalf("area %g of %g: depth %.17g, by halving %.17g", area, full, depth, low)
		}
		if more := SegmentDepth(d, area*(1+1e-12)); more < depth {
			t.Fatalf("depth %.17g falls to %.17g", depth, more)
		}
	})
}

func BenchmarkSegmentDepth(b *testing.B) {
	sum := 0.0
	for b.Loop() {
		sum += SegmentDepth(0.1, 0.003)
	}
	if sum == 0 {
		b.Fatal("no depth")
	}
}
