package report

import (
	"html/template"
	"image/color"
	"strings"

	"winterline/sim"
)

// themeColors are the charts' colours that the page's style names.
var themeColors = []struct {
	name  string
	color color.RGBA
}{{"navy", navy}, {"brick", brick}, {"ochre", ochre}, {"teal", teal}, {"violet", violet}, {"sky", sky}, {"ink", ink}}

// pageStyle is the page's style with the charts' colours before it.
func pageStyle() (template.CSS, error) {
	text, err := pageFiles.ReadFile("page/style.css")
	if err != nil {
		return "", err
	}
	var out strings.Builder
	out.WriteString(":root {")
	for _, c := range themeColors {
		out.WriteString(" --" + c.name + ": " + hexColor(c.color) + ";")
	}
	out.WriteString(" }\n")
	out.Write(text)
	return template.CSS(out.String()), nil
}

// pictureKey is a colour of the picture of the line with what it means.
type pictureKey struct {
	Color   template.CSS
	Hatched bool
	Words   string
}

// lineKey explains the colours that the picture uses.
func lineKey(r *sim.Result) []pictureKey {
	key := func(c color.RGBA, hatched bool, words string) pictureKey {
		return pictureKey{template.CSS(hexColor(c)), hatched, words}
	}
	out := []pictureKey{key(dryTone, false, "pipe, empty"), key(waterTone, false, "water that stood")}
	if r.Verdict.FirstIce != nil {
		out = append(out, key(iceColor(0.6), true, "water with ice, darker with more"))
	}
	if r.Verdict.Closed != nil {
		out = append(out, key(brick, true, "frozen shut"))
	}
	if r.Worst.Frost > 0 {
		out = append(out, key(frostTone, false, "frozen ground"))
	}
	if r.Worst.Snow > 0 {
		out = append(out, key(snowTone, false, "snow"))
	}
	if len(r.Layout.Reliefs) > 0 {
		out = append(out, key(ochre, false, "relief opening"))
	}
	if r.Layout.Pocket != nil {
		out = append(out, key(stoneTone, false, "rock pit"))
	}
	return out
}
