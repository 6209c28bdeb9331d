package report

import (
	"cmp"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"io"
	"slices"
)

// writePNG writes an opaque picture with a palette: a chart has few colours and many blends of two of them along edges,
// so the 256 most frequent serve, and the file is half as large and sooner written than with three bytes a pixel.
func writePNG(w io.Writer, picture image.Image) error {
	full, ok := picture.(*image.RGBA)
	if !ok {
		return png.Encode(w, picture)
	}
	return png.Encode(w, paletted(full))
}

// tally counts the pixels of a colour.
type tally struct {
	colour uint32 // as its four bytes stand in the picture
	count  int
}

// paletted gives each pixel the nearest of the colours that are chosen.
func paletted(full *image.RGBA) *image.Paletted {
	tallies := colours(full)
	chosen := choose(tallies)
	palette := make(color.Palette, len(chosen))
	for i, c := range chosen {
		palette[i] = color.RGBA{uint8(c), uint8(c >> 8), uint8(c >> 16), uint8(c >> 24)}
	}
	index := make(map[uint32]uint8, len(tallies))
	for _, t := range tallies {
		at, _ := nearest(chosen, t.colour)
		index[t.colour] = uint8(at)
	}
	out := image.NewPaletted(full.Rect, palette)
	var last uint32
	at, known := uint8(0), false
	for y := range full.Rect.Dy() {
		row := full.Pix[y*full.Stride:]
		for x := range full.Rect.Dx() {
			if c := binary.LittleEndian.Uint32(row[4*x:]); c != last || !known {
				last, at, known = c, index[c], true
			}
			out.Pix[y*out.Stride+x] = at
		}
	}
	return out
}

// choose gives the most frequent colours, of several that the eye cannot tell apart only the first, so that the palette
// has room for rare ones, such as those of a colour scale.
func choose(tallies []tally) (chosen []uint32) {
	const most, alike = 256, 30 // sum of squared differences
	if len(tallies) <= most {
		for _, t := range tallies {
			chosen = append(chosen, t.colour)
		}
		return chosen
	}
	for _, t := range tallies {
		if _, d := nearest(chosen, t.colour); d > alike && len(chosen) < most {
			chosen = append(chosen, t.colour)
		}
	}
	return chosen
}

// colours counts the colours of a picture, the most frequent first, of equally frequent ones in a fixed order.
func colours(full *image.RGBA) []tally {
	counts := make(map[uint32]int)
	for y := range full.Rect.Dy() {
		row := full.Pix[y*full.Stride:]
		for x := 0; x < full.Rect.Dx(); {
			from, c := x, binary.LittleEndian.Uint32(row[4*x:])
			for x < full.Rect.Dx() && binary.LittleEndian.Uint32(row[4*x:]) == c {
				x++
			}
			counts[c] += x - from
		}
	}
	out := make([]tally, 0, len(counts))
	for c, n := range counts {
		out = append(out, tally{c, n})
	}
	slices.SortFunc(out, func(a, b tally) int {
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.colour, b.colour))
	})
	return out
}

// nearest is the index of the colour with the least sum of squared differences, and that sum.
func nearest(among []uint32, c uint32) (best, least int) {
	least = 1 << 30
	for i, other := range among {
		d := 0
		for shift := 0; shift < 24; shift += 8 {
			by := int(uint8(other>>shift)) - int(uint8(c>>shift))
			d += by * by
		}
		if d < least {
			best, least = i, d
		}
		if d == 0 {
			break
		}
	}
	return best, least
}
