package report

import (
	"context"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"winterline/sim/verify"
)

// computedEvidence is what `verify --html` tells, with one case of the convergence study.
var computedEvidence = sync.OnceValue(func() Evidence {
	measured, err := verify.Measured()
	if err != nil {
		return Evidence{}
	}
	ctx := context.Background()
	return Evidence{Checks: verify.Run(ctx, nil), Study: verify.Converge(ctx, verify.DefaultFineness, nil, "buried cell"), Measured: measured, Version: "9.9.9"}
})

func evidenceText(t *testing.T, e Evidence) string {
	t.Helper()
	return string(rendered(t, EvidenceFile("evidence.html", e)))
}

// voidTag is one of HTML's that are never closed.
var voidTag = regexp.MustCompile(`<(meta|link|br)\b([^>]*)>`)

// wellFormed fails where a tag is not closed, or closed out of turn.
func wellFormed(t *testing.T, page string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(voidTag.ReplaceAllString(page, "<$1$2/>")))
	d.Entity = xml.HTMLEntity
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

// Every check stands on the page once with its figures, every figure of the study and every row of the measured ground.
func TestEvidenceIsWhole(t *testing.T) {
	e := computedEvidence()
	page := evidenceText(t, e)
	wellFormed(t, page)
	rows, n := map[string]string{}, 0
	for _, table := range strings.Split(page, `<table class="checks rows">`)[1:] {
		body, _, _ := strings.Cut(table, "</table>")
		for _, row := range strings.Split(body, `<tr><th scope="row">`)[1:] {
			id, rest, _ := strings.Cut(row, "</th>")
			rows[id] = rest
			n++
		}
	}
	if n != len(e.Checks) || n != len(rows) || n < 3000 {
		t.Errorf("%d rows with %d names for %d checks", n, len(rows), len(e.Checks))
	}
	for _, o := range e.Checks {
		cells := []string{"<td>" + escaped(o.Check), "<td>" + escaped(o.Given), `<td class="figure">` + escaped(withUnit(verify.Figure(o.Expected), o.Unit)),
			`<td class="figure">` + escaped(verify.Figure(o.Computed))}
		if want := strings.Join(cells, "</td>"); !strings.HasPrefix(rows[escaped(o.ID)], want) {
			t.Errorf("%s: %s, want %s", o.ID, rows[escaped(o.ID)], want)
		}
		if end := "<td>" + o.Trust + "</td><td>" + escaped(o.Source) + "</td></tr>"; !strings.Contains(rows[escaped(o.ID)], end) {
			t.Errorf("%s lacks trust or source", o.ID)
		}
	}
	_, study, _ := strings.Cut(page, `id="convergence"`)
	study, _, _ = strings.Cut(study, "</section>")
	if n := strings.Count(study, `<th scope="row">`); n != len(e.Study) {
		t.Errorf("%d rows for %d figures of the study", n, len(e.Study))
	}
	for _, m := range e.Measured {
		if m.Missed() && !strings.Contains(page, escaped(m.Why)) {
			t.Errorf("no reason for %s", m.ID)
		}
	}
	for _, n := range neglectedThings {
		if !strings.Contains(page, "<td>"+string(markup(n.What))+"</td><td>"+string(markup(n.Then))+"</td>") {
			t.Errorf("%q is not among the known limits", n.What)
		}
	}
}

// The page asks nobody for anything, runs nothing, fits into a mail and is the same every time.
func TestEvidenceIsSelfContained(t *testing.T) {
	page := evidenceText(t, computedEvidence())
	if found := regexp.MustCompile(`(?i)(?:src|href)="(?:https?:)?//|url\(|@import|<script|<iframe|<object|<embed|\son[a-z]+=`).FindString(page); found != "" {
		t.Errorf("the page has %q", found)
	}
	if bad := svgAny.FindString(strings.Join(regexp.MustCompile(`(?s)<svg.*?</svg>`).FindAllString(page, -1), "")); bad != "" {
		t.Errorf("a chart has %q", bad)
	}
	if len(page) > 3<<20 || page != evidenceText(t, computedEvidence()) {
		t.Errorf("%d bytes, or another page the second time", len(page))
	}
}

// missedEvidence has a check that misses, one that could not be computed and a figure that moves too far.
func missedEvidence() Evidence {
	return Evidence{
		Checks: []verify.Outcome{
			{ID: "X-1", Check: "alpha", Topic: "film", Source: "paper", Trust: "read", Expected: 2, Computed: 2.1, Error: 0.1, Limit: 0.02, Unit: "m", Given: "wind_m_s=3"},
			{ID: "X-2", Check: "beta", Topic: "film", Source: "paper", Trust: "computed", Expected: 2, Computed: math.NaN(), Error: math.NaN(), Limit: 1, Err: errors.New("nothing <converged>")},
			{ID: "X-3", Check: "alpha", Topic: "no such table", Source: "paper", Trust: "from memory", Expected: 0, Error: 0, Limit: 1, Pass: true},
		},
		Study: []verify.ConvergenceRow{{Case: "house", Quantity: "closing", Part: "line", Unit: "h", Default: 70, Finer: [4]float64{75, 70, 70, 72}, Limit: 0.5}},
	}
}

