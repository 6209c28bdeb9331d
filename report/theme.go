package report

import (
	"image/color"
	"math"

	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// The colours must survive a colour-blind reader and a grey printer. Lines take six
// hues that stay apart under protanopia and deuteranopia; where two of them print as
// nearly the same grey their dashes differ, and every line is named at its end, so
// that no chart rests on colour alone. Areas that touch alternate light and dark. The
// ice scale runs from pale to dark in one hue, so that grey keeps its order.
var (
	navy   = color.RGBA{0x1B, 0x2F, 0x5B, 0xFF}
	brick  = color.RGBA{0xB4, 0x39, 0x1F, 0xFF}
	ochre  = color.RGBA{0xD9, 0x9A, 0x1C, 0xFF}
	teal   = color.RGBA{0x0E, 0x7C, 0x86, 0xFF}
	violet = color.RGBA{0x7B, 0x4B, 0xA0, 0xFF}
	sky    = color.RGBA{0x5F, 0xA9, 0xE0, 0xFF}

	ink        = color.RGBA{0x1E, 0x22, 0x28, 0xFF} // text and frames
	faint      = color.RGBA{0x5A, 0x60, 0x68, 0xFF} // second text
	grid       = color.RGBA{0xE3, 0xE6, 0xEA, 0xFF}
	bystander  = color.RGBA{0xB9, 0xBE, 0xC6, 0xFF} // lines that are not named
	dryTone    = color.RGBA{0xFB, 0xFB, 0xF9, 0xFF} // where no water stands
	soilTone   = color.RGBA{0xEF, 0xE6, 0xD8, 0xFF}
	nightTone  = color.RGBA{0xDF, 0xDD, 0xEA, 0xFF}
	frozenTone = color.RGBA{0x9C, 0xB4, 0xD2, 0xFF} // frost where it stands against white
	frostTone  = color.RGBA{0xD5, 0xDA, 0xE6, 0xFF}
	snowTone   = color.RGBA{0xE9, 0xF1, 0xF8, 0xFF}
	stoneTone  = color.RGBA{0xCF, 0xC9, 0xBF, 0xFF}
	houseTone  = color.RGBA{0xF4, 0xF1, 0xEC, 0xFF}
	wallTone   = color.RGBA{0xA8, 0xA2, 0x98, 0xFF}
	waterTone  = color.RGBA{0x8F, 0xC7, 0xEE, 0xFF}
)

// Sizes of text in points on a picture ten inches wide: half as wide, as in a printed
// page's column, the smallest is still 5 to 6 points.
const (
	titleSize = vg.Length(17)
	textSize  = vg.Length(11.5)
	smallSize = vg.Length(10)
)

// lineStyles are the styles of named lines, in order of use.
var lineStyles = []draw.LineStyle{
	{Color: navy, Width: 1.8},
	{Color: brick, Width: 1.8, Dashes: []vg.Length{7, 3}},
	{Color: ochre, Width: 2.2},
	{Color: teal, Width: 1.8, Dashes: []vg.Length{8, 2.5, 2, 2.5}},
	{Color: violet, Width: 2, Dashes: []vg.Length{2.5, 2}},
	{Color: sky, Width: 2.2, Dashes: []vg.Length{11, 3}},
}

// stroke is a plain line.
func stroke(c color.Color, width vg.Length, dashes ...vg.Length) draw.LineStyle {
	return draw.LineStyle{Color: c, Width: width, Dashes: dashes}
}

// iceColor is the ice scale: pale at 0, dark at 1.
func iceColor(share float64) color.RGBA {
	return ramp(share, color.RGBA{0xCF, 0xE4, 0xF5, 0xFF}, color.RGBA{0x6B, 0xA2, 0xD2, 0xFF}, color.RGBA{0x10, 0x24, 0x57, 0xFF})
}

// ramp runs through three colours at 0, 1/2 and 1.
func ramp(share float64, low, middle, high color.RGBA) color.RGBA {
	share = math.Min(math.Max(share, 0), 1) * 2
	if share > 1 {
		low, middle, share = middle, high, share-1
	}
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a) + share*(float64(b)-float64(a)))) }
	return color.RGBA{mix(low.R, middle.R), mix(low.G, middle.G), mix(low.B, middle.B), 0xFF}
}

// fonts holds the embedded typeface; charts never look at what a machine has installed.
var fonts = text.Plain{Fonts: font.NewCache(liberation.Collection())}

// lettering is a text style.
func lettering(size vg.Length, c color.Color, x draw.XAlignment, y draw.YAlignment) text.Style {
	return text.Style{
		Color: c, XAlign: x, YAlign: y, Handler: fonts,
		Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: size},
	}
}

// bold makes a text style heavy.
func bold(s text.Style) text.Style {
	s.Font.Weight = xfont.WeightBold
	return s
}
