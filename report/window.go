package report

import (
	"math"
	"sort"

	"winterline/sim"
)

// within is the part of a result from t0 to t1 [s], for charts: rows, cycles and events that lie there. What sums the
// whole winter up stays as it is.
func within(r *sim.Result, t0, t1 float64) *sim.Result {
	cut := *r
	h := &cut.Hourly
	from := sort.SearchFloat64s(h.Time, t0)
	to := sort.Search(len(h.Time), func(i int) bool { return h.Time[i] > t1 })
	for _, series := range []*[]float64{
		&h.Time, &h.Air, &h.Wind, &h.SnowDepth, &h.Frost, &h.Basin, &h.Standpipe, &h.Pocket,
		&h.Outlet, &h.Relief, &h.Rim, &h.ToSoil, &h.Floor,
	} {
		if len(*series) >= to {
			*series = (*series)[from:to]
		}
	}
	h.Segments = nil
	for _, s := range r.Hourly.Segments {
		h.Segments = append(h.Segments, sim.SegmentHourly{Water: s.Water[from:to], Ice: s.Ice[from:to], Fill: s.Fill[from:to]})
	}
	cut.Cycles, cut.Events = nil, nil
	for _, c := range r.Cycles {
		if c.Time >= t0 && c.Time <= t1 {
			cut.Cycles = append(cut.Cycles, c)
		}
	}
	for _, e := range r.Events {
		if e.Time >= t0 && e.Time <= t1 {
			cut.Events = append(cut.Events, e)
		}
	}
	if open := cut.Verdict.Reopened; open != nil && (*open < t0 || *open > t1) {
		cut.Verdict.Reopened = nil
	}
	return &cut
}

// The worst hours of a winter, of which a chart tells in detail [s].
const (
	worstHours  = 72 * 3600
	beforeShut  = 48 * 3600
	worstReason = "the air was coldest" // where nothing froze shut
)

// worstWindow is that stretch: two days before the line first shut and the day after; where it did not, the coldest
// of its length. It tells which.
func worstWindow(r *sim.Result) (t0, t1 float64, reason string) {
	first, last := recordSpan(r)
	if shut := r.Verdict.Closed; shut != nil {
		t0, reason = math.Floor((*shut-beforeShut)/3600)*3600, "the line first froze shut"
	} else {
		t0, reason = coldestStart(r), worstReason
	}
	t0 = math.Max(first, math.Min(t0, last-worstHours))
	return t0, math.Min(last, t0+worstHours), reason
}

// coldestStart is when the coldest stretch of that length begins, by the mean of its rows [s].
func coldestStart(r *sim.Result) float64 {
	h := r.Hourly
	best, least := h.Time[0], math.Inf(1)
	sum, from := 0.0, 0
	for i, t := range h.Time {
		if !math.IsNaN(h.Air[i]) {
			sum += h.Air[i]
		}
		for t-h.Time[from] > worstHours {
			if !math.IsNaN(h.Air[from]) {
				sum -= h.Air[from]
			}
			from++
		}
		whole := t-h.Time[0] >= worstHours
		if mean := sum / float64(i-from+1); whole && mean < least-1e-9 {
			best, least = h.Time[from], mean
		}
	}
	return best
}
