package sim

// Depths of the picture: fine above, where the frost moves fast [m].
const (
	fieldFine, fieldFineTo = 0.02, 0.40
	fieldMid, fieldMidTo   = 0.05, 1.20
	fieldFar, fieldFarTo   = 0.10, 3.00
	fieldTimes             = 1500 // about as many instants as a picture has columns to show
)

// fieldDepths are the depths of the picture [m], none above the column's top.
func fieldDepths(above float64) []float64 {
	var depths []float64
	add := func(step, to float64) {
		from := 0.0
		if len(depths) > 0 {
			from = depths[len(depths)-1] + step
		}
		for z := from; z <= to+1e-9; z += step {
			depths = append(depths, z)
		}
	}
	add(fieldFine, fieldFineTo)
	add(fieldMid, fieldMidTo)
	add(fieldFar, fieldFarTo)
	for len(depths) > 0 && depths[0] < above {
		depths = depths[1:]
	}
	return depths
}

// picture gathers a GroundField: each instant is the mean over so many rows that no picture could tell them apart.
type picture struct {
	field *GroundField
	spots []spot  // of its depths
	rows  int     // how many make one instant
	n     int     // how many are gathered so far
	time  float64 // sum of their times [s]
	temp  []float64
}

// newPicture prepares the picture of a record of so many rows by a column with its top at a depth [m].
func newPicture(field *GroundField, m *mesh, above float64, rows int) *picture {
	field.Depths = fieldDepths(above)
	k := &picture{field: field, rows: max(1, (rows+fieldTimes-1)/fieldTimes)}
	for _, z := range field.Depths {
		k.spots = append(k.spots, m.spot(z-above))
	}
	return k
}

// add takes in a row; last says that no more follow.
func (k *picture) add(p *profile, time float64, last bool) {
	if k.n == 0 {
		k.temp = make([]float64, len(k.field.Depths))
		k.time = 0
	}
	for i, s := range k.spots {
		t, _ := p.read(s)
		k.temp[i] += t
	}
	k.time += time
	k.n++
	if k.n < k.rows && !last {
		return
	}
	for i := range k.temp {
		k.temp[i] /= float64(k.n)
	}
	k.field.Time = append(k.field.Time, k.time/float64(k.n))
	k.field.Temp = append(k.field.Temp, k.temp)
	k.n = 0
}
