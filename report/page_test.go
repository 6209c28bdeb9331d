package report

import (
	"bytes"
	"html"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/answers"
)

func pageOf(t *testing.T, r *sim.Result, o PageOptions) string {
	t.Helper()
	return string(rendered(t, PageFile(r, o)))
}

// chartsFor draws the charts of a result.
func chartsFor(r *sim.Result) func(ChartOptions) []File {
	return func(o ChartOptions) []File { return Charts(r, o) }
}

// fullPage are options with all that the page may be told but remedies.
func fullPage(r *sim.Result, s System) PageOptions {
	return PageOptions{
		Provenance: Provenance{
			Version: "9.9.9", Inputs: map[string]string{"weather.csv": strings.Repeat("b", 64), "layout.toml": strings.Repeat("a", 64)},
			Findings: pipe.Practice(r.Layout, r.Profile),
			Margin:   &answers.Margin{Open: answers.Bound{K: -7.2, Monotone: true}, Dry: answers.Bound{K: 25, Beyond: true, Monotone: true}},
		},
		Screen: screenOptions(s), Charts: chartsFor(r),
	}
}

var (
	notText    = regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>`)
	attributes = regexp.MustCompile(`(?s) (?:src|style|content|href|tabindex|role|aria-[a-z]+)="[^"]*"`)
	breakAt    = regexp.MustCompile(`(?s)<(/?)(section|h1|h2|h3|p|li|dt|dd|tr|th|td|caption|img|figure|ul|ol|dl|table|nav|main|header|footer|title)\b[^>]*?(?: alt="([^"]*)")?>`)
	anyTag     = regexp.MustCompile(`(?s)<[^>]*>`)
)

