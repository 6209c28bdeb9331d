package report

import (
	"image/color"
	"math"
	"slices"
	"testing"
)

// linear undoes the transfer curve of sRGB (IEC 61966-2-1).
func linear(c color.RGBA) [3]float64 {
	var out [3]float64
	for i, v := range [3]uint8{c.R, c.G, c.B} {
		if s := float64(v) / 255; s <= 0.04045 {
			out[i] = s / 12.92
		} else {
			out[i] = math.Pow((s+0.055)/1.055, 2.4)
		}
	}
	return out
}

// lab gives CIE 1976 L*a*b* under D65 of a linear sRGB colour.
func lab(c [3]float64) [3]float64 {
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	x := f((0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505)
	y := f(0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2])
	z := f((0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.089)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func lightness(c color.RGBA) float64 { return lab(linear(c))[0] }

// Full colour blindness as seen by others: Machado, Oliveira & Fernandes (2009), table 1,
// severity 1.0. From memory.
var visions = map[string][3][3]float64{
	"usual":        {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
}

func seen(c color.RGBA, vision [3][3]float64) [3]float64 {
	l := linear(c)
	var out [3]float64
	for i, row := range vision {
		out[i] = math.Max(0, row[0]*l[0]+row[1]*l[1]+row[2]*l[2])
	}
	return lab(out)
}

// Lines stay apart in every kind of vision; where their greys are close, their dashes
// differ. A difference of 20 is some ten times what the eye can just tell.
func TestLineColours(t *testing.T) {
	const apart, greyApart = 20, 8
	for i, a := range lineStyles {
		for _, b := range lineStyles[:i] {
			ca, cb := a.Color.(color.RGBA), b.Color.(color.RGBA)
			for name, vision := range visions {
				p, q := seen(ca, vision), seen(cb, vision)
				if d := math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2]); d < apart {
					t.Errorf("%v and %v are %.0f apart with %s", ca, cb, d, name)
				}
			}
			if math.Abs(lightness(ca)-lightness(cb)) < greyApart && slices.Equal(a.Dashes, b.Dashes) {
				t.Errorf("%v and %v print alike", ca, cb)
			}
		}
	}
}

// Bands that touch differ in grey.
func TestBandColours(t *testing.T) {
	bands := []color.RGBA{sky, navy, ochre, brick, ink}
	for i := 1; i < len(bands); i++ {
		if d := math.Abs(lightness(bands[i]) - lightness(bands[i-1])); d < 20 {
			t.Errorf("%v on %v: greys differ by %.0f of 100", bands[i], bands[i-1], d)
		}
	}
}

// More ice is darker, all along the scale, and water without ice is not "no water".
func TestIceScale(t *testing.T) {
	for i := 1; i <= 100; i++ {
		if lightness(iceColor(float64(i)/100)) >= lightness(iceColor(float64(i-1)/100)) {
			t.Errorf("at %d %% the scale does not darken", i)
		}
	}
	if d := lightness(dryTone) - lightness(iceColor(0)); d < 8 {
		t.Errorf("no water and no ice: greys differ by %.1f of 100", d)
	}
}
