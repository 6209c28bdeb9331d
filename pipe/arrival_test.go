package pipe

import (
	"math"
	"strings"
	"testing"
	"time"
)

// litresPerHour is 1 L/h [m³/s].
const litresPerHour = 1e-3 / 3600

func TestParseArrival(t *testing.T) {
	const gallonsPerHour = 3.785411784 * litresPerHour
	from := time.Date(2026, 1, 10, 6, 0, 0, 0, time.UTC)
	for text, want := range map[string]Arrival{
		"2 gal/h":                              {Flow: 2 * gallonsPerHour},
		" 20 L/h  from 2026-01-10 06:00 ":      {Flow: 20 * litresPerHour, From: from},
		"8 gal/h falling by half every 2 days": {Flow: 8 * gallonsPerHour, Halving: 172800},
		"8 gal/h falling  by half every 36 h from 2026-01-10T06:00":                  {Flow: 8 * gallonsPerHour, Halving: 129600, From: from},
		"8 gal/h falling by half every 2 days down to 1 gal/h":                       {Flow: 8 * gallonsPerHour, Halving: 172800, DownTo: gallonsPerHour},
		"8 gal/h falling by half every 2 days down to 1 gal/h from 2026-01-10 06:00": {Flow: 8 * gallonsPerHour, Halving: 172800, DownTo: gallonsPerHour, From: from},
	} {
		got, err := ParseArrival(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		near(t, text+": flow", got.Flow, want.Flow, 1e-18)
		near(t, text+": halving", got.Halving, want.Halving, 0)
		near(t, text+": down to", got.DownTo, want.DownTo, 1e-18)
		if !got.From.Equal(want.From) {
			t.Errorf("%q: from %s", text, got.From)
		}
	}
	for text, want := range map[string]string{
		"":                                     `found ""; expected a flow such as`,
		"2":                                    `found "2" (no unit); expected a flow with its unit`,
		"2 ft":                                 `found "2 ft", a length; expected a flow`,
		"500 L/s":                              `expected a flow above 0 and at most 0.1 m3/s`,
		"-2 gal/h":                             `expected a flow above 0 and at most 0.1 m3/s`,
		"0 gal/h":                              `expected a flow above 0 and at most 0.1 m3/s`,
		"0 L/h falling by half every 2 days":   `expected a flow above 0 and at most 0.1 m3/s`,
		"8 gal/h falling by half every 2 gal":  `found "8 gal/h falling by half every 2 gal"; expected a time in which the flow falls by half from 1 h to 366 days`,
		"8 gal/h falling by half every 10 min": `expected a time in which the flow falls by half from 1 h`,
		"8 gal/h falling by half every 2 days down to 9 gal/h": `expected down to a flow with its unit that is no more than the first`,
		"8 gal/h falling by half every 2 days down to 1":       `expected down to a flow with its unit`,
		"8 gal/h from spring":                                  `found "spring"; expected a time such as`,
	} {
		if _, err := ParseArrival(text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; want %s", text, err, want)
		}
	}
}

// By hand: 8 L/h falling by half every 2 h. In the first hour 8·2/ln 2·(1 − 2^-½) =
// 23.0831·0.292893 = 6.76089 L come, in the second 2^-½ of that, 4.78067, in the third half
// of the first. In an infinity of hours it would be 23.0831 L.
func TestRecessionRows(t *testing.T) {
	start := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	a := Arrival{Flow: 8 * litresPerHour, Halving: 7200}
	rows := a.Rows(start, 100*3600)
	wantRows(t, rows[:3], start, [][2]float64{{0, 6.76089}, {1, 4.78067}, {2, 3.38044}})
	total := 0.0
	for _, r := range rows {
		total += r.Inflow * 3600
	}
	near(t, "litres in all", 1000*total, 23.08312, 1e-4)

	// Down to 2 L/h: there after 4 h, on the hour; down to 3 L/h after 2·log2(8/3) = 2.830075 h,
	// until when 23.0831·(1−3/8) = 14.42695 L have come, 2.88539 of them after hour 2; the rest
	// of the third hour brings 0.169925·3 = 0.50977 L.
	a.DownTo = 2 * litresPerHour
	wantRows(t, a.Rows(start, 100*3600), start, [][2]float64{{0, 6.76089}, {1, 4.78067}, {2, 3.38044}, {3, 2.39033}, {4, 2}})
	a.DownTo = 3 * litresPerHour
	wantRows(t, a.Rows(start, 100*3600), start, [][2]float64{{0, 6.76089}, {1, 4.78067}, {2, 2.88539 + 0.50977}, {3, 3}})

	// From half past five on, with the 3 L/h that it falls to before; and begun two hours before the record.
	a.From = start.Add(330 * time.Minute)
	wantRows(t, a.Rows(start, 100*3600)[:3], start, [][2]float64{{0, 3}, {5.5, 6.76089}, {6.5, 4.78067}})
	a.From = start.Add(-2 * time.Hour)
	wantRows(t, a.Rows(start, 100*3600), start, [][2]float64{{0, 2.88539 + 0.50977}, {1, 3}})

	// A record that ends sooner has no rows after its end.
	a = Arrival{Flow: 8 * litresPerHour, Halving: 7200}
	if n := len(a.Rows(start, 2*3600)); n != 2 {
		t.Errorf("%d rows in two hours", n)
	}
}

func TestSteadyRows(t *testing.T) {
	start := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	a := Arrival{Flow: 2 * litresPerHour}
	wantRows(t, a.Rows(start, 10*3600), start, [][2]float64{{0, 2}})
	a.From = start.Add(3 * time.Hour)
	wantRows(t, a.Rows(start, 10*3600), start, [][2]float64{{0, 0}, {3, 2}})
}

// wantRows compares rows with hours since start and L/h.
func wantRows(t *testing.T, got []InflowRow, start time.Time, want [][2]float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d: %v", len(got), len(want), got)
	}
	for i, r := range got {
		if hours := r.Time.Sub(start).Hours(); math.Abs(hours-want[i][0]) > 1e-9 || math.Abs(r.Inflow/litresPerHour-want[i][1]) > 1.1e-5 {
			t.Errorf("row %d: %.6f L/h from hour %g on, want %v", i, r.Inflow/litresPerHour, hours, want[i])
		}
	}
}
