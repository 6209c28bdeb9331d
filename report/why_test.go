package report

import (
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
)

// closedCase is a line that shut at hour 5 in its second segment.
func closedCase() *sim.Result {
	at := 5.5 * 3600
	r := &sim.Result{
		Layout:   &pipe.Layout{Segments: []pipe.Segment{{Name: "riser"}, {Name: "yard run", Sag: 0.03}}, Outlet: pipe.Outlet{Kind: pipe.Lid, Weep: &pipe.Slot{Height: 0.01, Width: 0.05}}},
		Segments: []sim.SegmentResult{{Name: "riser"}, {Name: "yard run", Standing: 0.030}},
		Verdict:  sim.Verdict{Closed: &at, ClosedWhere: 1},
		Cycles: []sim.CycleRecord{
			{Time: 1.5 * 3600, Volume: 0.04, Outlet: 0.04},
			{Time: 4 * 3600, Volume: 0.04, Refused: 0.04}, // brought nothing
			{Time: 6 * 3600, Volume: 0.04, Outlet: 0.04},  // after it had shut
		},
	}
	for h := range 10 {
		r.Hourly.Time = append(r.Hourly.Time, float64(h)*3600)
		r.Hourly.Air = append(r.Hourly.Air, -10-float64(h))
		r.Hourly.Frost = append(r.Hourly.Frost, 0.5)
		r.Hourly.Pocket = append(r.Hourly.Pocket, 1)
	}
	return r
}

// Why it shut is told from the hour at which it did (−15 °C at hour 5), with what held the water and
// the last run that sent any into the line (4 h before).
func TestWhyItShut(t *testing.T) {
	cases := []struct {
		name   string
		change func(*sim.Result)
		want   []string
	}{
		{"full pocket", func(*sim.Result) {}, []string{"Up to 30 L stood in the yard run, because the rock pocket was full", "-15 °C (5 °F)", "frost 50 cm deep", "4 hours before"}},
		{"no slot", func(r *sim.Result) { r.Layout.Outlet.Weep, r.Hourly.Pocket = nil, nil }, []string{"no slot to drain it"}},
		{"sag", func(r *sim.Result) { r.Hourly.Pocket = nil }, []string{"in its sag"}},
		{"open", func(r *sim.Result) {
			r.Layout.Outlet.Kind, r.Layout.Segments[1].Sag, r.Hourly.Frost[5] = pipe.Open, 0, 0
		}, []string{"after the pump had stopped"}},
	}
	for _, c := range cases {
		r := closedCase()
		c.change(r)
		got := strings.Join(paragraph(whyWords(r, SI)), "\n")
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q lacks %q", c.name, got, want)
			}
		}
		if c.name == "open" && strings.Contains(got, "frost") {
			t.Errorf("%s: %q tells of frost where there was none", c.name, got)
		}
	}
	r := closedCase()
	r.Verdict.Closed = nil
	if got := whyWords(r, SI); got != nil {
		t.Errorf("a line that never shut: %q", got)
	}
}
