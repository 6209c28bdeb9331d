package weather

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"
)

// winters is a record of n winters, from 1 November 2000 on, in which the air is 5 °C except
// on 10 January: the whole of that day, from midnight to the next, it is as cold as
// lowest says for the k-th winter.
func winters(n int, lowest func(k int) float64) *Series {
	s := &Series{Source: "/some/where/1.csv, else/2.csv", Start: time.Date(2000, 11, 1, 0, 0, 0, 0, time.UTC)}
	end := time.Date(2000+n, 4, 1, 0, 0, 0, 0, time.UTC)
	for at := s.Start; !at.After(end); at = at.Add(time.Hour) {
		air := 5.0
		if in := at.Sub(time.Date(at.Year(), 1, 10, 0, 0, 0, 0, time.UTC)); in >= 0 && in <= 24*time.Hour {
			air = lowest(at.Year() - 2001)
		}
		s.Time = append(s.Time, at.Sub(s.Start).Seconds())
		s.Air = append(s.Air, air)
		s.DewPoint = append(s.DewPoint, air-3)
		s.Wind = append(s.Wind, float64(at.Hour()))
		s.LongWave = append(s.LongWave, 200)
	}
	return s
}

// Eleven winters whose coldest days are -1, -2 … -11 °C, out of order: the ten-year day is
// that of the hand calculation of chance's TestFitGumbelByHand, -10.83 °C, so the spell of -11 °C
// comes out 0.17 K milder. 24 h from one midnight to the next have the mean of the day.
func TestReturnSnap(t *testing.T) {
	days := []float64{-7, -3, -11, -1, -9, -2, -10, -4, -8, -6, -5}
	record := winters(len(days), func(k int) float64 { return days[k] })
	s, problems := ReturnSnap{Years: 10, Before: 5 * secondsPerDay, After: 3 * secondsPerDay}.Of(record)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if want := time.Date(2003, 1, 5, 0, 0, 0, 0, time.UTC); s.Start != want {
		t.Errorf("begins %s, want %s", s.Start, want)
	}
	if s.End() != 9*secondsPerDay {
		t.Errorf("%g days long, want 5 + 1 + 3", s.End()/secondsPerDay)
	}
	_, mean, _ := s.coldestDay()
	near(t, "coldest 24 h", mean, -10.83, 1e-9)
	near(t, "first hour", s.Air[0], 5.17, 1e-12)
	near(t, "its dew point", s.DewPoint[0], 2.17, 1e-12)
	near(t, "its sky", s.LongWave[0], 200*math.Pow(278.32/278.15, 4), 0.051)
	near(t, "wind", s.Wind[7], 7, 0)
	head := strings.Join(s.Design, "\n")
	for _, want := range []string{"the coldest spell of 1.csv, 2.csv, every hour 0.17 K (0.3 degF) milder than recorded",
		"from 2003-01-10 00:00, then have a mean of -10.83 degC (12.5 degF) instead of -11.00 degC (12.2 degF)", "once in 10 years on average, with a standard error of 2.2 K (3.9 degF)",
		"11 winters, 2000-01 to 2010-11: location -4.33 degC (24.2 degF), scale 2.89 K (5.2 degF)"} {
		if !strings.Contains(head, want) {
			t.Errorf("no %q in\n%s", want, head)
		}
	}
	if strings.Contains(head, "mind") {
		t.Error("ten years of eleven winters are no extrapolation")
	}
	var out bytes.Buffer
	if err := s.WritePlain(&out); err != nil {
		t.Fatal(err)
	}
	if _, problems := Read("snap.csv", &out); len(problems) > 0 {
		t.Error(problems)
	}
	// 100 years: 4.334507 + 2.885390·4.600149 = 17.607731, 6.61 K colder than -11 °C.
	s, _ = ReturnSnap{Years: 100, Before: 0, After: secondsPerDay}.Of(record)
	_, mean, _ = s.coldestDay()
	near(t, "hundred-year day", mean, -17.61, 1e-9)
	if head := strings.Join(s.Design, "\n"); !strings.Contains(head, "6.61 K (11.9 degF) colder") || !strings.Contains(head, "note: more than twice") {
		t.Errorf("head\n%s", head)
	}
}

// Fewer than ten winters are refused with their number; a winter whose core is not whole
// does not count, be it at the record's end or for a gap between spans. Typical years are
// refused.
func TestReturnSnapRefused(t *testing.T) {
	ask := func(spans ...*Series) string {
		_, problems := ReturnSnap{Years: 10, Before: secondsPerDay, After: secondsPerDay}.Of(spans...)
		return problems.Error()
	}
	lowest := func(k int) float64 { return -float64(k % 7) }
	const expected = "; expected a record of at least 10 winters with December to February whole, for a return period"
	if got := ask(winters(9, lowest)); got != "/some/where/1.csv, else/2.csv: found 9 whole winters"+expected {
		t.Error(got)
	}
	if got := ask(winters(1, lowest)); got != "/some/where/1.csv, else/2.csv: found 1 whole winter"+expected {
		t.Error(got)
	}
	ten := winters(10, lowest)
	if got := ask(ten); got != "" {
		t.Error(got)
	}
	// Ten winters less ten days of a February.
	february := time.Date(2005, 2, 1, 0, 0, 0, 0, time.UTC).Sub(ten.Start).Seconds()
	if got := ask(ten.cut(0, february), ten.cut(february+10*secondsPerDay, ten.End())); got != "/some/where/1.csv, else/2.csv: found 9 whole winters"+expected {
		t.Error(got)
	}
	// A gap of a day leaves enough.
	if got := ask(ten.cut(0, february), ten.cut(february+secondsPerDay, ten.End())); got != "" {
		t.Error(got)
	}
	ten.Typical = true
	if got := ask(ten); got != "/some/where/1.csv, else/2.csv: found a typical year"+expected {
		t.Error(got)
	}
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s %.7g, want %.7g ± %g", what, got, want, tolerance)
	}
}
