package report

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"winterline/sim"
	"winterline/sim/answers"
)

// The sentences that say what each chart shows, for readers who cannot see it and for those who want it in words.

// chartTale is a chart's title and the sentence that says what it shows; "" where the result has nothing to say.
type chartTale struct {
	title string
	words func(chartTeller) string
}

// chartTeller is what a sentence on a chart is made of.
type chartTeller struct {
	r      *sim.Result
	margin *answers.Margin // nil: not worked out
	s      System
}

// chartTales are those of Charts, by name of the file.
var chartTales = map[string]chartTale{
	"weather":           {"The weather and the pump", weatherTale},
	"water-temperature": {"Water in the line", temperatureTale},
	"ice":               {"Ice in the line", iceTale},
	"profile":           {"The line in profile", profileTale},
	"water-paths":       {"Where the water went", pathsTale},
	"levels":            {"Levels of the water", levelsTale},
	"segments":          {"Part by part through the winter", segmentsTale},
	"worst-72-hours":    {"The worst hours", worstTale},
	"profile-moments":   {"The line in profile, moment by moment", momentsTale},
	"margin":            {"How close it was", marginTale},
}

// chartPage is the number of a page of a chart that takes several, at the end of its name.
var chartPage = regexp.MustCompile(`-\d+$`)

// chartWords gives the title of a chart of a result and a sentence that says what it shows. The name is that of its file,
// without ending and without the number of its page; m may be nil. A chart that has no words here goes by its name.
func chartWords(name string, r *sim.Result, m *answers.Margin, s System) (title, sentence string) {
	tale, known := chartTales[chartPage.ReplaceAllString(name, "")]
	if !known {
		title = capital(strings.ReplaceAll(name, "-", " "))
		return title, "A chart without a sentence of its own: " + title + "."
	}
	return tale.title, tale.words(chartTeller{r, m, s})
}

func weatherTale(t chartTeller) string {
	r, s := t.r, t.s
	h := r.Hourly
	low, high, ok := extremes(h.Air)
	if !ok {
		return "Outdoor air: no figures."
	}
	words := fmt.Sprintf("Outdoor air through the winter: coldest %s on %s, warmest %s", s.bothTemperatures(h.Air[low]), spokenTime(r.Start, h.Time[low]),
		s.bothTemperatures(h.Air[high]))
	if _, deep, some := extremes(h.SnowDepth); some && h.SnowDepth[deep] > 0 {
		words += fmt.Sprintf("; up to %s of snow on the line", s.bothLengths(h.SnowDepth[deep]))
	}
	if n := len(r.Cycles); n > 0 {
		words += "; the pump started " + plural(float64(n), "time")
	}
	return words + "."
}

func temperatureTale(t chartTeller) string {
	r, s := t.r, t.s
	coldest := -1
	for i, seg := range r.Segments {
		if !math.IsNaN(seg.LowestWater) && (coldest < 0 || seg.LowestWater < r.Segments[coldest].LowestWater) {
			coldest = i
		}
	}
	if coldest < 0 {
		return "Lowest temperature of the water in each segment: no water stood anywhere."
	}
	return fmt.Sprintf("Lowest temperature of the water or ice in each of %s, day by day: coldest in the %s, at %s.",
		plural(float64(len(r.Segments)), "part"), r.Segments[coldest].Name, s.bothTemperatures(r.Segments[coldest].LowestWater))
}

func iceTale(t chartTeller) string {
	r := t.r
	iced, shut := 0, 0
	for _, seg := range r.Segments {
		if seg.FirstIce != nil {
			iced++
		}
		if seg.Closed != nil {
			shut++
		}
	}
	worst, share := mostIce(r)
	if worst < 0 {
		return fmt.Sprintf("Ice in each of %s over time: none formed.", plural(float64(len(r.Segments)), "part"))
	}
	return fmt.Sprintf("Ice in each of %s over time: ice formed in %s, %s froze shut; most in the %s, %s of the water that stood there.",
		plural(float64(len(r.Segments)), "part"), number(float64(iced), 0), number(float64(shut), 0), r.Segments[worst].Name, percent(share))
}

