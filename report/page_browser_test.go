//go:build browser

package report

import (
	"context"
	_ "embed"
	"fmt"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"winterline/sim"
	"winterline/sim/answers"
)

// These tests look at report.html in a real browser. They run with -tags browser, where there is a Chromium.

// The checks that run within the page; each function gives its complaints.
//
//go:embed testdata/page_checks.js
var pageChecks string

// shownPage is a winter and what its page tells beside it.
type shownPage struct {
	r *sim.Result
	o PageOptions
}

func pageFor(r *sim.Result) shownPage { return shownPage{r, fullPage(r, US)} }

// pageWithChanges is the page of `why`.
func pageWithChanges() shownPage {
	a := whySample()
	a.Remedies.Pairs = []answers.Remedy{a.Remedies.Singles[1]}
	p := pageFor(a.Result)
	p.o.Why, p.o.Sure, p.o.Margin = a, a.Sure, a.Remedies.Base.Margin
	return p
}

// hostileTitle is what nobody calls a house.
var hostileTitle = `<script>alert(1)</script> "` + strings.Repeat("W", 10_000) + " בית קפוא 🧊"

// browserPages are the pages that the browser looks at.
func browserPages() map[string]shownPage {
	hostile := plain(sim.Flooded)
	hostile.Title = hostileTitle
	hostile.Segments[2].Name = strings.Repeat("longname", 40)
	many := sample(sampleSpec{sim.Spilled, 30, 60})
	many.Invented = true
	return map[string]shownPage{
		"shut-relieved": pageFor(plain(sim.ShutRelieved)), "iced": pageFor(plain(sim.Iced)), "clear": pageFor(sample(sampleSpec{sim.Clear, 3, 3})),
		"hostile": pageFor(hostile), "many": pageFor(many), "changes": pageWithChanges(),
	}
}

// watched is a browser tab with what went wrong in it.
type watched struct {
	context.Context
	mutex  sync.Mutex
	faults []string
}

func (w *watched) complain(words string) {
	w.mutex.Lock()
	defer w.mutex.Unlock()
	w.faults = append(w.faults, words)
}

// listen takes down errors of the console and requests that leave the page.
func (w *watched) listen(event any) {
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		w.complain("the console has an entry of kind " + string(e.Type))
	case *runtime.EventExceptionThrown:
		w.complain("an exception: " + e.ExceptionDetails.Text)
	case *log.EventEntryAdded:
		w.complain("the log has: " + e.Entry.Text)
	case *network.EventRequestWillBeSent:
		if to, err := url.Parse(e.Request.URL); err != nil || to.Scheme != "data" && (to.Scheme != "file" || filepath.Base(to.Path) != pageName) {
			w.complain("a request to " + e.Request.URL)
		}
	}
}

// browse starts a browser of its own for the test.
func browse(t *testing.T) *watched {
	t.Helper()
	chromium, err := exec.LookPath("chromium")
	if err != nil {
		t.Skip("no chromium on the PATH")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	limited, end := context.WithTimeout(t.Context(), 2*time.Minute)
	t.Cleanup(end)
	allocated, free := chromedp.NewExecAllocator(limited, options...)
	t.Cleanup(free)
	tab, shut := chromedp.NewContext(allocated)
	t.Cleanup(shut)
	w := &watched{Context: tab}
	w.do(t) // opens the tab
	if err := chromedp.Listen(tab, w.listen); err != nil {
		t.Fatal(err)
	}
	send(t, w, network.Enable, network.EnableParams{})
	send(t, w, log.Enable, cdp.Empty{})
	send(t, w, runtime.Enable, cdp.Empty{})
	return w
}

// open writes a page and goes there.
func (w *watched) open(t *testing.T, p shownPage) {
	t.Helper()
	w.visit(t, PageFile(p.r, p.o))
}

// visit writes a page, under the one name that may be asked for, and goes there.
func (w *watched) visit(t *testing.T, f File) {
	t.Helper()
	path := filepath.Join(t.TempDir(), pageName)
	if err := os.WriteFile(path, rendered(t, f), 0o644); err != nil {
		t.Fatal(err)
	}
	w.do(t, chromedp.Navigate("file://"+filepath.ToSlash(path)), chromedp.WaitReady(chromedp.CSS("footer")))
}

func (w *watched) do(t *testing.T, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(w, steps...); err != nil {
		t.Fatal(err)
	}
}

// send sends a command of the protocol.
func send[P, R any](t *testing.T, w *watched, c cdp.Command[P, R], params P) {
	t.Helper()
	if _, err := chromedp.Call(w, c, params); err != nil {
		t.Fatal(err)
	}
}

// ask runs one of the checks within the page.
func ask[T any](t *testing.T, w *watched, check string) T {
	t.Helper()
	answer, err := chromedp.Run(w, chromedp.Evaluate[T]("(() => {"+pageChecks+"\nreturn "+check+";})()"))
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// change runs words of the test's own within the page, and gives the page time to follow.
func (w *watched) change(t *testing.T, words string) {
	t.Helper()
	w.do(t, chromedp.Evaluate[chromedp.Void](words+"; 0"), chromedp.Sleep(100*time.Millisecond))
}

func (w *watched) size(t *testing.T, width int64) {
	t.Helper()
	w.do(t, chromedp.EmulateViewport(width, 900))
}

func (w *watched) scheme(t *testing.T, word string) {
	t.Helper()
	send(t, w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: word}}})
}

