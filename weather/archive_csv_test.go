package weather

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// Each sample is recognised as what it is, and as nothing else.
func TestRecogniseArchives(t *testing.T) {
	folders := map[string]string{"lcd": lcdName, "canada": canadaName, "metar": metarName, "reanalysis": reanalysisName}
	for folder, want := range folders {
		samples, err := filepath.Glob(filepath.Join("testdata", folder, "*.csv"))
		if err != nil || len(samples) == 0 {
			t.Fatalf("no samples: %v", err)
		}
		for _, path := range samples {
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			head := newSource(path, bytes.NewReader(data), Options{}).head()
			for _, f := range formats() {
				if f.recognise(head) != (f.name == want) {
					t.Errorf("%s recognised as %s: %v", path, f.name, f.name != want)
				}
			}
		}
	}
}

// One value beyond belief costs nothing but itself.
func TestArchiveBeyondBelief(t *testing.T) {
	text := "station,valid,tmpf,sknt\nABCD,2026-01-17 10:53,23,10\nABCD,2026-01-17 11:53,230,-1\nABCD,2026-01-17 12:53,14,1\n"
	r := recordOf(t, "w.csv", []byte(text), Options{})
	wantColumn(t, "air", r.of(airTemperature), -5, none, -10)
	i := slices.IndexFunc(r.ledger, func(e Repair) bool { return e.Column == "tmpf" })
	if i < 0 || r.ledger[i].Kind != Beyond || r.ledger[i].Line != 3 || r.ledger[i].Evidence != "230, beyond -130 to 140 degF" {
		t.Errorf("ledger has %v", r.ledger)
	}
}

// In one column of an archive: its own word for missing, a row of nines, and a reading
// beyond the limits. Each is called what it is.
func TestArchiveCodesAndLimits(t *testing.T) {
	text := "station,valid,tmpf\nABCD,2026-01-17 10:53,23\nABCD,2026-01-17 11:53,M\nABCD,2026-01-17 12:53,-999.9\nABCD,2026-01-17 13:53,150\nABCD,2026-01-17 14:53,99\n"
	r := recordOf(t, "w.csv", []byte(text), Options{})
	var got []string
	for _, entry := range r.ledger {
		got = append(got, entry.String())
	}
	want := []string{
		"w.csv:3: tmpf: code for missing at 2026-01-17 11:53 (M)",
		"w.csv:4: tmpf: code for missing at 2026-01-17 12:53 (-999.9, looks like one: beyond -130 to 140 degF)",
		"w.csv:5: tmpf: value beyond limits taken out at 2026-01-17 13:53 (150, beyond -130 to 140 degF)",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	wantColumn(t, "air", r.of(airTemperature), -5, none, none, none, 67/1.8) // 99 °F is within the limits
}

// Reports at minute 53 with specials between them become hours: the state nearest to the
// hour, the precipitation of the hour that holds most of its time.
func TestArchiveHours(t *testing.T) {
	text := `station,valid,tmpf,sknt,p01i
ABCD,2026-01-17 04:53,32,10,0.00
ABCD,2026-01-17 05:20,50,10,0.02
ABCD,2026-01-17 05:53,41,20,0.05
ABCD,2026-01-17 06:53,14,30,0.01
ABCD,2026-01-17 07:53,14,30,0.00
`
	s, problems := Read("w.csv", bytes.NewReader([]byte(text)))
	if err := problems.Err(); err != nil {
		t.Fatal(err)
	}
	if showTime(s.Start) != "2026-01-17 05:00" || len(s.Time) != 4 {
		t.Fatalf("%d hours from %s", len(s.Time), showTime(s.Start))
	}
	wantColumn(t, "air at 05, 06, 07, 08 h", s.Air, 0, 5, -10, -10)
	wantColumn(t, "rain from 05, 06, 07 h", s.Rain[:3], 0.05*0.0254, 0.01*0.0254, 0)
}

// Sixty years of hourly reports.
func BenchmarkReadMetar(b *testing.B) {
	var file bytes.Buffer
	file.WriteString("station,valid,tmpf,dwpf,sknt,p01i,skyc1,skyc2,snowdepth\n")
	for at, i := time.Date(1960, 1, 1, 0, 53, 0, 0, time.UTC), 0; at.Year() < 2020; at, i = at.Add(time.Hour), i+1 {
		fmt.Fprintf(&file, "ABCD,%s,%.2f,%.2f,%d.00,0.00,FEW,BKN,M\n", at.Format("2006-01-02 15:04"), 30+20*math.Sin(float64(i)/1394), 20.5, i%15)
	}
	b.SetBytes(int64(file.Len()))
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := ReadFiles([]File{{Name: "w.csv", Open: func() (rc io.ReadCloser, err error) {
			return io.NopCloser(bytes.NewReader(file.Bytes())), nil
		}}}, Options{}); len(problems) > 0 {
			b.Fatal(problems)
		}
	}
}
