package report

import (
	"cmp"
	"embed"
	"html/template"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"winterline/sim"
)

//go:embed page/*.html.tmpl page/style.css
var pageFiles embed.FS

const pageName = "report.html"

// PageOptions say what the page tells beside the result.
type PageOptions struct {
	Provenance
	Screen Options                   // units, weather file and what was missing in it
	Charts func(ChartOptions) []File // draws the pictures to show; nil: none
	Why    *WhyAnswer                // what `why` found: what changes would have done; nil: not asked
	Others []Alternative             // runs with other supposed schedules of the pump; nil: the schedule is known
}

// PageFile gives report.html: the whole answer on one page that needs no other file.
func PageFile(r *sim.Result, o PageOptions) File {
	return File{pageName, func(w io.Writer) error { return writePage(w, r, o) }}
}

func writePage(w io.Writer, r *sim.Result, o PageOptions) error {
	p, err := newPage(r, o)
	if err != nil {
		return err
	}
	t, err := pageTemplate("page.html.tmpl")
	if err != nil {
		return err
	}
	return t.Execute(w, p)
}

// pageTemplate gives the template of a page, with the parts that pages share.
func pageTemplate(name string) (*template.Template, error) {
	return template.New(name).Funcs(template.FuncMap{"marked": markup, "capital": capital}).ParseFS(pageFiles, "page/*.html.tmpl")
}

// page is what the template shows; every word of it is ready.
type page struct {
	Style    template.CSS
	Title    string // of the document
	Heading  string
	Invented bool
	Facts    []pageFact

	State    string // word of the verdict, which also chooses the accent
	Badge    string // the same in plain words
	Verdict  string // the first sentence
	Then     string // what follows it
	Warnings []string
	Others   []pageFact

	Picture    template.HTML
	Line       []lineRow
	Numbers    []pageNumber
	Events     []toldEvent
	Seen       []string
	Causes     []pageCause
	MoreCauses string
	Brief      string       // why, in a sentence
	NoCause    string       // why there is no chain to tell
	AskWhy     bool         // changes were not tried, and there is something that they might mend
	Further    []pageTold   // what else the winter did
	Key        []pictureKey // of the picture

	Blind    []blindSpot // what no simulation of ice sees
	Remedies *pageRemedies
	Findings []SummaryFinding
	Defaults []inputRow
	Written  []inputRow
	Deciding []string // which defaults decide the verdict; nil: they were not tried
	Charts   []pageChart

	Water     []pageFact
	WaterTo   []pageFact
	WaterSum  string
	Heat      []heatRow
	Checks    []pageFact
	Files     []pageFact
	Neglected []neglected
	Cautions  []string
	Version   string
}

// pageFact is a thing and what is to be said of it.
type pageFact struct{ Name, Words string }

// pageCause is a closure and its chain of causes.
type pageCause struct {
	Title string
	Lines []string
}

func newPage(r *sim.Result, o PageOptions) (*page, error) {
	style, err := pageStyle()
	if err != nil {
		return nil, err
	}
	charts, err := pageCharts(r, o)
	if err != nil {
		return nil, err
	}
	s := o.Screen.System
	o.Screen.Weather = filepath.Base(o.Screen.Weather) // no file of results knows where it was made
	if o.Screen.Weather == "." {
		o.Screen.Weather = ""
	}
	name := headingOf(cmp.Or(r.Title, r.Name, "a discharge line"))
	p := &page{
		Style: style, Title: "Winter report: " + name, Heading: name, Invented: r.Invented,
		Facts: pageFacts(r, o), State: r.Verdict.State.String(), Badge: stateBadges[r.Verdict.State],
		Warnings: slices.Concat(farWarning(o.Why), warningWords(r)), Others: otherRuns(o),
		Picture: linePicture(r, s), Key: lineKey(r), Line: lineRows(r, s), Numbers: pageNumbers(r, o), Events: tellEvents(r, s),
		Seen: pageSeen(r, o), Further: furtherWords(r, s), AskWhy: o.Why == nil && r.Verdict.FirstIce != nil,
		Blind: pageBlind(o.Why), Remedies: remediesOf(o.Why, s), Findings: pageFindings(r, o), Deciding: decidingLines(r, o), Charts: charts,
		Heat: heatRows(r, s), Checks: checkFacts(r), Files: inputFiles(o.Inputs),
		Neglected: neglectedThings, Cautions: cautions(), Version: o.Version,
	}
	if r.Invented {
		p.Title = "An invented house: " + lowerFirst(p.Title)
	}
	p.Verdict, p.Then = pageVerdict(r, s)
	p.inputs(inputRows(r, o.Sure, s))
	p.water(r, s)
	p.causes(r, s)
	return p, nil
}

// longestHeading is how long a name stands on the page: some three lines of its heading.
const longestHeading = 160