// In light and dark, on a phone and on a desk: nothing is fetched, nothing complains, all pictures show, nothing scrolls
// sideways, and people who listen to the page or see little get all of it.
func TestPageInBrowser(t *testing.T) {
	for name, p := range browserPages() {
		t.Run(name, func(t *testing.T) {
			w := browse(t)
			w.open(t, p)
			w.examine(t)
		})
	}
}

// examine makes every check of the page that is open, at two widths, in light and dark.
func (w *watched) examine(t *testing.T) {
	t.Helper()
	for _, width := range []int64{375, 1280} {
		w.size(t, width)
		for _, c := range ask[[]string](t, w, "sideways()") {
			t.Errorf("%d px: %s", width, c)
		}
		for _, light := range []string{"light", "dark"} {
			w.scheme(t, light)
			for _, c := range ask[[]string](t, w, "contrast(4.5)") {
				t.Errorf("%d px, %s: %s", width, light, c)
			}
		}
	}
	for _, check := range []string{"images()", "headings()", "tables()", "names()"} {
		for _, c := range ask[[]string](t, w, check) {
			t.Error(c)
		}
	}
	for _, fault := range w.faults {
		t.Error(fault)
	}
}

// The checks find what they look for when it is put there.
func TestChecksFind(t *testing.T) {
	w := browse(t)
	w.open(t, pageFor(plain(sim.ShutRelieved)))
	w.size(t, 1280)
	w.scheme(t, "light")
	for _, c := range []struct{ spoil, check string }{
		{`document.querySelector("main").style.width = "3000px"; document.querySelector("main").style.maxWidth = "none"`, "sideways()"},
		{`document.querySelector("h2").style.color = "#999"`, "contrast(4.5)"},
		{`document.querySelector("svg text").setAttribute("fill", "#ccc")`, "contrast(4.5)"},
		{`document.querySelector("img").src = "data:image/png;base64,AAAA"`, "images()"},
		{`document.querySelector("img").alt = ""`, "images()"},
		{`document.querySelector("h3").outerHTML = "<h5>x</h5>"`, "headings()"},
		{`document.querySelector("th").removeAttribute("scope")`, "tables()"},
		{`document.documentElement.lang = ""`, "names()"},
		{`document.querySelector(".wide").removeAttribute("tabindex")`, "names()"},
	} {
		w.open(t, pageFor(plain(sim.ShutRelieved)))
		w.change(t, c.spoil)
		if len(ask[[]string](t, w, c.check)) == 0 {
			t.Errorf("%s finds nothing after %s", c.check, c.spoil)
		}
	}
	w.change(t, `console.error("x"); fetch("https://example.invalid/").catch(() => 0)`)
	if text := strings.Join(w.faults, "\n"); !strings.Contains(text, "console") || !strings.Contains(text, "example.invalid") {
		t.Errorf("console and requests are not watched: %s", text)
	}
}

