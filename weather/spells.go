package weather

import "math"

// SpellLength is how long a cold spell of coldestSpells is [s]: three days, long enough to
// tell on a line with a little soil on top, short enough for a winter to hold several.
const SpellLength = 3 * secondsPerDay

// Spell is a stretch of cold weather.
type Spell struct {
	Start, End float64 // [s] since the first row
	Mean       float64 // of the air temperature [°C]
	Lowest     float64 // air temperature [°C]
	Wind       float64 // mean [m/s]; NaN where the record has no wind
	Snow       float64 // greatest snow depth [m]; NaN where the record has none
}

// coldestSpells returns up to n cold spells, coldest first. A spell is a time of
// SpellLength that begins at a row, and is as cold as its mean air temperature. The first
// is the coldest of the record, each further one the coldest that shares no time with those
// before it; of equals the earlier. Spells whose mean is 0 °C or more are not cold.
func (s *Series) coldestSpells(n int) (spells []Spell) {
	means := s.spellMeans()
	for len(spells) < n {
		best := -1
		for i, mean := range means {
			if mean < 0 && (best < 0 || mean < means[best]) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		spells = append(spells, s.spell(best, means[best]))
		for i := range means { // rows at which a spell would share time with this one
			if math.Abs(s.Time[i]-s.Time[best]) < SpellLength {
				means[i] = math.Inf(1)
			}
		}
	}
	return spells
}

// spellMeans returns the mean air temperature of the spell that begins at each row, for as
// many rows as have one inside the record.
func (s *Series) spellMeans() []float64 {
	total := s.cumulative(s.Air)
	var means []float64
	for i, t := range s.Time {
		if t+SpellLength > s.End() {
			break
		}
		means = append(means, (s.upTo(s.Air, total, t+SpellLength)-total[i])/SpellLength)
	}
	return means
}

func (s *Series) spell(row int, mean float64) Spell {
	p := Spell{Start: s.Time[row], End: s.Time[row] + SpellLength, Mean: mean, Lowest: s.Air[row], Wind: math.NaN(), Snow: math.NaN()}
	for i := row; i < len(s.Time) && s.Time[i] <= p.End; i++ {
		p.Lowest = min(p.Lowest, s.Air[i])
	}
	if s.Wind != nil {
		total, end := 0.0, row
		for ; end+1 < len(s.Time) && s.Time[end+1] <= p.End; end++ {
			total += (s.Wind[end] + s.Wind[end+1]) / 2 * (s.Time[end+1] - s.Time[end])
		}
		if p.Wind = s.Wind[row]; end > row {
			p.Wind = total / (s.Time[end] - s.Time[row])
		}
	}
	if s.SnowDepth != nil {
		p.Snow = s.SnowDepth[row]
		for i := row; i < len(s.Time) && s.Time[i] <= p.End; i++ {
			p.Snow = max(p.Snow, s.SnowDepth[i])
		}
	}
	return p
}

// longestBelow returns the longest time without a break in which the air, joined linearly
// between rows, stays below a limit [°C]: when it begins and how long it is [s]. The length
// is 0 where the air never is. Of equals the first counts.
func (s *Series) longestBelow(limit float64) (start, length float64) {
	from, inside := 0.0, false
	end := func(at float64) {
		if inside && at-from > length {
			start, length = from, at-from
		}
		inside = false
	}
	for i, air := range s.Air {
		if below := air < limit; below == inside {
			continue
		}
		at := s.Time[i]
		if i > 0 {
			at = s.crossing(i, limit)
		}
		if inside {
			end(at)
		} else {
			from, inside = at, true
		}
	}
	end(s.End())
	return start, length
}

// crossing returns when the air passes a limit between row i-1 and row i [s].
func (s *Series) crossing(i int, limit float64) float64 {
	share := (limit - s.Air[i-1]) / (s.Air[i] - s.Air[i-1])
	return s.Time[i-1] + share*(s.Time[i]-s.Time[i-1])
}
