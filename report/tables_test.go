package report

import (
	"bytes"
	"encoding/csv"
	"math"
	"strconv"
	"strings"
	"testing"

	"winterline/sim"
)

// readTable writes one table and reads it back.
func readTable(t *testing.T, r *sim.Result, name string) [][]string {
	t.Helper()
	for _, f := range Tables(r) {
		if f.Name != name {
			continue
		}
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		return rows
	}
	t.Fatalf("no table %s", name)
	return nil
}

// Other programs read these names.
func TestTableHeaders(t *testing.T) {
	r := plain(sim.ShutRelieved)
	for name, want := range map[string]string{
		"segments.csv": "segment,setting,standing_l,lowest_water_c,first_ice_h,ice10_h,ice50_h,ice90_h,closed_h,hours_with_ice,hours_closed,largest_ice_fraction",
		"events.csv":   "time,hour,where,event,value,unit,meaning",
		"ledger.csv":   "path,litres",
		"hourly.csv": "time,hour,air_temp_c,wind_m_s,snow_m,frost_m,basin_m,standpipe_m,pocket_full,draught_m_s,mound_outlet_m,mound_relief_m," +
			"riser_water_c,riser_ice_fraction,riser_fill,wall_stub_water_c,wall_stub_ice_fraction,wall_stub_fill," +
			"standpipe_water_c,standpipe_ice_fraction,standpipe_fill,yard_run_water_c,yard_run_ice_fraction,yard_run_fill," +
			"outlet_elbow_water_c,outlet_elbow_ice_fraction,outlet_elbow_fill,outlet_l,relief_l,rim_l,to_soil_l,floor_l",
	} {
		if got := strings.Join(readTable(t, r, name)[0], ","); got != want {
			t.Errorf("%s:\ngot  %s\nwant %s", name, got, want)
		}
	}
}

// What TableList promises is what the files hold, with every column explained.
func TestTableList(t *testing.T) {
	r := sample(sampleSpec{sim.Clear, 3, 1})
	for _, table := range TableList() {
		if table.File == groundName || table.File == wintersName || table.File == remediesName || table.File == compareName {
			continue // of other results: see TestGroundTable, TestWintersTable, TestRemediesTable, TestCompareTable
		}
		var names []string
		for _, c := range table.Columns {
			if c.Meaning == "" {
				t.Errorf("%s: %s has no meaning", table.File, c.Name)
			}
			if !strings.Contains(c.Name, "<segment>") {
				names = append(names, c.Name)
			}
		}
		var got []string
		for _, name := range readTable(t, r, table.File)[0] {
			segment := strings.HasPrefix(name, "riser_") || strings.HasPrefix(name, "wall_stub_") || strings.HasPrefix(name, "yard_run_")
			if !segment {
				got = append(got, name)
			}
		}
		if strings.Join(got, ",") != strings.Join(names, ",") {
			t.Errorf("%s: file has %v, list has %v", table.File, got, names)
		}
	}
}

func TestSegmentRowsRoundTrip(t *testing.T) {
	r := plain(sim.ShutRelieved)
	rows := readTable(t, r, "segments.csv")
	if len(rows) != len(r.Segments)+1 {
		t.Fatalf("%d rows for %d segments", len(rows)-1, len(r.Segments))
	}
	for i, s := range r.Segments {
		row := rows[i+1]
		if row[0] != s.Name || row[1] != s.Setting.String() {
			t.Errorf("row %d is %v", i, row[:2])
		}
		nearly(t, row[2], s.Standing*1000, 0.0005)
		nearly(t, row[3], s.LowestWater, 0.0005)
		for j, when := range []*float64{s.FirstIce, s.Ice10, s.Ice50, s.Ice90, s.Closed} {
			hour := math.NaN() // never: empty
			if when != nil {
				hour = *when / 3600
			}
			nearly(t, row[4+j], hour, 0.00005)
		}
		nearly(t, row[11], s.LargestIce, 5e-7)
	}
}

// nearly checks that text is the number want to a tolerance, empty for NaN.
func nearly(t *testing.T, text string, want, tolerance float64) {
	t.Helper()
	if math.IsNaN(want) {
		if text != "" {
			t.Errorf("got %q, want nothing", text)
		}
		return
	}
	if got, err := strconv.ParseFloat(text, 64); err != nil || math.Abs(got-want) > tolerance*1.000001 {
		t.Errorf("got %q, want %v", text, want)
	}
}