// What misses is told above all, in the tables and in the chart.
func TestEvidenceTellsMisses(t *testing.T) {
	page := evidenceText(t, missedEvidence())
	wellFormed(t, page)
	text := skeleton(page)
	for _, want := range []string{
		"p: 3 checks, 2 missed", "dt: X-1 alpha", "dd: Expected 2 m, computed 2.1, error 0.1 over the limit 0.02.", "dt: X-2 beta", "dd: Nothing <converged>.",
		"dt: Convergence", "td: missed", "h3: Others", "th: Films of wind, still air and flow in a pipe",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	for _, want := range []string{`<body class="flooded evidence">`, "2 missed, drawn as crosses beyond 100 %", "l8 8m0-8l-8 8", `<td class="figure harm">missed</td>`} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if kept := evidenceText(t, computedEvidence()); strings.Contains(kept, `id="missed"`) || !strings.Contains(kept, `<body class="clear evidence">`) {
		t.Error("the page of checks of which none missed tells of some")
	}
	wellFormed(t, evidenceText(t, Evidence{}))
}

// Whatever stands in a table of checks, it stays text.
func TestEvidenceEscapes(t *testing.T) {
	const hostile = `</svg></title></style><script>alert(1)</script>"'`
	e := missedEvidence()
	for i := range e.Checks {
		o := &e.Checks[i]
		o.ID, o.Check, o.Source, o.Unit, o.Given = hostile, hostile, hostile, hostile, hostile
	}
	e.Study[0].Quantity, e.Study[0].Part, e.Study[0].Case, e.Version = hostile, hostile, hostile, hostile
	e.Measured = []verify.MeasuredRow{{ID: hostile, Site: "clay", Figure: "temperature", Bias: 9, MostBias: 1, Why: hostile}}
	page := evidenceText(t, e)
	wellFormed(t, page)
	if strings.Contains(page, "<script") || strings.Count(page, "</style>") != 1 {
		t.Error("words became markup")
	}
}

// Every table of checks belongs to one subject, every class and kind has its meaning, every case and site its words.
func TestEvidenceWordsAreWhole(t *testing.T) {
	e := computedEvidence()
	var topics []string
	for _, tale := range evidenceTales {
		topics = append(topics, tale.topics...)
	}
	want := verify.Topics()
	slices.Sort(topics)
	slices.Sort(want)
	if !slices.Equal(topics, want) {
		t.Errorf("the subjects have the tables %v, there are %v", topics, want)
	}
	for _, o := range e.Checks {
		told := func(classes []pageFact, name string) bool {
			return slices.ContainsFunc(classes, func(c pageFact) bool { return c.Name == name })
		}
		if !told(trustMeanings, o.Trust) || !told(kindMeanings, o.Kind.String()) {
			t.Fatalf("%s: trust %q or kind %q has no meaning", o.ID, o.Trust, o.Kind)
		}
	}
	for _, m := range e.Measured {
		if measuredNames[m.Site] == "" {
			t.Errorf("%s: no name for the site %s", m.ID, m.Site)
		}
	}
	for _, name := range verify.ConvergenceCases() {
		if convergenceTales[name] == "" {
			t.Errorf("no words on the case %s", name)
		}
	}
}

// The README's sentence on measured ground is that of the table.
func TestMeasuredSentenceIsTheREADMEs(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	if want := measuredSentence(computedEvidence().Measured); !strings.Contains(strings.Join(strings.Fields(string(text)), " "), want) {
		t.Errorf("the README lacks: %s", want)
	}
}

// Ground computed colder than it was, or frozen deeper, errs on the safe side: the line freezes sooner.
func TestMeasuredSides(t *testing.T) {
	none := math.NaN()
	row := verify.MeasuredRow{Site: "clay", Figure: "temperature", Depth: 20, Bias: -0.3, RMSE: 0.5, AirRMSE: 1, MostBias: none, MostRMSE: 0.4, MostShare: none}
	if d := newMeasuredDepth(row); d.Side != "safe" || d.Depth != "20 cm (8 in)" || !d.Bad || d.Limit != "root mean square 0.4" {
		t.Errorf("%+v", d)
	}
	row.Bias, row.MostRMSE = 0.3, none
	if d := newMeasuredDepth(row); d.Side != "unsafe" || d.Bad || d.Limit != "shown only" {
		t.Errorf("%+v", d)
	}
	frost := measuredFrosts([]verify.MeasuredRow{{Figure: "deepest frost", Winter: 1, Measured: 100, Computed: 110, Bias: 10, RMSE: none, MostBias: 15, MostRMSE: none, MostShare: none}})
	if len(frost) != 1 || frost[0].Side != "safe" || frost[0].Off != "+10.0 cm" || frost[0].Bad {
		t.Errorf("%+v", frost)
	}
}

func TestUsesOfTolerances(t *testing.T) {
	u := usesOf([]verify.Outcome{
		{ID: "a", Expected: 2, Error: 0.1, Limit: 1}, {ID: "b", Expected: 10, Error: 0.5, Limit: 1}, {ID: "c", Expected: 1, Unit: "°C", Error: 0.9, Limit: 1},
	})
	if u.worst.ID != "c" || u.median != 0.5 || u.typical != 0.1 || u.wide != 1 || u.widest.ID != "a" {
		t.Errorf("worst %s, median %g, typical %g, %d wide, widest %s", u.worst.ID, u.median, u.typical, u.wide, u.widest.ID)
	}
	for share, want := range map[float64]string{0: "0 %", 0.0004: "under 0.1 %", 0.0043: "0.43 %", 0.0123: "1.2 %", 0.02: "2 %", 0.994: "99 %", 1: "100 %", math.Inf(1): "all and more"} {
		if got := shareUsed(share); got != want {
			t.Errorf("%g: got %s, want %s", share, got, want)
		}
	}
}