func profileTale(t chartTeller) string {
	r, s := t.r, t.s
	words := "The line in profile, with ground and water, when it held most ice, " + spokenTime(r.Start, r.Worst.Time)
	if worst, _ := mostIce(r); worst < 0 {
		words = "The line in profile, with ground and water; no ice formed in it"
	}
	if r.Worst.Frost > 0 {
		words += ": frost " + s.bothDepths(r.Worst.Frost) + " deep"
		if r.Worst.Snow > 0 {
			words += " under " + s.bothLengths(r.Worst.Snow) + " of snow"
		}
	}
	return words + "."
}

func pathsTale(t chartTeller) string {
	r, s := t.r, t.s
	table := newWaterTable(r, s)
	var parts []string
	for _, row := range table.out {
		if row.m3 > 1e-9 {
			parts = append(parts, table.number(row)+" "+s.volumeUnit()+" "+row.words)
		}
	}
	if len(parts) == 0 {
		return "Where the water went, added up over time: none came."
	}
	return "Where the water went, added up over time: " + list(parts) + "."
}

func levelsTale(t chartTeller) string {
	r, s := t.r, t.s
	h := r.Hourly
	var parts []string
	if _, high, ok := extremes(h.Standpipe); ok {
		top := h.Standpipe[high]
		for _, c := range r.Cycles {
			if c.Level > top { // never true of the NaN that stands for none
				top = c.Level
			}
		}
		parts = append(parts, "in the standpipe up to "+levelOverGround(top, s))
	}
	if low, high, ok := extremes(h.Pocket); ok {
		parts = append(parts, "in the rock pit from "+percent(h.Pocket[low])+" to "+percent(h.Pocket[high])+" full")
	}
	if _, high, ok := extremes(h.Basin); ok {
		parts = append(parts, "in the basin up to "+s.bothLengths(h.Basin[high])+" above its bottom")
	}
	if len(parts) == 0 {
		return "Levels of the water: no figures."
	}
	return "Levels of the water over time: " + list(parts) + "."
}

// levelOverGround says where a level lies, counted from the ground at the wall.
func levelOverGround(z float64, s System) string {
	if z < 0 {
		return s.bothLengths(-z) + " below the ground"
	}
	return s.bothLengths(z) + " above the ground"
}

func segmentsTale(t chartTeller) string {
	words := "Temperature, water and ice in each part that held water"
	if worst, share := mostIce(t.r); worst >= 0 {
		words += ": most ice in the " + t.r.Segments[worst].Name + ", up to " + percent(share) + " of the water that stood there"
	} else {
		words += ": no ice in any"
	}
	if t.r.Verdict.Closed != nil {
		words += "; " + shutFirst(t.r) + " froze shut first"
	}
	return words + "."
}

func worstTale(t chartTeller) string {
	r := t.r
	if len(r.Hourly.Time) == 0 {
		return "The worst hours in detail: no figures."
	}
	t0, t1, reason := worstWindow(r)
	cut := within(r, t0, t1)
	words := fmt.Sprintf("The hours in which %s in detail, %s to %s", reason, spokenTime(r.Start, t0), spokenTime(r.Start, t1))
	if low, _, ok := extremes(cut.Hourly.Air); ok {
		words += fmt.Sprintf(": air down to %s on %s", t.s.bothTemperatures(cut.Hourly.Air[low]), spokenTime(r.Start, cut.Hourly.Time[low]))
	}
	return words + ", with the coldest parts' water and ice, and which way each pump run went."
}

func momentsTale(t chartTeller) string {
	var parts []string
	for _, m := range moments(t.r) {
		parts = append(parts, m.words+" ("+spokenTime(t.r.Start, m.Time)+")")
	}
	if len(parts) == 0 {
		return "The line in profile: no moment stands out."
	}
	return "The line in profile, one picture for each moment: " + list(parts) + "."
}

func marginTale(t chartTeller) string {
	words := "What the same winter would have done, warmer and colder throughout"
	if t.margin != nil {
		words += ": line " + lineCloseWords(t.margin.Open, t.s) + "; basement: " + basementCloseWords(t.r, t.margin, t.s)
	}
	return words + "."
}
