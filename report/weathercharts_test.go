package report

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"winterline/weather"
)

// airRecord is an hourly record of air temperature by the hour from its first row.
func airRecord(start time.Time, hours int, air func(h float64) float64) *weather.Series {
	s := &weather.Series{Source: "air.csv", Format: "plain form", Start: start}
	for h := range hours + 1 {
		s.Time = append(s.Time, float64(h)*3600)
		s.Air = append(s.Air, air(float64(h)))
	}
	return s
}

// yearly is air that swings by the year, coldest in the middle of January, and by the day,
// coldest at 06:00, with cold snaps every 40 days, in a record from July 1 at midnight.
func yearly(h float64) float64 {
	const day, year = 24, 24 * 365.25
	snap := math.Max(0, math.Sin(2*math.Pi*h/(40*day))-0.8) * 60
	return 6 - 14*math.Cos(2*math.Pi*(h-198*day)/year) - 4*math.Cos(2*math.Pi*(h-6)/day) - snap
}

var julyFirst = time.Date(1994, time.July, 1, 0, 0, 0, 0, time.UTC)

// winters is a record of so many years from July to June, with snow.
func winters(years int) *weather.Series {
	s := airRecord(julyFirst, int(float64(years)*365.25*24), yearly)
	for _, t := range s.Time {
		s.SnowDepth = append(s.SnowDepth, math.Max(0, -0.4*math.Sin(2*math.Pi*(t/86400-30)/365.25)))
	}
	return s
}

// splitWinters is two spans with a gap of 70 days in the first winter between them.
func splitWinters() []*weather.Series {
	first := airRecord(julyFirst, 120*24, yearly)
	second := airRecord(julyFirst.AddDate(0, 0, 190), 500*24, func(h float64) float64 { return yearly(h + 190*24) })
	return []*weather.Series{first, second}
}

func recordOf(spans ...*weather.Series) *weatherRecord {
	return &weatherRecord{weather.DigestOf(spans...), spans}
}

// chartPanel is a panel as the charts have one on a page, from t0 to t1.
func chartPanel(t0, t1 float64) *panel {
	page := draw.NewCanvas(new(recorder.Canvas), figureWidth, figureHeight)
	return panelsOver(page, t0, t1, 0, 1)[0]
}

