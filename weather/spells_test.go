package weather

import (
	"math"
	"slices"
	"testing"
	"time"
)

// Forty days at 1 °C with three cold stretches: two days at −20 °C from day 5, three days at
// −10 °C from day 10, three at −12 °C from day 30. The coldest three days on average are the
// first stretch with a day at 1 °C beside it: (2·−20 + 1)/3 = −13 °C, then −12, then −10.
func TestColdestSpells(t *testing.T) {
	day := func(h float64) float64 { return h / 24 }
	s := hourly(40*24, func(h float64) float64 {
		switch d := day(h); {
		case d >= 5 && d < 7:
			return -20
		case d >= 10 && d < 13:
			return -10
		case d >= 30 && d < 33:
			return -12
		}
		return 1
	})
	spells := s.coldestSpells(10)
	if len(spells) != 3 {
		t.Fatalf("%d spells, want 3: %+v", len(spells), spells)
	}
	// Joined linearly, a change from one hour to the next is spread over that hour: up to
	// 21 K · 1 h / 72 h = 0.3 K.
	for i, want := range []struct{ mean, from, low float64 }{{-13, 4, -20}, {-12, 30, -12}, {-10, 10, -10}} {
		p := spells[i]
		if math.Abs(p.Mean-want.mean) > 0.3 || p.Lowest != want.low || math.Abs(p.Start/86400-want.from) > 1.1 {
			t.Errorf("spell %d: %+v, want about %+v", i, p, want)
		}
		if p.End-p.Start != SpellLength || !math.IsNaN(p.Wind) || !math.IsNaN(p.Snow) {
			t.Errorf("spell %d: %+v", i, p)
		}
		for _, q := range spells[:i] {
			if p.Start < q.End && q.Start < p.End {
				t.Errorf("%+v and %+v share time", p, q)
			}
		}
	}
}

// Air that falls from 10 °C to −10 °C in 10 h, stays for 20 h and rises again in 10 h: below
// 0 °C for 5 + 20 + 5 h from hour 5 on; below −10 °C never.
func TestLongestBelow(t *testing.T) {
	s := hourly(40, func(h float64) float64 {
		return 10 - 2*math.Min(10, math.Min(h, 40-h))
	})
	if from, length := s.longestBelow(0); from != 5*3600 || length != 30*3600 {
		t.Errorf("below 0 °C: from %g h for %g h, want from 5 h for 30 h", from/3600, length/3600)
	}
	if _, length := s.longestBelow(-10); length != 0 {
		t.Errorf("below -10 °C for %g h, want never", length/3600)
	}
	if from, length := s.longestBelow(20); from != 0 || length != s.End() {
		t.Errorf("below 20 °C: from %g for %g, want the whole record", from, length)
	}
}

// −5 °C throughout, from June 20, 2025 to July 10, 2026: 10 days of the winter that ends in
// 2025 (from July to June), 365 of the one that ends in 2026, 9 of the next; 5 K each.
func TestWinters(t *testing.T) {
	s := hourly(384*24, func(float64) float64 { return -5 })
	s.Start = time.Date(2025, 6, 21, 0, 0, 0, 0, time.UTC)
	want := []WinterCold{{2025, 50, -5, 10}, {2026, 5 * 365, -5, 365}, {2027, 45, -5, 9}}
	if got := s.Winters(); !slices.Equal(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// The digest of two spans: the lower of two lows, the hours of both together, one winter.
func TestDigestOfSpans(t *testing.T) {
	a := hourly(48, func(h float64) float64 { return -h / 10 })
	b := hourly(96, func(h float64) float64 { return -8 })
	a.Start = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	b.Start = time.Date(2026, 1, 10, 0, 0, 0, 0, time.UTC)
	a.Rain = make([]float64, 49)
	a.Rain[3] = 0.004
	d := DigestOf(a, b)
	if d.Rows != 146 || d.Hours != 48+96 || len(d.Spans) != 2 || d.Present() != 1 {
		t.Errorf("%+v", d)
	}
	if d.Coldest.Value != -8 || !d.Coldest.Time.Equal(b.Start) || d.ColdestDay.Value != -8 {
		t.Errorf("coldest %+v, day %+v", d.Coldest, d.ColdestDay)
	}
	if len(d.Winters) != 1 || d.Winters[0].Days != 6 || d.Below[0].Length != 96*3600 {
		t.Errorf("winters %+v, below %+v", d.Winters, d.Below)
	}
	// 4 mm in two days of the span that has rain: 2 mm a day.
	if len(d.Columns) != 2 || d.Columns[1].Name != "rain" || math.Abs(d.Columns[1].Mean-0.002) > 1e-15 {
		t.Errorf("columns %+v", d.Columns)
	}
}
