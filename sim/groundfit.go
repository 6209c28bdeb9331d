package sim

import (
	"cmp"
	"math"
	"slices"
	"time"

	"winterline/weather"
)

// seasonOf is the winter that an instant belongs to, July to June, named by the year in which it ends.
func seasonOf(at time.Time) int {
	if at.Month() >= time.July {
		return at.Year() + 1
	}
	return at.Year()
}

// frostSeasons sums up the frost by winters.
func frostSeasons(r *GroundResult) []FrostSeason {
	var out []FrostSeason
	last := 0
	for i, deep := range r.FrostBottom {
		if math.IsNaN(deep) {
			continue
		}
		t := r.Time[i]
		season := seasonOf(r.Start.Add(time.Duration(t * float64(time.Second))))
		if len(out) == 0 || season != last {
			out = append(out, FrostSeason{From: t})
			last = season
		}
		s := &out[len(out)-1]
		s.To = t
		if deep > s.Deepest {
			s.Deepest, s.DeepestAt = deep, t
		}
	}
	for k := range out {
		out[k].FreezingDays = freezingIndex(r, out[k].From, out[k].To)
	}
	return out
}

// freezingIndex is the sum of the air's degrees below 0 °C between two rows [K d].
func freezingIndex(r *GroundResult, from, to float64) float64 {
	var index float64
	for i := 0; i+1 < len(r.Time); i++ {
		if r.Time[i] >= from && r.Time[i+1] <= to {
			index += math.Max(0, -0.5*(r.Air[i]+r.Air[i+1])) * (r.Time[i+1] - r.Time[i]) / 86400
		}
	}
	return index
}

// measuredDepths sets the measured columns of a record beside the tracks of their depths.
func measuredDepths(s *weather.Series, tracks []GroundTrack) []MeasuredDepth {
	var out []MeasuredDepth
	for _, soil := range s.Soil {
		i := slices.IndexFunc(tracks, func(t GroundTrack) bool { return math.Abs(t.Depth-soil.Depth) < 5e-4 })
		if i >= 0 {
			out = append(out, setBeside(s, soil, tracks[i].Temp))
		}
	}
	slices.SortFunc(out, func(a, b MeasuredDepth) int { return cmp.Compare(a.Depth, b.Depth) })
	return out
}

// setBeside compares one measured column with what was computed at its depth [°C].
func setBeside(s *weather.Series, soil weather.SoilTrack, computed []float64) MeasuredDepth {
	d := MeasuredDepth{Depth: soil.Depth, Temp: soil.Temp}
	var all misfitSum
	winters := map[int]*misfitSum{}
	var order []int
	for i, measured := range soil.Temp {
		miss := computed[i] - measured
		if math.IsNaN(miss) {
			continue
		}
		all.add(miss)
		at := s.Stamp(s.Time[i])
		if m := at.Month(); m >= time.April && m <= time.October {
			continue
		}
		year := seasonOf(at)
		if winters[year] == nil {
			winters[year] = &misfitSum{}
			order = append(order, year)
		}
		winters[year].add(miss)
	}
	d.All = all.misfit()
	for _, year := range order {
		d.Winters = append(d.Winters, WinterMisfit{year, winters[year].misfit()})
	}
	return d
}

// misfitSum gathers differences [K].
type misfitSum struct {
	n            int
	sum, squares float64
}

func (m *misfitSum) add(d float64) { m.n, m.sum, m.squares = m.n+1, m.sum+d, m.squares+d*d }

func (m *misfitSum) misfit() Misfit {
	if m.n == 0 {
		return Misfit{}
	}
	return Misfit{m.n, m.sum / float64(m.n), math.Sqrt(m.squares / float64(m.n))}
}
