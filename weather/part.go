package weather

import "slices"

// heritage is what a part of a record has from the whole of it, for the part's rows: what no part can tell
// by itself, because it rests on what came before it or on all years together.
type heritage struct {
	pack        SnowPack
	cloud       []float64 // from the sun [-]; nil as CloudFromSun gives it
	mean, swing float64   // as Annual gives them
	whole       bool
}

// Range is rows From to To-1 of a record.
type Range struct{ From, To int }

// Parts cuts parts of at least two rows out of a record, one a range. Their values are those of the record, which it
// shares with them; snow on the ground, cloud from the sun and the yearly wave of the air stay those of the whole record as well. Notes and
// repairs stay with the whole.
func (s *Series) Parts(ranges []Range) []*Series {
	all := heritage{pack: s.Snow(), cloud: s.CloudFromSun()}
	all.mean, all.swing, all.whole = s.Annual()
	parts := make([]*Series, len(ranges))
	for i, r := range ranges {
		parts[i] = s.part(r, all)
	}
	return parts
}

// part cuts out one part; all is the whole record's heritage.
func (s *Series) part(r Range, all heritage) *Series {
	cut := func(column []float64) []float64 {
		if column == nil {
			return nil
		}
		return column[r.From:r.To:r.To]
	}
	p := *s
	p.Repairs, p.Notes, p.Soil = nil, nil, nil
	p.Start = s.Stamp(s.Time[r.From])
	p.Time = slices.Clone(cut(s.Time))
	for i := range p.Time {
		p.Time[i] -= s.Time[r.From]
	}
	for _, c := range columns {
		if slot := c.quantity.slot; slot != nil {
			*slot(&p) = cut(*slot(s))
		}
	}
	for _, t := range s.Soil {
		p.Soil = append(p.Soil, SoilTrack{t.Depth, cut(t.Temp)})
	}
	all.pack.Depth, all.pack.Density, all.cloud = cut(all.pack.Depth), cut(all.pack.Density), cut(all.cloud)
	p.heritage = &all
	return &p
}
