package weather

import "math"

// SnowKind says where the snow depth comes from. Results always name it, because snow
// on the ground is the largest single insulation over a buried line.
type SnowKind int

// Sources of snow depth, best last.
const (
	SnowNone     SnowKind = iota // the record says nothing about snow
	SnowModelled                 // worked out from snowfall by the pack model below
	SnowMeasured                 // read from the record
)

// String gives the words for results.
func (k SnowKind) String() string {
	return [...]string{"none", "modelled from snowfall", "measured"}[k]
}

// SnowPack is the snow on open ground, one value a row; both slices are nil where nothing
// is known of snow.
type SnowPack struct {
	Kind    SnowKind
	Depth   []float64 // [m]
	Density []float64 // of the whole pack [kg/m³]; that of fresh snow in rows without any
}

// Snow returns the snow on open ground at each row and where its depth comes from: the
// record's own depth; else a pack built from SnowfallWater, or from Rain that fell below
// 1 °C (freezing rain with it, which the record does not tell apart); else nothing.
func (s *Series) Snow() SnowPack {
	switch {
	case s.heritage != nil:
		return s.heritage.pack
	case s.SnowDepth != nil:
		return s.measuredPack()
	case s.SnowfallWater != nil:
		return s.modelledPack(func(i int) float64 { return s.SnowfallWater[i] })
	case s.Rain != nil:
		return s.modelledPack(func(i int) float64 {
			if s.airOver(i) < rainSnowLimit {
				return s.Rain[i]
			}
			return 0
		})
	}
	return SnowPack{}
}

// modelledPack is the pack fed by snowfall(i), the water [m] that falls as snow from row
// i to the next. Within an interval the old pack settles, the new snow is laid on it, and
// melt takes water from the top.
//
// The pack starts bare at the first row: a record that begins in mid-winter has too
// little snow, and so too much frost, until the next winter. Water held in the pack, the
// little heat of rain on snow (10 mm at 5 °C melt 0.6 mm), drifting and melt from below
// are left out.
func (s *Series) modelledPack(snowfall func(i int) float64) SnowPack {
	k := SnowPack{SnowModelled, make([]float64, len(s.Time)), make([]float64, len(s.Time))}
	var p pack
	k.Density[0] = FreshSnowDensity(s.Air[0])
	for i := 0; i+1 < len(s.Time); i++ {
		step, air := s.Time[i+1]-s.Time[i], s.airOver(i)
		fresh := FreshSnowDensity(air)
		p.settle(air, step)
		p.put(layer{snowfall(i), fresh})
		p.melt(DegreeDayMelt(degreeDayFactor, air, step))
		k.Depth[i+1], k.Density[i+1] = p.depth(), p.densityOr(fresh)
	}
	return k
}

// measuredPack is the pack of the recorded depth, with the density that follows from it:
// between rows every layer settles; what the record then stands higher is new snow laid
// on; what it stands lower is taken from the top, where the snow came last. A pack that
// lies there at the first row is taken as settled.
//
// Depths in whole centimetres or inches and the jitter of an instrument come as rises
// that are no snowfall. Because a fall takes back what the last rise has brought, they
// leave the old snow as it is: at worst as much snow as the jitter is high counts as
// new. A dip of a single row (an echo lost) is passed over; a longer false zero is taken
// for bare ground.
func (s *Series) measuredPack() SnowPack {
	k := SnowPack{SnowMeasured, s.SnowDepth, make([]float64, len(s.Time))}
	var p pack
	p.put(layer{s.SnowDepth[0] * oldSnowDensity / waterDensity, oldSnowDensity})
	k.Density[0] = p.densityOr(FreshSnowDensity(s.Air[0]))
	for i := 0; i+1 < len(s.Time); i++ {
		air, deep := s.airOver(i), s.depthWithoutDip(i+1)
		fresh := FreshSnowDensity(air)
		p.settle(air, s.Time[i+1]-s.Time[i])
		if rise := deep - p.depth(); rise > 0 {
			p.put(layer{rise * fresh / waterDensity, fresh})
		} else {
			p.take(-rise)
		}
		k.Density[i+1] = p.densityOr(fresh)
	}
	return k
}

// depthWithoutDip returns the recorded depth at a row [m], the lower of its neighbours
// where it lies below both.
func (s *Series) depthWithoutDip(i int) float64 {
	if i == 0 || i+1 == len(s.SnowDepth) {
		return s.SnowDepth[i]
	}
	return math.Max(s.SnowDepth[i], math.Min(s.SnowDepth[i-1], s.SnowDepth[i+1]))
}

// airOver returns the mean air temperature from row i to the next [°C].
func (s *Series) airOver(i int) float64 { return (s.Air[i] + s.Air[i+1]) / 2 }
