package pipe

import (
	"math"
	"strings"
	"testing"
	"time"
)

func TestReadCycles(t *testing.T) {
	text := "\xef\xbb\xbf# logged by hand\r\nstart,run_s,flow_gal_min,x_note\r\n2026-01-17 05:00,45,,first\r\n\r\n\"2026-01-17T11:00:00\",40,42,\r\n2026-01-17T17:00:00-06:00,30.5,0,\"by, hand\"\r\n"
	cycles, ps := ReadCycles("pump.csv", strings.NewReader(text))
	if len(ps) > 0 {
		t.Fatal(ps)
	}
	want := []struct {
		hour      int
		run, flow float64
	}{{5, 45, 0}, {11, 40, 42 * 6.30902e-5}, {17, 30.5, 0}}
	if len(cycles) != len(want) {
		t.Fatalf("%d cycles, want %d", len(cycles), len(want))
	}
	for i, w := range want {
		c := cycles[i]
		if !c.Start.Equal(time.Date(2026, 1, 17, w.hour, 0, 0, 0, time.UTC)) || c.Run != w.run || math.Abs(c.Flow-w.flow) > 1e-8 {
			t.Errorf("cycle %d: %+v, want %+v", i, c, w)
		}
	}
	metric, ps := ReadCycles("pump.csv", strings.NewReader("start,run_s,flow_l_min\n2026-01-17 05:00,45,60\n"))
	if len(ps) > 0 || metric[0].Flow != 1e-3 {
		t.Errorf("60 L/min is %+v, %v", metric, ps)
	}
}

func TestHeaderAloneIsNoCycles(t *testing.T) {
	cycles, ps := ReadCycles("pump.csv", strings.NewReader("start,run_s\n"))
	if cycles == nil || len(cycles) != 0 || len(ps) > 0 {
		t.Errorf("%v, %v", cycles, ps)
	}
}

// TestTouchingCycles: a cycle may start when the one before ends, not a second earlier.
func TestTouchingCycles(t *testing.T) {
	for run, ok := range map[string]bool{"60": true, "61": false} {
		_, ps := ReadCycles("pump.csv", strings.NewReader("start,run_s\n2026-01-17 05:00,"+run+"\n2026-01-17 05:01,5\n"))
		if (len(ps) == 0) != ok {
			t.Errorf("run of %s s: %v", run, ps)
		}
	}
}

func TestCycleProblems(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"all of a file", "start,run_s,flow_l_min\n2026-01-17 05:00,-4,1\nsoon,45,1\n2026-01-17 05:00,nan,x\n2026-01-17 06:00,45,\n2026-01-17 05:30,45,\n2026-01-17 07:00\n",
			`pump.csv:2: run_s: found "-4"; expected a run in seconds, above 0 and at most 366 days
pump.csv:3: start: found "soon"; expected a time such as 2026-01-17 05:00
pump.csv:4: run_s: found "nan"; expected a run in seconds, above 0 and at most 366 days
pump.csv:4: flow_l_min: found "x"; expected a number of 0 or more, at most 100 L/s
pump.csv:6: start: found "2026-01-17 05:30"; expected a start at or after the end of the cycle before, 2026-01-17 06:00:45
pump.csv:7: found 1 field; expected 3, as in the header row`},
		{"columns", "start,run,flow_l_min,flow_gal_min\n2026-01-17 05:00,45,1,1\n",
			`pump.csv:1: header: found an unknown column "run"; expected columns start, run_s and one of flow_l_min, flow_gal_min
pump.csv:1: header: found no column run_s; expected columns start, run_s
pump.csv:1: header: found flow_l_min beside flow_gal_min; expected one or the other`},
		{"clock set forward", "start,run_s\n2026-03-08 01:00-06:00,45\n2026-03-08 03:00-05:00,45\n2026-03-08 04:00-05:00,45\n",
			`pump.csv:3: start: found "2026-03-08 03:00-05:00"; expected one clock throughout, local standard time: the offset -06:00 as on earlier rows
pump.csv:4: start: found "2026-03-08 04:00-05:00"; expected one clock throughout, local standard time: the offset -06:00 as on earlier rows`},
		{"semicolons", "start;run_s\n2026-01-17 05:00;45\n",
			`pump.csv:1: header: found "start;run_s" as the only column; expected a text in UTF-8 with commas between columns, a point in decimals and rows on lines of their own`},
		{"carriage returns alone", "start,run_s\r2026-01-17 05:00,45\r",
			`pump.csv:1: header: found "run_s\r2026-01-17 05:00" as a column; expected a text in UTF-8 with commas between columns, a point in decimals and rows on lines of their own`},
		{"zero run", "start,run_s\n2026-01-17 05:00,0\n", `pump.csv:2: run_s: found "0"; expected a run in seconds, above 0 and at most 366 days`},
		{"empty", "", "pump.csv:1: found no header row; expected a first row that names the columns"},
	} {
		cycles, ps := ReadCycles("pump.csv", strings.NewReader(c.text))
		if cycles != nil || ps.Error() != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, ps.Error(), c.want)
		}
	}
}