// Days run from midnight to midnight; a last row on midnight counts with the day before it.
func TestPeriods(t *testing.T) {
	s := airRecord(time.Date(2026, 1, 5, 18, 0, 0, 0, time.UTC), 30, func(h float64) float64 { return h })
	got := recordOf(s).periods(s, 1)
	const h = 3600.0
	// 18:00 to 23:00 are rows 0 to 5; 00:00 to 23:00 are rows 6 to 29; row 30 is a midnight.
	want := []period{{0, 6 * h, 0, 2.5, 5}, {6 * h, 30 * h, 6, 18, 30}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	// A later span counts its days on the same calendar, its times from the first row of all.
	later := airRecord(time.Date(2026, 1, 8, 12, 0, 0, 0, time.UTC), 1, func(h float64) float64 { return h })
	got = recordOf(s, later).periods(later, 1)
	if want := []period{{66 * h, 67 * h, 0, 0.5, 1}}; !slices.Equal(got, want) {
		t.Errorf("later span: got %v, want %v", got, want)
	}
}

// Periods are wide enough to be seen, and keep the coldest hour whatever their length.
func TestPeriodsKeepExtremes(t *testing.T) {
	for years, days := range map[int]int{1: 1, 4: 1, 30: 7, 60: 30} {
		s := winters(years)
		r := recordOf(s)
		if got := r.periodDays(); got != days {
			t.Errorf("%d years: periods of %d days, want %d", years, got, days)
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range r.periods(s, days) {
			low, high = math.Min(low, p.low), math.Max(high, p.high)
			if !(p.low <= p.mean && p.mean <= p.high && p.from < p.to) {
				t.Fatalf("%d years: %+v", years, p)
			}
		}
		if low != slices.Min(s.Air) || high != slices.Max(s.Air) {
			t.Errorf("%d years: from %v to %v, want %v to %v", years, low, high, slices.Min(s.Air), slices.Max(s.Air))
		}
	}
}

// Missing rows are shaded from the row before to the row behind; so are rows without air
// temperature; a missing wind is not.
func TestRecordGaps(t *testing.T) {
	const text = "time,air_temp_c,wind_m_s\n" +
		"2026-01-05 00:00,-1,1\n2026-01-05 01:00,-2,1\n2026-01-05 04:00,-5,1\n2026-01-05 05:00,-6,\n" +
		"2026-01-05 06:00,,1\n2026-01-05 07:00,,1\n2026-01-05 08:00,-9,1\n2026-01-05 09:00,-9,1\n"
	s, problems := weather.ReadFiles([]weather.File{{Name: "a.csv", Open: func() (io.ReadCloser, error) {
		return io.NopCloser(strings.NewReader(text)), nil
	}}}, weather.Options{})
	if problems != nil {
		t.Fatal(problems)
	}
	const h = 3600.0
	got := recordOf(s).gaps()
	slices.SortFunc(got, func(a, b recordGap) int { return int(a.from - b.from) })
	if want := []recordGap{{1 * h, 4 * h, true}, {5 * h, 8 * h, true}}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	spans := splitWinters()
	if got, want := recordOf(spans...).gaps(), []recordGap{{120 * 24 * h, 190 * 24 * h, false}}; !slices.Equal(got, want) {
		t.Errorf("between spans: got %v, want %v", got, want)
	}
}

// Spells carry their number in the table and stand where they are coldest, in order of time.
func TestSpellMarks(t *testing.T) {
	air := func(h float64) float64 {
		switch {
		case h == 100:
			return -12
		case h >= 90 && h < 150:
			return -10
		case h == 400:
			return -21
		case h >= 390 && h < 450:
			return -20
		}
		return 3
	}
	got := spellMarks(recordOf(airRecord(julyFirst, 600, air)))
	want := []spellMark{{2, 100 * 3600, -12}, {1, 400 * 3600, -21}}
	if !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// However close the spells lie, their numbers keep apart, in order, above the frame.
func TestSpellNumbersDoNotOverlap(t *testing.T) {
	p := chartPanel(0, 30*365.25*86400)
	style := bold(lettering(textSize, brick, draw.XCenter, draw.YBottom))
	for _, at := range []float64{0, 0.5, 1} { // at the beginning, in the middle, at the end
		var marks []spellMark
		for i := range 10 {
			marks = append(marks, spellMark{number: i + 1, t: math.Min(p.x1, at*p.x1+3*86400*float64(i))})
		}
		places := numberPlaces(p, marks)
		for i, x := range places {
			if x-style.Width("10")/2 < p.Min.X-1e-6 || x+style.Width("10")/2 > p.Max.X+1e-6 {
				t.Errorf("number %d leaves the frame", i+1)
			}
			if i > 0 && x-places[i-1] < style.Width("10")+1 {
				t.Errorf("numbers %d and %d are %v apart", i, i+1, x-places[i-1])
			}
		}
	}
}

// A spell is shown from a day before it to a day after, by its hours.
func TestSpellViews(t *testing.T) {
	spans := splitWinters()
	r := recordOf(spans...)
	views := spellViews(r)
	if len(views) != len(r.Spells) || len(views) == 0 {
		t.Fatalf("%d views of %d spells", len(views), len(r.Spells))
	}
	for i, v := range views {
		if v.number != i+1 || v.mean != r.Spells[i].Mean {
			t.Errorf("view %d: %+v", i, v)
		}
		hours, air := v.within()
		if hours[0] != 0 || hours[len(hours)-1] != 72 || slices.Min(air) != r.Spells[i].Lowest {
			t.Errorf("spell %d: hours %v to %v, lowest %v, want %v", i+1, hours[0], hours[len(hours)-1], slices.Min(air), r.Spells[i].Lowest)
		}
		// Hour 0 is the row of its date.
		first := r.since(r.Spells[i].Start)/3600 + v.hours[0]
		if want := yearly(first); math.Abs(v.air[0]-want) > 1e-9 {
			t.Errorf("spell %d: %v at hour %v, want %v", i+1, v.air[0], v.hours[0], want)
		}
	}
	// At the edges of a record there is less to show.
	short := spellViews(recordOf(airRecord(julyFirst, 80, func(float64) float64 { return -5 })))
	if len(short) != 1 || short[0].hours[0] != 0 || short[0].hours[80] != 80 {
		t.Errorf("edges: %+v", short)
	}
}

// Panels of spells lie apart from each other and on the page, with room for their words.
func TestGridPanels(t *testing.T) {
	page := draw.NewCanvas(new(recorder.Canvas), figureWidth, 8*vg.Inch)
	for n := 1; n <= 10; n++ {
		panels := gridPanels(page, n)
		if len(panels) != n {
			t.Fatalf("%d panels, want %d", len(panels), n)
		}
		for i, a := range panels {
			if a.Min.X < page.Min.X+leftMargin || a.Max.X > page.Max.X-rightMargin+1e-6 || a.Min.Y < page.Min.Y || a.Max.Y > page.Max.Y || a.Size().Y < 40 {
				t.Errorf("panel %d of %d lies at %v", i+1, n, a.Rectangle)
			}
			for _, b := range panels[:i] {
				const words = smallSize + 4
				if a.Min.X < b.Max.X+20 && b.Min.X < a.Max.X+20 && a.Min.Y < b.Max.Y+words && b.Min.Y < a.Max.Y+words {
					t.Errorf("of %d panels two lie at %v and %v", n, a.Rectangle, b.Rectangle)
				}
			}
		}
	}
}

// The lowest temperature is written where no limit runs through the words.
func TestBelowLimits(t *testing.T) {
	p := chartPanel(0, 1)
	p.y0, p.y1 = -50, 10
	for low := -45.0; low < 8; low += 0.25 {
		top := p.belowLimits(p.Y(low) - 5)
		if top > p.Y(low)-5 {
			t.Errorf("%v °C: words moved up", low)
		}
		for _, limit := range weather.BelowLimits {
			if y := p.Y(limit); y < top && y > top-smallSize {
				t.Errorf("%v °C: the limit %v runs through the words", low, limit)
			}
		}
	}
}

// A winter is whole when nearly all of November to March is in the record, whatever else is
// missing; the title names the coldest whole one.
func TestWinterBars(t *testing.T) {
	bars := winterBars(recordOf(splitWinters()...))
	// 1994-95 has no November and December; 1995-96 is whole; of 1996-97 there is no day.
	if len(bars) != 2 || bars[0].name != "1994-95" || !bars[0].part || bars[1].name != "1995-96" || bars[1].part {
		t.Errorf("got %+v", bars)
	}
	title := degreeDaysTitle([]winterBar{{"1994-95", 900, true}, {"1995-96", 500, false}, {"1996-97", 400, false}})
	if want := "Freezing degree-days: the coldest winter is 1995-96 with 500 °C days (900 °F days)"; title != want {
		t.Errorf("got %q, want %q", title, want)
	}
	from := airRecord(time.Date(2025, 11, 4, 0, 0, 0, 0, time.UTC), 24*147, yearly) // to March 31
	if bars := winterBars(recordOf(from)); len(bars) != 1 || bars[0].part {
		t.Errorf("148 of 151 days: %+v", bars)
	}
}

// Numbers on the bars and names below them do not overlap, for one winter and for sixty, and
// numbers stay within the frame.
func TestBarsDoNotOverlap(t *testing.T) {
	for _, n := range []int{1, 2, 4, 10, 14, 30, 60} {
		bars := make([]winterBar, n)
		for i := range bars {
			bars[i] = winterBar{name: "1999-00", degreeDays: 1234}
		}
		p := chartPanel(0, float64(n))
		l := layBars(p, bars)
		number := lettering(l.size, ink, 0, 0)
		across, up := number.Width("1,234"), l.size
		if l.upright {
			across, up = up, across
		}
		if across > l.pitch {
			t.Errorf("%d winters: numbers %v wide every %v", n, across, l.pitch)
		}
		if up > l.above {
			t.Errorf("%d winters: numbers %v high in %v", n, up, l.above)
		}
		name := lettering(textSize, ink, 0, 0).Width("1999-00")
		if l.names.upright {
			name = smallSize
		}
		if name > l.pitch*vg.Length(l.names.every) {
			t.Errorf("%d winters: names %v wide every %v", n, name, l.pitch*vg.Length(l.names.every))
		}
	}
}

// The key takes as many rows as it needs, each within the page.
func TestKeyFolds(t *testing.T) {
	page := draw.NewCanvas(new(recorder.Canvas), figureWidth, figureHeight)
	entry := keyEntry{"lowest to highest of each day", lineSign(meanStroke)}
	one, three := page, page
	drawKey(&one, []keyEntry{entry, entry, entry})
	drawKey(&three, slices.Repeat([]keyEntry{entry}, 9))
	if rows := (one.Max.Y - three.Max.Y) / 15; math.Abs(float64(rows)-2) > 0.01 {
		t.Errorf("nine entries take %v rows more than three, want 2", rows)
	}
}

// A chart that would have nothing to show is left out.
func TestWhichWeatherCharts(t *testing.T) {
	s := winters(1)
	if got := chartNames(WeatherCharts(weather.DigestOf(s), []*weather.Series{s}, ChartOptions{})); got != "record cold-spells degree-days" {
		t.Errorf("a winter: got %s", got)
	}
	warm := airRecord(julyFirst, 100, func(float64) float64 { return 20 })
	if got := chartNames(WeatherCharts(weather.DigestOf(warm), []*weather.Series{warm}, ChartOptions{})); got != "record" {
		t.Errorf("no frost: got %s", got)
	}
}

// Whatever the length of the record, every chart can be drawn.
func TestEveryWeatherChartDraws(t *testing.T) {
	draw := func(name string, o ChartOptions, spans ...*weather.Series) {
		for _, f := range WeatherCharts(weather.DigestOf(spans...), spans, o) {
			if err := f.Write(io.Discard); err != nil {
				t.Errorf("%s: %s: %v", name, f.Name, err)
			}
		}
	}
	small := ChartOptions{Width: 400}
	frost := func(float64) float64 { return -7 }
	for _, hours := range []int{1, 23, 24, 72, 480, 481} {
		draw(plural(float64(hours), "hour"), small, airRecord(julyFirst, hours, frost))
	}
	draw("31 winters", small, winters(31))
	draw("100 winters", small, winters(100))
	draw("two spans", ChartOptions{Format: SVG}, splitWinters()...)
	bare := winters(1)
	clear(bare.SnowDepth)
	bare.Typical = true
	draw("typical year without snow", small, bare)
}

// The pictures as they were when somebody looked at them; see TestChartsGolden. Drawn anew
// they are the same to the byte.
func TestWeatherChartsGolden(t *testing.T) {
	const limit = 0.5 // of 255, mean over all pixels and colours
	spans := splitWinters()
	spans[0].SnowDepth = make([]float64, len(spans[0].Time))
	d := weather.DigestOf(spans...)
	o := ChartOptions{Width: 800}
	again := WeatherCharts(d, spans, o)
	for i, f := range WeatherCharts(d, spans, o) {
		path := filepath.Join("testdata", "weather-"+f.Name)
		got := rendered(t, f)
		if !bytes.Equal(got, rendered(t, again[i])) {
			t.Errorf("%s differs from itself", f.Name)
		}
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if d := meanDifference(t, got, want); d > limit {
			t.Errorf("%s differs by %.2f on %s: look at it, then run the tests with -update", f.Name, d, runtime.GOARCH)
		}
	}
}

// Results name files without their folders, in every word of the digest.
func TestWithoutFolders(t *testing.T) {
	s := snapRecord()
	s.Source = "/home/me/station.txt"
	s.Notes = []weather.Note{{File: s.Source, Text: "as in " + s.Source}}
	s.Repairs = []weather.Repair{{File: s.Source, Evidence: "km/h as in " + s.Source}}
	d := weather.DigestOf(s)
	bare := WithoutFolders(d, []string{s.Source})
	if bare.Source != "station.txt" || bare.Notes[0].File != "station.txt" || bare.Notes[0].Text != "as in station.txt" ||
		bare.Ledger[0].File != "station.txt" || bare.Ledger[0].Evidence != "km/h as in station.txt" {
		t.Errorf("got %q, %+v, %+v", bare.Source, bare.Notes, bare.Ledger)
	}
	if d.Source != s.Source || d.Notes[0].File != s.Source || d.Ledger[0].File != s.Source {
		t.Error("the digest itself has changed")
	}
}

// A record too short for a cold spell is told from one that is not cold.
func TestNoSpellWords(t *testing.T) {
	for hours, want := range map[int]string{71: "the record is shorter than three days", 72: "no three days were below freezing on average"} {
		d := weather.DigestOf(airRecord(julyFirst, hours, func(float64) float64 { return 4 }))
		if got := spellWords(d, SI); len(got) != 1 || got[0] != "none: "+want {
			t.Errorf("%d h: got %q", hours, got)
		}
	}
}
