//go:build browser

package report

import (
	"os/exec"
	"testing"

	"github.com/chromedp/chromedp"
)

const openAll = `document.querySelectorAll("details").forEach(d => d.open = true)`

// The evidence page passes what report.html passes, with its rows closed and, where words may be as long as they come, open.
func TestEvidenceInBrowser(t *testing.T) {
	for name, e := range map[string]Evidence{"computed": computedEvidence(), "missed": missedEvidence()} {
		t.Run(name, func(t *testing.T) {
			w := browse(t)
			w.visit(t, EvidenceFile(pageName, e))
			w.examine(t)
			w.change(t, openAll)
			for _, width := range []int64{375, 1280} {
				w.size(t, width)
				for _, c := range ask[[]string](t, w, "sideways()") {
					t.Errorf("%d px, all open: %s", width, c)
				}
			}
			for _, c := range ask[[]string](t, w, "names()") {
				t.Error("all open:", c)
			}
			if name == "missed" { // its rows are few enough to look at each
				w.examine(t)
			}
		})
	}
}

// On paper no row and no chart is cut, and what is closed on the screen is left out.
func TestPrintedEvidenceIsWhole(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("no pdftoppm on the PATH")
	}
	e := computedEvidence()
	w := browse(t)
	w.visit(t, EvidenceFile(pageName, e))
	marked := ask[int](t, w, "markEnds()")
	if marked < 300 || marked > len(e.Checks) {
		t.Fatalf("%d rows and charts are marked", marked)
	}
	for paper, size := range map[string]chromedp.PaperSize{"letter": chromedp.PaperLetter, "A4": chromedp.PaperA4} {
		if cut := w.cutOnPaper(t, size, marked); len(cut) > 0 {
			t.Errorf("%s: cut: %v", paper, cut)
		}
	}
}
