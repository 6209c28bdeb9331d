package weather

import (
	"bytes"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"
)

// designSnap is a snap of plain numbers: from -2 °C down to a mean of -24 °C in 18 h.
var designSnap = Snap{Low: -28, Mild: -2, Swing: 8, Fall: 18 * 3600, Bottom: 4 * 86400, Rise: 11 * 3600,
	Before: 2 * 86400, After: 86400, Begins: time.Date(2026, 1, 15, 0, 0, 0, 0, time.UTC), Wind: 6.7056, Snow: 0.1016}

// Hour by hour, worked by hand. The fall is 22 K in 18 h, 1.2222 K an hour; the swing at
// full hours is 4 K times the cosine of 15° for each hour after 06:00: 1, 0.96593, 0.86603,
// 0.70711, 0.5, 0.25882, 0 and back with the other sign.
func TestSnapHourByHour(t *testing.T) {
	s := designSnap.Series()
	if s.Start != time.Date(2026, 1, 13, 0, 0, 0, 0, time.UTC) {
		t.Fatalf("begins %s", s.Start)
	}
	at := func(day, hour int) float64 {
		want := time.Date(2026, 1, day, hour, 0, 0, 0, time.UTC)
		return s.Air[int(want.Sub(s.Start).Hours())]
	}
	for _, c := range []struct {
		day, hour int
		want      float64
	}{
		// A mild day: -2 - 4·cos.
		{13, 0, -2}, {13, 1, -3.04}, {13, 2, -4}, {13, 3, -4.83}, {13, 4, -5.46}, {13, 5, -5.86}, {13, 6, -6}, {13, 7, -5.86},
		{13, 12, -2}, {13, 15, 0.83}, {13, 18, 2}, {13, 21, 0.83}, {14, 6, -6},
		// The fall: -2 - 1.2222·h, less the swing.
		{15, 0, -2},                 // 0 h
		{15, 1, -3.2222 - 1.0353},   // -4.2575
		{15, 2, -4.4444 - 2},        // -6.4444
		{15, 3, -5.6667 - 2.8284},   // -8.4951
		{15, 6, -9.3333 - 4},        // -13.3333
		{15, 9, -13 - 2.8284},       // -15.8284
		{15, 12, -16.6667},          // no swing at noon
		{15, 17, -22.7778 + 3.8637}, // -18.9141
		{15, 18, -24 + 4},           // the bottom begins, at the day's warmest
		{16, 6, -28}, {17, 6, -28}, {18, 6, -28}, {19, 6, -28}, {17, 0, -24}, {17, 18, -20}, {19, 18, -20},
		// The rise: from 19 January 18:00 on 2 K an hour.
		{19, 19, -22 + 3.8637}, {19, 21, -18 + 2.8284}, {20, 0, -12}, {20, 4, -4 - 3.4641}, {20, 5, -2 - 3.8637}, {20, 6, -6},
		{21, 5, -5.86},
	} {
		if got := at(c.day, c.hour); math.Abs(got-c.want) > 0.0051 { // rounded to hundredths
			t.Errorf("on the %dth at %02d:00: %g °C, want %.4f", c.day, c.hour, got, c.want)
		}
	}
	// 2 days, 18 h, 4 days, 11 h and a day are 197 h: a row at each end.
	if len(s.Time) != 198 || s.End() != 197*3600 {
		t.Errorf("%d rows over %g h, want 198 over 197", len(s.Time), s.End()/3600)
	}
	if _, low := s.Coldest(); low != -28 {
		t.Errorf("lowest %g °C, want -28", low)
	}
	// A day at the bottom has the mean of its swing's middle, -28 + 8/2.
	if _, mean, _ := s.coldestDay(); math.Abs(mean+24) > 0.001 {
		t.Errorf("coldest day %g °C, want -24", mean)
	}
	for i := range s.Time {
		if s.Wind[i] != 6.7056 || s.SnowDepth[i] != 0.1016 {
			t.Fatalf("row %d: wind %g m/s, snow %g m, want 15 mph and 4 in", i, s.Wind[i], s.SnowDepth[i])
		}
	}
}

// A snap that begins at another hour has its coldest hour at 06:00 all the same; times that
// are no whole hours end in the hour after; snow comes at its hour.
func TestSnapOffTheHour(t *testing.T) {
	p := designSnap
	p.Begins = time.Date(2026, 1, 15, 15, 0, 0, 0, time.UTC)
	p.Before, p.Fall, p.SnowFrom = 90*60, 3600*2.5, p.Begins
	s := p.Series()
	if got := s.Start; got != p.Begins.Add(-2*time.Hour) {
		t.Errorf("begins %s", got)
	}
	at, low := s.Coldest()
	if hour := s.Stamp(at).Hour(); hour != 6 || low != -28 {
		t.Errorf("coldest at %d:00 with %g °C", hour, low)
	}
	if s.SnowDepth[1] != 0 || s.SnowDepth[2] != 0.1016 {
		t.Errorf("snow %v round its hour", s.SnowDepth[:4])
	}
}

// Twice made it is the same to the byte; read back it is the same series, and so is what
// that series writes.
func TestSnapReadsBack(t *testing.T) {
	s := designSnap.Series()
	write := func(s *Series) []byte {
		var out bytes.Buffer
		if err := s.WritePlain(&out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	text := write(s)
	if again := write(designSnap.Series()); !bytes.Equal(text, again) {
		t.Error("made again it differs")
	}
	if !strings.HasPrefix(string(text), "# design cold snap: made by rule, no record of any winter\n") {
		t.Errorf("head %q", text[:80])
	}
	back, problems := Read("snap.csv", bytes.NewReader(text))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if len(back.Repairs)+len(back.Notes) > 0 {
		t.Errorf("mended %v, noted %v", back.Repairs, back.Notes)
	}
	back.Source, s.Source = "", ""
	if !reflect.DeepEqual(back, s) {
		t.Errorf("read back it is %+v", back)
	}
	if again := write(back); !bytes.Equal(text, again) {
		t.Error("written again it differs")
	}
}
