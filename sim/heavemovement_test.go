package sim_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"winterline/sim"
	"winterline/weather"
)

// heaveHouse has a standpipe, 5 m of buried run at 1/8 in/ft and a lid.
const heaveHouse = `title = "heave"
[site]
soil = "silt loam"
soil_moisture = "30 %"
surface = "bare"
snow_on_line = "cleared"
ground_mean = "6 degC"
ground_swing = "8 K"
[[segment]]
name = "stub"
pipe = "1-1/2 in sch 40 PVC"
length = "0.5 m"
drop = "0 m"
setting = "through-wall"
[[segment]]
name = "yard run"
pipe = "4 in D2729"
length = "5 m"
slope = "1/8 in/ft"
setting = "buried"
cover = "COVER"
[standpipe]
after = "stub"
pipe = "4 in D3034"
house_pipe_end = "14 in"
rim = "16 in"
slip_travel = "TRAVEL"
[[relief]]
at = "standpipe"
height = "10 in"
width = "3 in"
opening_height = "2 in"
[outlet]
kind = "lid"
level = "1 in"
`

// heaveRun takes it through forty days at −10 °C.
func heaveRun(t *testing.T, text string) *sim.Result {
	t.Helper()
	text = strings.NewReplacer("COVER", "8 in", "TRAVEL", "3 in").Replace(text)
	s := &weather.Series{Start: time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)}
	for i := range 40*24 + 1 {
		s.Time, s.Air = append(s.Time, float64(i)*3600), append(s.Air, -10)
	}
	k := caseOf(t, text, s, sim.Supply{Given: true})
	r := resultOf(t, k)
	if r.Movement == nil {
		t.Fatal("no movement")
	}
	return r
}

func TestMovement(t *testing.T) {
	r := heaveRun(t, heaveHouse)
	m := r.Movement
	if !(0 < m.Low && m.Low < m.High) || m.At < 39*86400 {
		t.Errorf("surface %g to %g m, greatest after %g days; want a range that grows to the end", m.Low, m.High, m.At/86400)
	}
	// The standpipe's foot stands on less ground than the surface does; what grips it may lift it as high.
	if j := m.Joint; j.Glued || j.High != m.High || !(j.Low > 0 && j.Low < m.Low) || math.Abs(j.Travel-3*0.0254) > 1e-9 {
		t.Errorf("joint %+v", *m.Joint)
	}
	// 14 in less 10 in.
	if g := m.Gap; math.Abs(g.Clear-4*0.0254) > 1e-9 || math.Abs(g.Least-(g.Clear-m.High)) > 1e-12 {
		t.Errorf("air gap %+v", *m.Gap)
	}
	// 5 m along the pipe at 1/8 in/ft, which is 1 in 96: 52.1 mm. Over more than 3 m the whole half counts.
	f := m.Fall[0]
	if len(m.Fall) != 1 || f.Segment != 1 || math.Abs(f.Fall-5.0/96) > 5e-5 || math.Abs(f.Left-(f.Fall-f.High)) > 1e-12 {
		t.Errorf("fall %+v", m.Fall)
	}
	if !(f.High > 0 && f.High < m.High/2) {
		t.Errorf("uneven by %g m under %g m of heave at the surface", f.High, m.High)
	}
}

// The limit of the joint is passed the sooner the less it takes, and later at the low end of the range.
func TestSlipUsedUp(t *testing.T) {
	last := 0.0
	for _, travel := range []string{"20 mm", "60 mm"} {
		j := heaveRun(t, strings.Replace(heaveHouse, "TRAVEL", travel, 1)).Movement.Joint
		if j.May == nil || *j.May <= last || (j.Surely != nil) != (j.Low > j.Travel) || j.Surely != nil && *j.Surely <= *j.May {
			t.Fatalf("travel %s: %+v", travel, *j)
		}
		last = *j.May
	}
	if j := heaveRun(t, strings.Replace(heaveHouse, "TRAVEL", "2 m", 1)).Movement.Joint; j.May != nil || j.Surely != nil {
		t.Errorf("travel of 2 m used up: %+v", *j)
	}
}

// A run below the frost stays where it is while the surface above it heaves; in sand all stays.
func TestWhatStays(t *testing.T) {
	m := heaveRun(t, strings.Replace(heaveHouse, "COVER", "1.5 m", 1)).Movement
	if f := m.Fall[0]; f.High != 0 || f.Left != f.Fall || f.LowSpot != 0 || f.At != 0 || m.High == 0 || m.Joint.Low != 0 {
		t.Errorf("run at 1.5 m: fall %+v, joint %+v, surface %g m", f, *m.Joint, m.High)
	}
	sand := strings.Replace(strings.Replace(heaveHouse, "silt loam", "sand", 1), "30 %", "10 %", 1)
	if m := heaveRun(t, sand).Movement; m.High != 0 || m.Joint.High != 0 || m.Fall[0].High != 0 || m.At != 0 {
		t.Errorf("sand: %+v, joint %+v", m, *m.Joint)
	}
}

// A glued line takes the movement at the wall, where only what grows under it lifts it.
func TestGluedJointMoves(t *testing.T) {
	from, to := strings.Index(heaveHouse, "[standpipe]"), strings.Index(heaveHouse, "[outlet]")
	m := heaveRun(t, heaveHouse[:from]+heaveHouse[to:]).Movement
	if j := m.Joint; !j.Glued || j.Travel != 0 || j.May != nil || !(0 < j.Low && j.Low < j.High && j.High < m.High) || m.Gap != nil {
		t.Errorf("joint %+v, gap %v", *j, m.Gap)
	}
}

// A run is lifted by what grows under it where it lies shallowest: one that comes up from 24 in to 8 in may lose about as
// much of its fall as one that lies 8 in deep throughout.
func TestRunMovesWhereItIsShallowest(t *testing.T) {
	level := heaveRun(t, heaveHouse).Movement.Fall[0]
	rising := strings.Replace(heaveHouse, `cover = "COVER"`, `cover = ["24 in", "8 in"]`, 1)
	fall := heaveRun(t, rising).Movement.Fall[0]
	if math.Abs(fall.High-level.High) > 0.05*level.High || level.High <= 0 {
		t.Errorf("loses up to %g m; level %g", fall.High, level.High)
	}
}
