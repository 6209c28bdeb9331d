package sim_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"winterline/sim/answers"
	"winterline/weather"
)

// recordQuestion asks about the lines in so many winters of one long invented record, as `winterline winters` does.
func recordQuestion(winters, lines int) *answers.WintersQuestion {
	record := inventedWeather(0, time.Date(2025, 7, 1, 0, 0, 0, 0, time.UTC), winters*365*24+10*24)
	q := &answers.WintersQuestion{Spans: []*weather.Series{record}}
	for _, l := range winterLines[:lines] {
		q.Layouts = append(q.Layouts, answers.Source{Name: l.title, File: "layout.toml", Text: []byte(l.text("every 6 h for 45 s"))})
	}
	return q
}

// BenchmarkLongRecord times `winterline winters` over one record of thirty years by the hour (three without WINTERLINE_LONG)
// with four lines that share their ground: without margins, with them, and with ten draws.
func BenchmarkLongRecord(b *testing.B) {
	winters := 3
	if long() {
		winters = 30
	}
	for _, v := range []struct {
		name    string
		margins bool
		draws   int
	}{{"plain", false, 0}, {"margins", true, 0}, {"draws=10", false, 10}} {
		for _, workers := range []int{1, 2} {
			b.Run(fmt.Sprintf("%s/workers=%d", v.name, workers), func(b *testing.B) {
				q := recordQuestion(winters, len(winterLines))
				q.Margins, q.Draws = v.margins, v.draws
				heap := watchHeap()
				for b.Loop() {
					a, err := (&answers.Engine{Workers: workers}).Winters(context.Background(), q)
					if err != nil {
						b.Fatal(err)
					}
					b.ReportMetric(float64(a.About.Units), "units")
				}
				most := heap.stop()
				b.ReportMetric(most/1e6, "MB-heap")
				if most > heapLimit {
					b.Errorf("%.0f MB on the heap, limit %.0f", most/1e6, heapLimit/1e6)
				}
			})
		}
	}
}
