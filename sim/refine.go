package sim

import (
	"math"

	"winterline/pipe"
	"winterline/weather"
)

// Finer and coarser meshes and steps than the defaults, for studies of how far results depend on
// them.

// Times multiplies the number of shells, rounded to one at least. A part left to its default takes
// so many times that; so does insulation, whose default goes by its thickness.
func (s Shells) Times(n float64) Shells {
	if n == 1 {
		return s
	}
	s = s.orDefault()
	for _, p := range []*int{&s.Water, &s.Surface, &s.Wall, &s.Soil} {
		*p = times(*p, n)
	}
	if s.Layer > 0 {
		s.Layer = times(s.Layer, n)
		return s
	}
	if s.finer == 0 {
		s.finer = 1
	}
	s.finer *= n
	return s
}

// times is a number of shells multiplied; one at least.
func times(shells int, n float64) int { return max(1, int(math.Round(n*float64(shells)))) }

// Times multiplies the tolerance and with it the longest and the first step, and those while water runs.
func (s Stepping) Times(n float64) Stepping {
	if n == 1 {
		return s
	}
	s = s.orDefault()
	s.Tolerance, s.Longest, s.First, s.Running = n*s.Tolerance, n*s.Longest, n*s.First, n*s.Running
	return s
}

// NewSteppedAir is NewOpenAir with the given steps.
func NewSteppedAir(s *weather.Series, steps Stepping) *OpenAir {
	return &OpenAir{newSky(s, 1), newStepper(steps)}
}

// NewCutColumn is NewSoilColumn with every volume cut into equal ones.
func NewCutColumn(soil pipe.Soil, start float64, s Stepping, pieces int) *SoilColumn {
	c := newColumnOf(cut(columnGrid(), pieces), func(float64) pipe.Soil { return soil }, start)
	return &SoilColumn{c, newStepper(s)}
}

// cut puts further edges between edges.
func cut(edges []float64, pieces int) []float64 {
	out := edges[:1:1]
	for i, to := range edges[1:] {
		from := edges[i]
		for k := range pieces - 1 {
			out = append(out, from+(to-from)*float64(k+1)/float64(pieces))
		}
		out = append(out, to)
	}
	return out
}
