package pipe

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const inch = 0.0254

// makeProfile works a profile out that must be free of faults.
func makeProfile(t *testing.T, l *Layout) *Profile {
	t.Helper()
	p, ps := l.MakeProfile("layout.toml")
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	return p
}

// TestProfileOfHouse works the levels out by hand: the stub ends at 14 in, the riser starts 9 ft and
// the two falls below; the run's invert is its ground less 14 in cover, 4.215 in pipe, plus 0.12 in wall.
func TestProfileOfHouse(t *testing.T) {
	p := makeProfile(t, load(t, "full.toml"))
	near(t, "stub end", p.Segments[2].Z1, 14*inch, 1e-12)
	near(t, "stub start", p.Segments[2].Z0, 14.25*inch, 1e-12)
	near(t, "riser end", p.Segments[0].Z1, (14.25+36./96)*inch, 1e-12) // the 3 ft garage piece falls 1/8 in/ft
	near(t, "riser start", p.Segments[0].Z0, (14.25+36./96-108)*inch, 1e-12)
	near(t, "run start", p.Segments[3].Z0, -(14+4.215-0.12)*inch, 1e-12)
	near(t, "run end", p.Segments[3].Z1, -(14+4.215-0.12+360./96)*inch, 1e-12)
	near(t, "run reach", p.Segments[3].X1, inch*360*math.Sqrt(1-1./96/96), 1e-9)
	near(t, "indoors", p.Segments[2].X1, 0, 0)
	near(t, "sag at the middle", p.Invert(3, 0.5), (p.Segments[3].Z0+p.Segments[3].Z1)/2-inch/2, 1e-12)
	near(t, "sag at a quarter", p.Invert(3, 0.25), p.Segments[3].Z0-360./96/4*inch-0.75*inch/2, 1e-12)
	near(t, "ground at 5 m", p.Ground(5), -0.10, 1e-12)
	near(t, "cover at the start", p.CoverAt(3, 0), 14*inch, 1e-12)
	// The ground falls 2 %, the pipe 1 in 96: cover at the end is 14 in + 360 in (1/96 − 0.02).
	near(t, "cover at the end", p.CoverAt(3, 1), (14+360./96-0.02*360*math.Sqrt(1-1./96/96))*inch, 1e-9)
}

// TestAnchors hangs the same glued line on each thing that may hold it.
func TestAnchors(t *testing.T) {
	glued := `[site]
soil = "loam"
GROUND
BASIN
[[segment]]
name = "riser"
pipe = "2 in sch 40 PVC"
length = "10 ft"
rise = "10 ft"
setting = "indoor"
[[segment]]
name = "run"
pipe = "2 in sch 40 PVC"
length = "20 ft"
drop = "2 in"
setting = "buried"
COVER
[outlet]
kind = "open"
LEVEL
`
	const top = 2.375 - 0.154 // invert to top of pipe [in]
	for _, c := range []struct {
		name, ground, basin, cover, level string
		start                             float64 // of the riser [in]
	}{
		{"cover", "", "", `cover = "12 in"`, "", -12 - top - 120},
		{"cover before basin", "", "[basin]\nfloor_below_ground = \"8 ft\"\nbottom_below_floor = \"2 ft\"\nfloat_on = \"9 in\"", `cover = "12 in"`, "", -12 - top - 120},
		{"open end", `ground_slope = "0 %"`, "", "", `level = "-10 in"`, -10 + 2 - 120},
		{"basin", "", "[basin]\nfloor_below_ground = \"8 ft\"\nbottom_below_floor = \"3 ft\"\nfloat_on = \"9 in\"", "", "", -132},
		{"default cover", "", "", "", "", -8 - top - 120},
	} {
		text := strings.NewReplacer("GROUND", c.ground, "BASIN", c.basin, "COVER", c.cover, "LEVEL", c.level).Replace(glued)
		l, ps := ReadLayout("layout.toml", []byte(text))
		if len(ps) > 0 {
			t.Errorf("%s: %v", c.name, ps)
			continue
		}
		p := makeProfile(t, l)
		near(t, c.name, p.Segments[0].Z0, c.start*inch, 1e-9)
		near(t, c.name+": chain", p.Segments[1].Z0, p.Segments[0].Z1, 1e-12)
	}
}

