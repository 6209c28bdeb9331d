package sim

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/weather"
)

func loadTrial(t testing.TB, dir string) *Case {
	text, err := os.ReadFile(dir + "/layout.toml")
	if err != nil {
		t.Fatal(err)
	}
	l, ps := pipe.ReadLayout("layout.toml", text)
	if ps != nil {
		t.Fatal(ps)
	}
	p, ps := l.MakeProfile("layout.toml")
	if ps != nil {
		t.Fatal(ps)
	}
	wt, _ := os.ReadFile(dir + "/weather.csv")
	s, ps := weather.Read("weather.csv", bytes.NewReader(wt))
	if ps != nil {
		t.Fatal(ps)
	}
	ct, _ := os.ReadFile(dir + "/pump.csv")
	c, ps := pipe.ReadCycles("pump.csv", bytes.NewReader(ct))
	if ps != nil {
		t.Fatal(ps)
	}
	return &Case{Name: dir, Layout: l, Profile: p, Weather: s, Cycles: c}
}

func TestTrial(t *testing.T) {
	dir := os.Getenv("TRIAL")
	if dir == "" {
		t.Skip()
	}
	k := loadTrial(t, dir)
	start := time.Now()
	r, err := Run(context.Background(), k, Settings{})
	fmt.Println("took", time.Since(start), err)
	if r == nil {
		return
	}
	fmt.Printf("verdict %+v\n", r.Verdict)
	f := func(p *float64) string {
		if p == nil {
			return "-"
		}
		return fmt.Sprintf("%.2f h", *p/3600)
	}
	fmt.Println("first", f(r.Verdict.FirstIce), "closed", f(r.Verdict.Closed), "dendritic", f(r.Verdict.ClosedDendritic), "reopened", f(r.Verdict.Reopened), "relief", f(r.Verdict.Relief), "spill", f(r.Verdict.Spill))
	fmt.Printf("ledger %+v\n", r.Ledger)
	fmt.Printf("balance %+v\n", r.Balance)
	fmt.Printf("stats %+v\n", r.Stats)
	for _, s := range r.Segments {
		fmt.Printf("seg %s stand %.1f L low %.2f first %s 10 %s 50 %s 90 %s closed %s with %.1f shut %.1f largest %.3f\n", s.Name, s.Standing*1000, s.LowestWater, f(s.FirstIce), f(s.Ice10), f(s.Ice50), f(s.Ice90), f(s.Closed), s.HoursWithIce, s.HoursClosed, s.LargestIce)
	}
	for _, e := range r.Events {
		v := ""
		if e.Value != nil {
			v = fmt.Sprintf("%.3f %s", *e.Value, e.Unit)
		}
		fmt.Printf("%8.2f %-15s %-12s %s | %s\n", e.Time/3600, e.Kind, e.Where, v, e.Meaning)
	}
	for _, c := range r.Worst.Cells {
		fmt.Printf("  seg %d x %.2f-%.2f z %.3f-%.3f fill %.3f ice %.3f T %.2f closed %v up %v\n", c.Segment, c.X0, c.X1, c.Z0, c.Z1, c.Fill, c.Ice, c.Temperature, c.Closed, c.Vertical)
	}
}