// headingOf is a name as the page's heading has it, cut behind a word where it is longer than anybody reads.
func headingOf(name string) string {
	runes := []rune(name)
	if len(runes) <= longestHeading {
		return name
	}
	cut := string(runes[:longestHeading])
	if space := strings.LastIndexByte(cut, ' '); space > len(cut)/2 {
		cut = cut[:space]
	}
	return cut + " …"
}

// pageFacts say which winter it is.
func pageFacts(r *sim.Result, o PageOptions) []pageFact {
	facts := []pageFact{{"Winter", datesOf(r.Start, r.Hourly.Time)}, {"Weather", strings.TrimPrefix(weatherWords(o.Screen), "Weather: ")},
		{"How sure", defaultsWords(r)}}
	return slices.DeleteFunc(facts, func(f pageFact) bool { return f.Words == "" })
}

// defaultsWords say how many inputs nobody measured.
func defaultsWords(r *sim.Result) string {
	switch n := len(guessesOf(r.Layout)); n {
	case 0:
		return "no input was left to a default"
	case 1:
		return "1 input is a default that nobody measured; it is marked below"
	default:
		return plural(float64(n), "input") + " are defaults that nobody measured; they are marked below"
	}
}

// decidingLines say which defaults decide the verdict, and what to measure.
func decidingLines(r *sim.Result, o PageOptions) []string {
	lines := sureWords(guessesOf(r.Layout), o.Sure, o.Screen.System, sureMostEver)[1:]
	for i := range lines {
		lines[i] = sentence(lines[i])
	}
	return lines
}

// otherRuns tells what came of the other schedules that were supposed.
func otherRuns(o PageOptions) (out []pageFact) {
	for _, a := range o.Others {
		out = append(out, pageFact{capital(a.Name) + ", " + a.Plan, unshout(headline(a.Result, o.Screen.System))})
	}
	return out
}

// toldClosures is how many closures the page tells the causes of.
const toldClosures = 3

// causes fills in what brought each closure about.
func (p *page) causes(r *sim.Result, s System) {
	p.NoCause = "The line never froze shut, so there is no chain of causes to tell."
	if r.Verdict.Closed != nil {
		p.NoCause = "What made it freeze is not known for this result."
	}
	if words := whyWords(r, s); len(words) > 0 {
		p.Brief = unbroken(words[0])
	}
	for i := range r.Closures {
		if i == toldClosures {
			p.MoreCauses = plural(float64(len(r.Closures)-i), "later closure") + " left out here; the file events.csv lists every one."
			return
		}
		lines := causeWords(r, i, s)
		if len(lines) > 1 { // its first sentence says what froze shut and when
			for j := range lines {
				lines[j] = unbroken(lines[j])
			}
			p.Causes = append(p.Causes, pageCause{strings.TrimSuffix(lines[0], "."), lines[1:]})
		}
	}
}

// pageTold is a thing that the page tells in sentences.
type pageTold struct {
	Name  string
	Lines []string
}

// furtherWords are what the screen tells of the winter beside verdict and closures.
func furtherWords(r *sim.Result, s System) []pageTold {
	table := newWaterTable(r, s)
	var out []pageTold
	for _, b := range []block{
		{"Could shut sooner", dendriticWords(r)},
		{"Ice", iceWords(r, s)},
		{"The relief opening ran", reliefRanWords(r, s)},
		{"Water beside the house", spilledWords(r, &table)},
		{"Basement floor", floorWords(r, &table)},
		{"Trapped water", trappedWords(r, s)},
		{"Air gap", gapWords(r, s)},
		{"Ice on the ground", moundWords(r, s)},
		{"Frost heave", movementWords(r, s)},
		{"Look at", lookAt(r, s, &table)},
	} {
		if len(b.lines) == 0 {
			continue
		}
		told := pageTold{Name: b.label}
		for _, line := range b.lines {
			told.Lines = append(told.Lines, unbroken(sentence(line)))
		}
		out = append(out, told)
	}
	return out
}

// sentence gives words a capital and a full stop, unless brackets hold them.
func sentence(words string) string {
	words = capital(strings.TrimSpace(words))
	if words == "" || strings.ContainsAny(words[len(words)-1:], ".!?") || words[0] == '(' && strings.HasSuffix(words, ")") {
		return words
	}
	return words + "."
}

// pageFindings are what the trade would do otherwise, with what each did in this winter.
func pageFindings(r *sim.Result, o PageOptions) []SummaryFinding {
	out := []SummaryFinding{}
	for _, f := range slices.Concat(o.Findings, foundInWinter(r)) {
		out = append(out, SummaryFinding{capital(findingName(f)), f.Sentence, f.Source, sentence(strings.TrimSuffix(findingEffect(f, r, o.Screen.System), " in this winter"))})
	}
	return out
}