// TestGroundPoints follows surveyed points and stays level after the last.
func TestGroundPoints(t *testing.T) {
	l := load(t, "full.toml", Edit{"site.ground_point", `[{ distance = "10 ft", level = "-4 in" }, { distance = "40 ft", level = "-1 ft" }]`})
	p := makeProfile(t, l)
	for x, want := range map[float64]float64{0: 0, 5: -2, 10: -4, 25: -8, 40: -12, 90: -12} { // [ft] → [in]
		near(t, "ground", p.Ground(x*12*inch), want*inch, 1e-12)
	}
}

// TestCoverMakesTheGround: where the ground was left out, the written cover holds everywhere on the
// run, and two covers draw the ground between them.
func TestCoverMakesTheGround(t *testing.T) {
	l := load(t, "full.toml", Edit{"site.ground_slope", ""}, Edit{"yard run.sag", "0 in"})
	p := makeProfile(t, l)
	for _, s := range []float64{0, 0.3, 1} {
		near(t, "single cover", p.CoverAt(3, s), 14*inch, 1e-12)
	}
	l = load(t, "full.toml", Edit{"site.ground_slope", ""}, Edit{"yard run.sag", "0 in"}, Edit{"yard run.cover", `["14 in", "20 in"]`})
	p = makeProfile(t, l)
	near(t, "cover between two", p.CoverAt(3, 0.5), 17*inch, 1e-12)
	near(t, "cover at the far end", p.CoverAt(3, 1), 20*inch, 1e-12)
}

// TestToleranceOfOneInch: the far cover may miss by just under an inch, not by more.
func TestToleranceOfOneInch(t *testing.T) {
	p := makeProfile(t, load(t, "full.toml"))
	end := p.CoverAt(3, 1) / inch
	for _, c := range []struct {
		off float64
		ok  bool
	}{{0, true}, {0.99, true}, {-0.99, true}, {1.01, false}, {-1.01, false}} {
		far := Edit{"yard run.cover", fmt.Sprintf(`["14 in", "%.6f in"]`, end+c.off)}
		_, ps := load(t, "full.toml", far).MakeProfile("layout.toml")
		if (len(ps) == 0) != c.ok {
			t.Errorf("far cover off by %g in: %v", c.off, ps)
		}
	}
}

// TestProfileOfRandomLines holds on random lines that segments join, that the reach and the drop make
// up the length, that a sag hangs below its ends' line and that the anchor's cover is as written.
func TestProfileOfRandomLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		l := &Layout{Outlet: Outlet{Kind: Open}}
		for range n {
			length := rapid.Float64Range(0.1, 50).Draw(t, "length")
			l.Segments = append(l.Segments, Segment{Setting: OpenAir, Length: length, Size: Size{OutsideDiameter: 0.1, Wall: 0.003},
				Drop: length * rapid.Float64Range(-0.9, 0.9).Draw(t, "steepness"), Sag: rapid.Float64Range(0, length/4).Draw(t, "sag")})
		}
		cover := rapid.Float64Range(0.05, 3).Draw(t, "cover")
		l.Segments[0].Setting, l.Segments[0].Cover = Buried, &[2]float64{cover, cover}
		p, ps := l.MakeProfile("layout.toml")
		if len(ps) > 0 {
			t.Fatal(ps)
		}
		if math.Abs(p.CoverAt(0, 0)-cover) > 1e-9 {
			t.Fatalf("cover %g, want %g", p.CoverAt(0, 0), cover)
		}
		for i, r := range p.Segments {
			s := l.Segments[i]
			if i > 0 && (r.X0 != p.Segments[i-1].X1 || math.Abs(r.Z0-p.Segments[i-1].Z1) > 1e-9) {
				t.Fatalf("segment %d does not join the one before", i)
			}
			if math.Abs(math.Hypot(r.X1-r.X0, r.Z1-r.Z0)-s.Length) > 1e-6 {
				t.Fatalf("segment %d is %g long, want %g", i, math.Hypot(r.X1-r.X0, r.Z1-r.Z0), s.Length)
			}
			if got := p.Invert(i, 0.5); math.Abs((r.Z0+r.Z1)/2-got-s.Sag) > 1e-9 {
				t.Fatalf("segment %d sags to %g, want %g below", i, got, s.Sag)
			}
		}
	})
}