func TestHourlyRoundTrip(t *testing.T) {
	r := plain(sim.Flooded)
	rows := readTable(t, r, "hourly.csv")
	if len(rows) != len(r.Hourly.Time)+1 {
		t.Fatalf("%d rows, want %d", len(rows)-1, len(r.Hourly.Time))
	}
	column := map[string]int{}
	for i, name := range rows[0] {
		column[name] = i
	}
	for i := range r.Hourly.Time {
		row := rows[i+1]
		nearly(t, row[column["hour"]], float64(i), 0)
		nearly(t, row[column["air_temp_c"]], r.Hourly.Air[i], 0.005)
		nearly(t, row[column["wall_stub_water_c"]], math.NaN(), 0)
		nearly(t, row[column["yard_run_ice_fraction"]], r.Hourly.Segments[3].Ice[i], 5e-7)
		nearly(t, row[column["floor_l"]], r.Hourly.Floor[i]*1000, 0.0005)
	}
	if got := rows[24+5+1][0]; got != "2025-12-02 05:00" {
		t.Errorf("time of row 29 is %q", got)
	}
}

// A layout without snow record, basin, standpipe, pocket and second open end leaves their columns empty.
func TestHourlyAbsent(t *testing.T) {
	r := verificationCell()
	rows := readTable(t, r, "hourly.csv")
	for i, name := range rows[0] {
		absent := name == "snow_m" || name == "basin_m" || name == "standpipe_m" || name == "pocket_full" || name == "draught_m_s" || strings.HasPrefix(name, "mound_")
		if empty := rows[1][i] == ""; empty != absent {
			t.Errorf("%s is %q", name, rows[1][i])
		}
	}
}

func TestEventsTable(t *testing.T) {
	r := &sim.Result{Start: plain(sim.Clear).Start, Events: []sim.Event{
		{Time: 1180.33333 * 3600, Kind: sim.EventClosed, Where: "yard run", Value: ptr(0.92), Unit: "m", Meaning: "x"},
		{Time: 29.9, Kind: sim.EventFirstIce, Where: "riser"},
		{Time: 7200, Kind: "new-kind", Where: `"main" pipe`, Meaning: `it was, "so to say", new`},
	}}
	rows := readTable(t, r, "events.csv")
	want := [][]string{
		{"2026-01-19 04:20", "1180.3333", "yard run", "closed", "0.9200", "m", "The yard run froze shut. Ice closed it 92 cm (3 ft) from the wall."},
		{"2025-12-01 00:00", "0.0083", "riser", "first-ice", "", "", "First ice in the riser."},
		{"2025-12-01 02:00", "2.0000", `"main" pipe`, "new-kind", "", "", `New kind. It was, "so to say", new.`},
	}
	for i, w := range want {
		if strings.Join(rows[i+1], "|") != strings.Join(w, "|") {
			t.Errorf("got %q, want %q", rows[i+1], w)
		}
	}
}

func TestColumnNamesDoNotCollide(t *testing.T) {
	names := []string{"Yard run", "yard-run", "yard run 2", "yard run", "", "Garage (north)", "pocket", "air temp"}
	r := &sim.Result{}
	for _, name := range names {
		r.Segments = append(r.Segments, sim.SegmentResult{Name: name})
	}
	r.Hourly.Segments = make([]sim.SegmentHourly, len(names))
	want := []string{"yard_run", "yard_run_3", "yard_run_2", "yard_run_4", "segment", "garage_north", "pocket", "air_temp"}
	for i, got := range segmentStems(r) {
		if got != want[i] {
			t.Errorf("%q became %q, want %q", names[i], got, want[i])
		}
	}
	seen := map[string]bool{}
	for _, name := range readTable(t, r, "hourly.csv")[0] {
		if seen[name] {
			t.Errorf("column %s twice", name)
		}
		seen[name] = true
	}
}

// The ledger as written adds up like the ledger itself.
func TestLedgerTable(t *testing.T) {
	r := plain(sim.Flooded)
	sum := map[string]float64{}
	for _, row := range readTable(t, r, "ledger.csv")[1:] {
		v, err := strconv.ParseFloat(row[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		sum[row[0]] = v
	}
	in := sum["arrived"] + sum["extra inflow"]
	out := sum["outlet"] + sum["relief"] + sum["rim"] + sum["pocket to soil"] +
		sum["held line"] + sum["held pocket"] + sum["held basin"] + sum["floor"]
	if math.Abs(in-out) > 9*0.0005 { // nine figures, each to half a millilitre
		t.Errorf("in %v L, out %v L", in, out)
	}
}