func TestReadInflow(t *testing.T) {
	rows, ps := ReadInflow("inflow.csv", strings.NewReader("time,inflow_gal_h\n2026-01-17 05:00,2\n2026-01-17 06:00,0\n"))
	if len(ps) > 0 || len(rows) != 2 || math.Abs(rows[0].Inflow-2*6.30902e-5/60) > 1e-12 || rows[1].Inflow != 0 {
		t.Errorf("%+v, %v", rows, ps)
	}
	for _, c := range []struct{ text, want string }{
		{"time\n2026-01-17 05:00\n", "inflow.csv:1: header: found nothing; expected a column inflow_l_h or inflow_gal_h"},
		{"time,inflow_l_h\n2026-01-17 05:00,\n2026-01-17 04:00,-1\n", "inflow.csv:2: inflow_l_h: found nothing; expected a number of 0 or more\ninflow.csv:3: inflow_l_h: found \"-1\"; expected a number of 0 or more, at most 100 L/s"},
		{"time,inflow_l_h\n2026-01-17 05:00,1\n2026-01-17 05:00,1\n", "inflow.csv:3: time: found \"2026-01-17 05:00\"; expected a time after the row before, 2026-01-17 05:00:00"},
	} {
		if rows, ps := ReadInflow("inflow.csv", strings.NewReader(c.text)); rows != nil || ps.Error() != c.want {
			t.Errorf("got\n%s\nwant\n%s", ps.Error(), c.want)
		}
	}
}

func TestParseCycles(t *testing.T) {
	every, run, err := ParseCycles("every 6 h for 45 s")
	if err != nil || every != 21600 || run != 45 {
		t.Errorf("%g, %g, %v", every, run, err)
	}
	for _, bad := range []string{"", "every 6 h", "every 6 for 45", "every 45 s for 6 h", "every 6 h for 0 s", "every 6 ft for 1 s", "6 h for 45 s"} {
		if _, _, err := ParseCycles(bad); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
}

// FuzzReadCycles holds that no file makes the reader panic, and that what it hands out is in order.
func FuzzReadCycles(f *testing.F) {
	f.Add("start,run_s\n2026-01-17 05:00,45\n")
	f.Add("start,run_s,flow_l_min\n\"2026-01-17 05:00,45\n")
	f.Fuzz(func(t *testing.T, text string) {
		cycles, ps := ReadCycles("f.csv", strings.NewReader(text))
		if len(ps) > 0 && cycles != nil {
			t.Fatal("cycles beside problems")
		}
		for i := 1; i < len(cycles); i++ {
			if cycles[i].Start.Before(cycles[i-1].end()) {
				t.Fatalf("cycle %d overlaps", i)
			}
		}
	})
}

// FuzzReadInflow holds the same of inflow, whose every row is a flow that a basin can be asked to take.
func FuzzReadInflow(f *testing.F) {
	f.Add("time,inflow_l_h\n2026-01-17 05:00,45\n2026-01-17 06:00,0\n")
	f.Add("time,inflow_gal_h\r\n2026-01-17T05:00,1e3\r\n2026-01-17 05:00,\"4\"\r\n")
	f.Fuzz(func(t *testing.T, text string) {
		rows, ps := ReadInflow("f.csv", strings.NewReader(text))
		if len(ps) > 0 && rows != nil {
			t.Fatal("rows beside problems")
		}
		for i, r := range rows {
			if !(r.Inflow >= 0 && r.Inflow <= 0.1) {
				t.Fatalf("row %d brings %g m³/s", i, r.Inflow)
			}
			if i > 0 && !r.Time.After(rows[i-1].Time) {
				t.Fatalf("row %d is not after the one before", i)
			}
		}
	})
}