// skeleton is what a page says, a line for each heading, paragraph and cell.
func skeleton(page string) string {
	page = attributes.ReplaceAllString(notText.ReplaceAllString(page, ""), "")
	page = breakAt.ReplaceAllStringFunc(page, func(tag string) string {
		m := breakAt.FindStringSubmatch(tag)
		if m[1] == "/" {
			return "\n"
		}
		return "\n" + m[2] + ": " + m[3]
	})
	var lines []string
	for _, line := range strings.Split(html.UnescapeString(anyTag.ReplaceAllString(page, "")), "\n") {
		if line = strings.Join(strings.Fields(line), " "); line != "" && !strings.HasSuffix(line, ":") || line == "section:" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n") + "\n"
}

// What the page says, and in which order.
func TestPageGolden(t *testing.T) {
	r := plain(sim.ShutRelieved)
	r.Invented = true
	golden(t, "page-shut-relieved-us.txt", []byte(skeleton(pageOf(t, r, fullPage(r, US)))))
	clear := sample(sampleSpec{sim.Clear, 3, 3})
	golden(t, "page-clear-si.txt", []byte(skeleton(pageOf(t, clear, PageOptions{Screen: screenOptions(SI)}))))
}

// Whatever stands in the title or a name, nothing but that text changes.
func TestHostileWordsChangeNothing(t *testing.T) {
	const mark = "QQMARKQQ"
	with := func(words string) string {
		r := plain(sim.Flooded)
		r.Title = words
		return pageOf(t, r, fullPage(r, US))
	}
	plainPage := with(mark)
	for _, hostile := range []string{
		`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, "</title></style></svg>", strings.Repeat("W", 10_000), "בית קפוא \u202e gnp.exe", "🧊🏠 pipe", "{{.Style}}", "a&b 'c'",
	} {
		page := strings.ReplaceAll(with(hostile), escaped(headingOf(hostile)), mark)
		if page != plainPage {
			t.Errorf("%.40q changes more than the title", hostile)
		}
	}
	r := plain(sim.Flooded)
	for i := range r.Segments {
		r.Segments[i].Name = `<script>alert(1)</script>`
	}
	for i := range r.Layout.Segments {
		r.Layout.Segments[i].Name = `</svg><script>`
	}
	if page := pageOf(t, r, fullPage(r, US)); strings.Contains(page, "<script") || strings.Count(page, "</svg>") != 1 {
		t.Error("a segment's name became markup")
	}
}

// A heading is as long as people read, and cut behind a word where it has any.
func TestHeadingOf(t *testing.T) {
	for name, want := range map[string]string{
		"Larkspur Hollow": "Larkspur Hollow", strings.Repeat("W", 10_000): strings.Repeat("W", longestHeading) + " …",
		strings.Repeat("זה ", 80): strings.Repeat("זה ", 52) + "זה …", strings.Repeat("🧊", longestHeading): strings.Repeat("🧊", longestHeading),
	} {
		if got := headingOf(name); got != want {
			t.Errorf("%.20q: got %q, want %q", name, got, want)
		}
	}
}

// escaped is how the page writes words, by the rules of its own escaping.
func escaped(words string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&#34;", "'", "&#39;", "+", "&#43;").Replace(words)
}

// The page asks nobody for anything, runs nothing, and fits into a mail whatever the line.
func TestPageIsSelfContained(t *testing.T) {
	const most = 3 << 20
	outside := regexp.MustCompile(`(?i)(?:src|href)="(?:https?:)?//|url\(|@import|<script|<iframe|<object|<embed|\son[a-z]+=`)
	for _, spec := range []sampleSpec{{sim.Clear, 3, 3}, {sim.Flooded, 30, 200}, {sim.ShutRelieved, 5, 60}} {
		r := sample(spec)
		page := pageOf(t, r, fullPage(r, US))
		for _, found := range outside.FindAllString(page, -1) {
			if found != "url(" { // of the hatching, checked below
				t.Errorf("%+v: the page has %q", spec, found)
			}
		}
		if n := strings.Count(page, "url("); n != strings.Count(page, "url(#hatch)") {
			t.Errorf("%+v: a url() beside that of the hatching", spec)
		}
		if len(page) > most {
			t.Errorf("%+v: the page has %d bytes", spec, len(page))
		}
		if again := pageOf(t, r, fullPage(r, US)); again != page {
			t.Errorf("%+v: the page differs from itself", spec)
		}
	}
}

// What is taller than four fifths of its width takes a page of its own.
func TestTallCharts(t *testing.T) {
	for _, c := range []struct {
		drawing string
		want    bool
	}{{`<svg width="720pt" viewBox="0 0 720 450"`, false}, {`<svg viewBox="0 0 720 577"`, true}, {`<svg>`, false}} {
		if isTall(c.drawing) != c.want {
			t.Errorf("%s: got %v", c.drawing, !c.want)
		}
	}
}

// Where the drawings are too large together, the largest become dots, and no more of them than it takes.
func TestLargeDrawingsBecomeDots(t *testing.T) {
	r := sample(sampleSpec{sim.Flooded, 30, 200})
	lines, err := drawnAs("image/svg+xml", Charts(r, ChartOptions{Format: SVG, bare: true}))
	if err != nil {
		t.Fatal(err)
	}
	sum, largest := 0, 0
	for i, p := range lines {
		sum += len(p.data)
		if len(p.data) > len(lines[largest].data) {
			largest = i
		}
	}
	if err := fitInto(sum-1, lines, Charts(r, ChartOptions{DPI: pageDots})); err != nil {
		t.Fatal(err)
	}
	for i, p := range lines {
		if dots := strings.HasPrefix(p.data, "\x89PNG"); dots != (i == largest) || dots != (p.kind == "image/png") {
			t.Errorf("chart %d of %d: kind %s", i, len(lines), p.kind)
		}
	}
}

// The page can be made of any winter, and says what kind it was.
func TestEveryPageWrites(t *testing.T) {
	for _, state := range allStates {
		for _, segments := range []int{3, 5, 60} {
			r := sample(sampleSpec{state, segments, 60})
			page := pageOf(t, r, PageOptions{Screen: Options{System: SI}})
			if !strings.Contains(page, stateBadges[state]) || !strings.Contains(page, `<body class="`+state.String()+`">`) {
				t.Errorf("%v with %d segments: the state is not on the page", state, segments)
			}
		}
	}
	empty := &sim.Result{Layout: &pipe.Layout{}, Profile: &pipe.Profile{}, Verdict: sim.Verdict{ClosedWhere: -1}}
	for _, r := range []*sim.Result{verificationCell(), empty} {
		pageOf(t, r, PageOptions{Charts: chartsFor(r)})
	}
}

// The five numbers are the result's.
func TestPageNumbers(t *testing.T) {
	r := plain(sim.Spilled)
	r.Ledger.Rim = 0.5 // m³: 132 gal
	running := 0.0
	for i := range r.Cycles {
		r.Cycles[i].Run = 600
		if r.Cycles[i].Relief > 0 {
			running += 600
		}
	}
	n := pageNumbers(r, fullPage(r, US))
	got := []string{n[0].Value, n[1].Value, n[2].Value, n[3].Value, n[4].Value}
	want := []string{stamp(r.Start, *r.Verdict.FirstIce).Format("Jan 2"), spokenDuration(r.Verdict.ShutFor), strings.TrimSuffix(number(running/3600, 1), ".0") + " hours",
		"132 gal (500 L)", "13\u00a0°F too cold"}
	if running >= 36_000 {
		want[2] = number(running/3600, 0) + " hours"
	}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("got %q, want %q", got, want)
	}
	calm := pageNumbers(plain(sim.Clear), PageOptions{})
	for i, want := range []string{"None", "Never", "Never", "None", "Not asked"} {
		if calm[i].Value != want {
			t.Errorf("no ice: %s: got %q, want %q", calm[i].Name, calm[i].Value, want)
		}
	}
}

func TestUnshout(t *testing.T) {
	for _, c := range [][2]string{
		{"THE BASEMENT STAYED DRY, BUT WATER RAN OUT BESIDE THE HOUSE.", "The basement stayed dry, but water ran out beside the house."},
		{"THE BASEMENT GOT WET. 12 gal reached the floor, first on Mon Jan 5 04:00.", "The basement got wet. 12 gal reached the floor, first on Mon Jan 5 04:00."},
		{"NO WATER WAS PUMPED.", "No water was pumped."},
	} {
		if got := unshout(c[0]); got != c[1] {
			t.Errorf("got %q, want %q", got, c[1])
		}
	}
}

// Every kind of event has words, and one that comes again and again is told once.
func TestToldEvents(t *testing.T) {
	for _, m := range markedKinds {
		if eventTitles[m.kind] == "" {
			t.Errorf("no words for %s", m.kind)
		}
	}
	r := plain(sim.Clear)
	depth := 0.2
	r.Events = nil
	for i := range 9 {
		r.Events = append(r.Events, sim.Event{Time: float64(i) * 3600, Kind: sim.EventReliefBuried, Where: "standpipe", Value: &depth, Unit: "m", Meaning: "x"})
	}
	r.Events = append(r.Events, sim.Event{Time: 40_000, Kind: "new-kind", Where: "basin", Meaning: "something new happened"})
	told := tellEvents(r, SI)
	if len(told) != 2 || !strings.Contains(told[0].Sentence, "9 times in all, the last time on Mon Dec 1 08:00") || !strings.HasPrefix(told[0].Sentence, "20\u00a0cm (8\u00a0in) of snow") {
		t.Errorf("got %+v", told)
	}
	if told[1].Title != "New kind" || told[1].Sentence != "Something new happened." {
		t.Errorf("got %+v", told[1])
	}
}

// Every chart of a result has a title and a sentence of its own.
func TestChartWords(t *testing.T) {
	for _, state := range allStates {
		for _, r := range []*sim.Result{plain(state), sample(sampleSpec{state, 3, 3}), verificationCell()} {
			for _, f := range Charts(r, ChartOptions{}) {
				name, _, _ := strings.Cut(f.Name, ".")
				title, words := chartWords(name, r, nil, US)
				if _, known := chartTales[chartPage.ReplaceAllString(name, "")]; !known || title == "" || !strings.HasSuffix(words, ".") || strings.Contains(words, "NaN") {
					t.Errorf("%v: %s: %q, %q", state, name, title, words)
				}
			}
		}
	}
	r := plain(sim.ShutRelieved)
	if title, words := chartWords("margin", r, fullPage(r, US).Margin, US); title != "How close it was" || !strings.Contains(words, "about 13 °F (7 °C) warmer") {
		t.Errorf("the margin: %s, %s", title, words)
	}
	if title, _ := chartWords("segments-3", r, nil, US); title != chartTales["segments"].title {
		t.Errorf("the third page of segments is called %s", title)
	}
	low, _, _ := extremes(r.Hourly.Air)
	if _, words := chartWords("weather", r, nil, SI); !strings.Contains(words, "coldest "+SI.bothTemperatures(r.Hourly.Air[low])) {
		t.Errorf("the coldest hour is not told: %s", words)
	}
}

var (
	svgTag  = regexp.MustCompile(`<rect x="([-0-9.]+)" y="[-0-9.]+" width="20"`)
	svgWord = regexp.MustCompile(`<text x="([-0-9.]+)" y="18" text-anchor="middle"[^>]*>([^<]*)<`)
	svgAny  = regexp.MustCompile(`NaN|Inf|e\+|%!`)
)

// In the picture of the line no label covers another, at any number of parts, and none leaves the page.
func TestPictureLabelsKeepApart(t *testing.T) {
	for _, segments := range []int{3, 5, 12, 30, 60, 200} {
		picture := string(linePicture(sample(sampleSpec{sim.ShutRelieved, segments, 60}), US))
		if bad := svgAny.FindString(picture); bad != "" {
			t.Errorf("%d segments: the picture has %q", segments, bad)
		}
		tags := svgTag.FindAllStringSubmatch(picture, -1)
		if want := min(segments, mostTags); len(tags) != want {
			t.Errorf("%d segments: %d numbers, want %d", segments, len(tags), want)
		}
		apart(t, segments, tags, func([]string) (float64, float64) { return 0, 20 })
		words := svgWord.FindAllStringSubmatch(picture, -1)
		if segments > 3 && len(words) != 2 {
			t.Errorf("%d segments: %d places named, want relief opening and lid", segments, len(words))
		}
		apart(t, segments, words, func(m []string) (float64, float64) {
			half := letter * float64(len(m[2])) / 2
			return -half, half
		})
		if len(picture) > 400_000 {
			t.Errorf("%d segments: the picture has %d bytes", segments, len(picture))
		}
	}
}

// apart checks that boxes in the order of the page do not meet; reach gives a box's ends from its anchor.
func apart(t *testing.T, segments int, boxes [][]string, reach func([]string) (from, to float64)) {
	t.Helper()
	end := 0.0
	for _, m := range boxes {
		x, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		from, to := reach(m)
		if x+from < end-0.2 || x+to > pictureWidth+0.2 {
			t.Errorf("%d segments: a label at %.1f after %.1f", segments, x+from, end)
		}
		end = x + to
	}
}

// Parts come from the pump outwards, though the result lists the upright ones last.
func TestFlowOrder(t *testing.T) {
	r := plain(sim.ShutRelieved)
	stand, elbow := r.Segments[2], r.Segments[4]
	r.Segments = append(append([]sim.SegmentResult{}, r.Segments[0], r.Segments[1], r.Segments[3]), stand, elbow)
	r.Segments[4].Name = "outlet riser"
	for i := range r.Worst.Cells { // as a simulation has them: by the layout's segment
		c := &r.Worst.Cells[i]
		c.Segment = []int{0, 1, 2, 2, 2}[c.Segment]
	}
	var names []string
	for _, row := range lineRows(r, SI) {
		names = append(names, row.Name)
	}
	if got, want := strings.Join(names, ", "), "Riser, Wall stub, Standpipe, Yard run, Outlet riser"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func TestKeyWords(t *testing.T) {
	for key, want := range map[string]string{"site.soil_moisture": "Soil moisture", "yard run.cover": "Yard run: cover", "relief[1].spread_area": "Relief 2: spread area",
		"basin.water_temperature": "Basin: water temperature", "site.layer[0].soil": "Layer 1: soil"} {
		if got := keyWords(key); got != want {
			t.Errorf("%s: got %q, want %q", key, got, want)
		}
	}
}

// Cautions are the caution whole, and more.
func TestCautionsHoldTheCaution(t *testing.T) {
	if got := strings.Join(cautions(), " "); !strings.HasPrefix(got, caution) {
		t.Errorf("got %s", got)
	}
	page := pageOf(t, plain(sim.Clear), PageOptions{})
	for _, c := range cautions() {
		if !strings.Contains(page, "<li>"+escaped(c)+"</li>") {
			t.Errorf("the page lacks %q", c)
		}
	}
}

// A default that was tried and decides the verdict is marked, and what to measure stands beside it.
func TestPageTellsWhatDecides(t *testing.T) {
	r := plain(sim.ShutRelieved)
	g := r.Layout.Guesses[0]
	o := fullPage(r, US)
	o.Sure = []answers.GuessTried{{Guess: g, Low: &answers.GuessEnd{Other: true, State: sim.Iced}, High: &answers.GuessEnd{High: true, State: sim.ShutRelieved}, Changes: true}}
	text := skeleton(pageOf(t, r, o))
	for _, want := range []string{"td: Default decides", "h3: Which defaults decide", sentence(decidingWords(o.Sure[0], US))} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

// Every default is marked as one, with its range and source.
func TestPageMarksDefaults(t *testing.T) {
	r := plain(sim.Clear)
	rows := inputRows(r, nil, SI)
	for i, g := range r.Layout.Guesses {
		if row := rows[i]; !row.Default || row.Range == "" || row.Source != g.Source {
			t.Errorf("%s: %+v", g.Key, row)
		}
	}
	for _, row := range rows[len(r.Layout.Guesses):] {
		if row.Default || row.Value == "" {
			t.Errorf("written: %+v", row)
		}
	}
	page := pageOf(t, r, PageOptions{})
	if n := strings.Count(page, `<span class="default">Default</span>`); n != len(r.Layout.Guesses) {
		t.Errorf("%d defaults are marked, want %d", n, len(r.Layout.Guesses))
	}
	if !bytes.Contains([]byte(page), []byte("15\u00a0% to 32\u00a0%")) {
		t.Error("no range beside a default")
	}
}
