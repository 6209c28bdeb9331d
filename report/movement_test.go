package report

import (
	"slices"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// moving is a sample winter with a movement: invented numbers in whole tenths of an inch.
func moving(m sim.Movement) *sim.Result {
	r := plain(sim.Iced)
	r.Movement = &m
	return r
}

func inches(v float64) float64 { return v * metresPerInch }

// lifted is a joint that may rise 0.4 to 1.6 in.
func lifted(j sim.JointMovement) sim.Movement {
	j.Low, j.High, j.At = inches(0.4), inches(1.6), 40*86400
	return sim.Movement{Low: j.Low, High: j.High, At: j.At, Joint: &j}
}

func TestJointMoveWords(t *testing.T) {
	at := ptr(40 * 86400)
	for _, c := range []struct {
		joint sim.JointMovement
		want  string
	}{
		{sim.JointMovement{Travel: inches(3)}, "frost could lift the standpipe 0.4 to 1.6 in (10 to 41 mm); the slip joint takes 3 in (76 mm)"},
		{sim.JointMovement{Travel: inches(1), Limit: sim.Limit{May: at}},
			"frost could lift the standpipe 0.4 to 1.6 in (10 to 41 mm), which may be more than the 1 in (25 mm) that the slip joint takes: at the worst used up on Sat Jan 10 00:00"},
		{sim.JointMovement{Travel: inches(0.2), Limit: sim.Limit{May: at, Surely: at}},
			"frost could lift the standpipe 0.4 to 1.6 in (10 to 41 mm), more than the 0.2 in (5 mm) that the slip joint takes: used up by Sat Jan 10 00:00 at the latest"},
		{sim.JointMovement{Glued: true}, "the glued joint must take 0.4 to 1.6 in (10 to 41 mm)"},
	} {
		if got := movementWords(moving(lifted(c.joint)), US)[0]; got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
	if got, want := movementWords(moving(lifted(sim.JointMovement{Glued: true})), SI)[0], "the glued joint must take 10 to 41 mm (0.4 to 1.6 in)"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// Every other line: gap, outlet and falls.
func TestMovementWords(t *testing.T) {
	m := lifted(sim.JointMovement{Travel: inches(3)})
	m.Gap = &sim.GapMovement{Clear: inches(4), Least: inches(2.4)}
	m.Outlet = &sim.Lift{High: inches(1.6)}
	yard := slices.IndexFunc(plain(sim.Iced).Layout.Segments, func(s pipe.Segment) bool { return s.Name == "yard run" })
	if yard < 0 {
		t.Fatal("the sample has no yard run")
	}
	run := sim.FallLeft{Segment: yard, Length: 16 * metresPerFoot, Fall: inches(2.1), High: inches(0.8), Left: inches(1.3)}
	back, sagging, deep := run, run, run
	back.Fall, back.Left, back.LowSpot, back.At = inches(0.5), -inches(0.3), inches(0.4), 2
	sagging.Sag, sagging.LowSpot = inches(0.5), inches(0.9)
	sagging.Water = 2 * 231 * inches(1) * inches(1) * inches(1) // 2 gal
	deep.High, deep.Left = 0, deep.Fall
	m.Fall = []sim.FallLeft{run, back, sagging, deep, run}
	want := []string{
		"frost could lift the standpipe 0.4 to 1.6 in (10 to 41 mm); the slip joint takes 3 in (76 mm)",
		"of the 4 in (102 mm) of air between relief opening and house pipe, 2.4 in (61 mm) or more stay",
		"the lid could rise up to 1.6 in (41 mm)",
		"the yard run falls 2.1 in (53 mm) over 16 ft (4.9 m); uneven heave of up to 0.8 in (20 mm) can leave 1.3 in (33 mm) of fall",
		"the yard run falls 0.5 in (13 mm) over 16 ft (4.9 m); uneven heave of up to 0.8 in (20 mm) can leave a back-fall of 0.3 in (8 mm), and a low spot of 0.4 in (10 mm) in it",
		"the yard run falls 2.1 in (53 mm) over 16 ft (4.9 m); uneven heave of up to 0.8 in (20 mm) can leave 1.3 in (33 mm) of fall, and deepen its low spot from 0.5 in (13 mm) to 0.9 in (23 mm), where up to 2 gal (7.6 L) would stand",
		"the yard run falls 2.1 in (53 mm) over 16 ft (4.9 m); heave takes nothing off that: the frost stays above it or hardly passes it",
		"1 more segment in summary.json",
		"(rough figures, from the least to the most for such soil: ground called alike heaves very differently)",
	}
	if got := movementWords(moving(m), US); !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestGapMoveWords(t *testing.T) {
	m := lifted(sim.JointMovement{Travel: inches(3)})
	m.Gap = &sim.GapMovement{Clear: inches(1), Least: -inches(0.6), Limit: sim.Limit{May: ptr(40 * 86400)}}
	want := "the relief opening may rise past the house pipe's end, from Sat Jan 10 00:00 on: water then stands in the house pipe before it runs out"
	if got := movementWords(moving(m), US)[1]; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

func TestNoMovementWords(t *testing.T) {
	r := plain(sim.Clear)
	if got := movementWords(r, US); got != nil {
		t.Errorf("without a movement: %q", got)
	}
	r.Movement, r.Ground = &sim.Movement{}, nil
	if got := movementWords(r, US); len(got) != 1 || !strings.Contains(got[0], "no frost") {
		t.Errorf("without frost: %q", got)
	}
	r.Ground = &sim.GroundResult{Seasons: []sim.FrostSeason{{Deepest: 0.5}}}
	if got := movementWords(r, US); len(got) != 1 || !strings.Contains(got[0], "too clean") {
		t.Errorf("frost in sand: %q", got)
	}
}

func TestMoves(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		us, si    string
	}{
		{0.010, 0.041, "0.4 to 1.6 in (10 to 41 mm)", "10 to 41 mm (0.4 to 1.6 in)"},
		{0.0002, 0.041, "up to 1.6 in (41 mm)", "up to 41 mm (1.6 in)"},
		{0.001, 0.0410, "up to 1.6 in (41 mm)", "up to 41 mm (1.6 in)"},
		{0.0254, 0.0254, "1 in (25 mm)", "25 mm (1 in)"},
		{0.0254, 0.254, "1 to 10 in (25 to 254 mm)", "25 to 254 mm (1 to 10 in)"},
	} {
		if us, si := US.moves(c.low, c.high), SI.moves(c.low, c.high); us != c.us || si != c.si {
			t.Errorf("%g to %g m: %q and %q; want %q and %q", c.low, c.high, us, si, c.us, c.si)
		}
	}
}

func TestSummaryMovement(t *testing.T) {
	if got := summaryMovement(plain(sim.Clear)); got != nil {
		t.Errorf("without a movement: %+v", got)
	}
	m := lifted(sim.JointMovement{Glued: true})
	m.Fall = []sim.FallLeft{{Segment: 0, Fall: 0.05, High: 0.02, Left: 0.03, Water: 0.00294}}
	got := summaryMovement(moving(m))
	if *got.Surface.High != 0.0406 || got.Joint.Travel != nil || !got.Joint.Glued || got.Joint.At.Hour != 960 || got.Gap != nil || got.Outlet != nil {
		t.Errorf("%+v, joint %+v", got, got.Joint)
	}
	if f := got.Fall[0]; *f.Left != 0.03 || *f.Water != 2.94 || f.At != nil || f.Segment != "riser" {
		t.Errorf("fall %+v", f)
	}
}
