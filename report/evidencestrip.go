package report

import (
	"fmt"
	"html"
	"html/template"
	"math"
	"strings"

	"winterline/sim/verify"
)

// The strip chart of a subject: a dot a check, at the share of its tolerance that its error uses, in a lane a trust class.

const (
	stripWidth = 580.0 // of the drawing, in its own units
	stripLeft  = 116.0 // where 0 % lies
	stripRight = 520.0 // where 100 % lies; beyond is what missed
	stripLane  = 26.0  // height of a lane
	stripTop   = 8.0
)

// stripChart draws the checks of a subject as an inline SVG. The dots of a lane are spread over its height, so that dots
// at the same share can be told apart.
func stripChart(id, name string, all []verify.Outcome) template.HTML {
	var lanes strings.Builder
	y, words := stripTop, []string{}
	missed := 0
	for _, class := range trustMeanings {
		var dots, crosses strings.Builder
		n, worst := 0, 0.0
		for _, o := range all {
			if o.Trust != class.Name {
				continue
			}
			at := y + 5 + (stripLane-10)*lanePlace(n)
			n++
			if !o.Pass {
				missed++
				fmt.Fprintf(&crosses, "M%.0f %.1fl8 8m0-8l-8 8", stripRight+18, at-4)
				continue
			}
			worst = math.Max(worst, o.Ratio())
			fmt.Fprintf(&dots, "M%.1f %.1fh0", stripLeft+(stripRight-stripLeft)*o.Ratio(), at)
		}
		if n == 0 {
			continue
		}
		fmt.Fprintf(&lanes, `<text x="%.0f" y="%.0f" text-anchor="end">%s</text>`, stripLeft-10, y+stripLane/2+4, class.Name)
		fmt.Fprintf(&lanes, `<path d="M%.0f %.0fH%.0f" stroke="%s"/>`, stripLeft, y+stripLane, stripRight, hexColor(grid))
		fmt.Fprintf(&lanes, `<path d="%s" stroke="%s" stroke-width="5" stroke-linecap="round" stroke-opacity=".45" fill="none"/>`, dots.String(), hexColor(navy))
		if crosses.Len() > 0 {
			fmt.Fprintf(&lanes, `<path d="%s" stroke="%s" stroke-width="2.5" fill="none"/>`, crosses.String(), hexColor(brick))
		}
		words = append(words, fmt.Sprintf("%s %s, at most %s", number(float64(n), 0), class.Name, shareUsed(worst)))
		y += stripLane
	}
	told := fmt.Sprintf("Share of the tolerance that each check uses. %s.", strings.Join(words, "; "))
	if missed > 0 {
		told = strings.TrimSuffix(told, ".") + fmt.Sprintf("; %d missed, drawn as crosses beyond 100 %%.", missed)
	}
	return stripFrame(id, name, told, y, lanes.String())
}

// stripFrame sets axis and words about the lanes, which end at a height.
func stripFrame(id, name, told string, end float64, lanes string) template.HTML {
	var out strings.Builder
	fmt.Fprintf(&out, `<svg class="strip" viewBox="0 0 %.0f %.0f" role="img" aria-labelledby="%s-strip"><title id="%s-strip">%s: %s</title>`,
		stripWidth, end+38, id, id, html.EscapeString(name), html.EscapeString(told))
	out.WriteString(lanes)
	for k := range 5 {
		x := stripLeft + (stripRight-stripLeft)*float64(k)/4
		color := hexColor(bystander)
		if k == 4 {
			color = hexColor(brick)
		}
		fmt.Fprintf(&out, `<path d="M%.0f %.0fV%.0f" stroke="%s"/><text x="%.0f" y="%.0f" text-anchor="middle">%d %%</text>`, x, stripTop, end+4, color, x, end+18, 25*k)
	}
	fmt.Fprintf(&out, `<text x="%.0f" y="%.0f" text-anchor="middle">share of the tolerance used; one dot a check</text></svg>`, (stripLeft+stripRight)/2, end+34)
	return template.HTML(out.String())
}

// lanePlace puts the n-th of many between 0 and 1 so that neighbours lie apart: the golden section, over and over.
func lanePlace(n int) float64 {
	_, place := math.Modf(0.5 + float64(n)*0.6180339887)
	return place
}
