package weather

import "bytes"

// sky is the cloud cover of a file that names its layers.
type sky struct {
	fields []int // of the layers
	into   int   // of the record's column
}

// bindSky adds a column of cloud cover where the header has layers.
func (a *archive) bindSky(names []string) sky {
	s := sky{}
	for _, name := range names {
		if i := a.field(name); i >= 0 {
			s.fields = append(s.fields, i)
		}
	}
	if len(s.fields) > 0 {
		s.into = a.record.addColumn(cloudCover, a.header[s.fields[0]])
	}
	return s
}

// takeSky reads the layers of the latest row.
func (a *archive) takeSky(s sky) {
	for _, i := range s.fields {
		a.takeLayers(s.into, a.fields[i])
	}
}

// takeLayers takes words such as FEW, or FEW:02 with its height after it, to the cloud
// cover of the latest row: the most of them, as each layer counts those below it. What is
// no such word tells nothing.
func (a *archive) takeLayers(into int, text []byte) {
	values := a.record.columns[into].values
	latest := &values[len(values)-1]
	for len(text) > 0 {
		var word []byte
		word, text, _ = bytes.Cut(text, []byte(" "))
		word, _, _ = bytes.Cut(word, []byte(":"))
		if share, ok := skyCover(word); ok && !(*latest >= share) {
			*latest = share
		}
	}
}

// skyCover returns the share of the sky that a layer's word stands for; ok is false for
// what is no such word. The middle of each class is taken: WMO-No. 306, Manual on Codes,
// FM 15 METAR, paragraph 15.9: FEW 1 to 2 eighths, SCT 3 to 4, BKN 5 to 7, OVC 8 (from
// memory). VV is a sky that cannot be seen for fog or snow.
func skyCover(word []byte) (share float64, ok bool) {
	switch string(bytes.TrimSpace(word)) {
	case "CLR", "SKC", "NSC", "NCD", "CAVOK":
		return 0, true
	case "FEW":
		return 1.5 / 8, true
	case "SCT":
		return 3.5 / 8, true
	case "BKN":
		return 6. / 8, true
	case "OVC", "VV", "OVX":
		return 1, true
	}
	return 0, false
}