// On paper no picture and no row of a table is cut by the end of a page.
func TestPrintedPageIsWhole(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("no pdftoppm on the PATH")
	}
	pages := browserPages()
	for _, name := range []string{"shut-relieved", "many", "clear", "changes"} {
		p := pages[name]
		t.Run(name, func(t *testing.T) {
			w := browse(t)
			w.open(t, p)
			marked := ask[int](t, w, "markEnds()")
			if marked < 20 {
				t.Fatalf("only %d rows and pictures are marked", marked)
			}
			for paper, size := range map[string]chromedp.PaperSize{"letter": chromedp.PaperLetter, "A4": chromedp.PaperA4} {
				if cut := w.cutOnPaper(t, size, marked); len(cut) > 0 {
					t.Errorf("%s: cut: %v", paper, cut)
				}
			}
			w.change(t, `document.head.insertAdjacentHTML("beforeend", "<style>@media print { * { break-inside: auto !important } .paper img { max-height: none !important; width: 100% !important; height: 300mm !important } td { height: 40mm } }</style>")`)
			if len(w.cutOnPaper(t, chromedp.PaperLetter, marked)) == 0 && name != "clear" {
				t.Error("where everything may be cut, nothing is found to be")
			}
		})
	}
}

// Whatever a house is called, its page takes as many sheets of paper as with a plain name, or one more.
func TestPrintedPageCount(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("no pdftoppm on the PATH")
	}
	w := browse(t)
	sheets := map[string]int{}
	for _, title := range []string{"Larkspur Hollow", hostileTitle, "\u202e" + strings.Repeat("בית קפוא ", 1000), strings.Repeat("🧊", 10_000)} {
		r := plain(sim.ShutRelieved)
		r.Title = title
		w.open(t, pageFor(r))
		for paper, size := range map[string]chromedp.PaperSize{"letter": chromedp.PaperLetter, "A4": chromedp.PaperA4} {
			n := len(w.onPaper(t, size))
			if sheets[paper] == 0 {
				sheets[paper] = n
			}
			if n < sheets[paper] || n > sheets[paper]+1 {
				t.Errorf("%s: %d sheets with the title %.30q, %d with a plain one", paper, n, title, sheets[paper])
			}
		}
	}
	if sheets["letter"] < 5 {
		t.Errorf("the page takes %d sheets", sheets["letter"])
	}
}

// onPaper prints the page and gives a picture of each sheet.
func (w *watched) onPaper(t *testing.T, paper chromedp.PaperSize) []string {
	t.Helper()
	pdf, err := chromedp.Run(w, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFPrintBackground()))
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "page.pdf"), pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", "72", filepath.Join(folder, "page.pdf"), filepath.Join(folder, "p")).CombinedOutput(); err != nil {
		t.Fatal(err, string(out))
	}
	pages, err := filepath.Glob(filepath.Join(folder, "p*.ppm"))
	if err != nil || len(pages) == 0 {
		t.Fatal("no pages", err)
	}
	return pages
}

// cutOnPaper prints the page and gives the marked things whose ends lie on different pages.
func (w *watched) cutOnPaper(t *testing.T, paper chromedp.PaperSize, marked int) (cut []int) {
	t.Helper()
	pages := w.onPaper(t, paper)
	tops, bottoms := make([]int, marked), make([]int, marked)
	for i, path := range pages {
		findEnds(t, path, i+1, tops, bottoms)
	}
	for i := range marked {
		if tops[i] == 0 || bottoms[i] == 0 {
			t.Errorf("the ends of %d are not on paper", i)
		}
		if tops[i] != bottoms[i] {
			cut = append(cut, i)
		}
	}
	return cut
}

// findEnds takes down on which page the marks of tops and bottoms stand: red is 255 or 253, green and blue are the number.
func findEnds(t *testing.T, path string, page int, tops, bottoms []int) {
	t.Helper()
	picture, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var width, height, most int
	if _, err := fmt.Sscanf(string(picture[:min(40, len(picture))]), "P6\n%d %d\n%d\n", &width, &height, &most); err != nil || most != 255 || len(picture) < 3*width*height {
		t.Fatal(path, "is no picture of 8 bits", err)
	}
	for dots := picture[len(picture)-3*width*height:]; len(dots) > 0; dots = dots[3:] {
		n := int(dots[1]) + 256*int(dots[2])
		switch {
		case n >= len(tops):
		case dots[0] == 255 && tops[n] == 0:
			tops[n] = page
		case dots[0] == 253:
			bottoms[n] = page
		}
	}
}
