package report

import (
	"fmt"

	"winterline/sim/answers"
	"winterline/weather/chance"
)

// drawnNames say what is drawn, by its key in files.
var drawnNames = map[string]string{
	"soil_moisture": "soil moisture", "wind_exposure": "wind at the pipe", "water_temperature": "water temperature",
	"nucleation": "how far still water cools below freezing before ice forms", "slush_limit": "how much slush shuts a pipe",
	"saturated_conductivity": "how fast the soil takes up water", "spread_area": "the ground over which water spreads",
}

// likelyWords say how likely a layout is to fail with what nobody knows well drawn.
func likelyWords(a *answers.WintersAnswer, layout int) []string {
	l := a.Summarize(layout).Drawn
	if l == nil {
		return nil
	}
	var names []string
	seen := map[string]bool{}
	for _, d := range a.About.Layouts[layout].Drawn {
		if !seen[d.Quantity] {
			seen[d.Quantity] = true
			names = append(names, drawnNames[d.Quantity])
		}
	}
	return []string{
		"the line freezes shut in " + l.Shut.Winters(),
		"water beside the house or on the floor in " + l.Wet.Winters(),
		fmt.Sprintf("every winter was simulated %s more, with other values for %s", plural(float64(a.About.Draws), "time"), list(names)),
	}
}

// drawnShort prints in how many draws a winter shut the line; "" where nothing was drawn.
func drawnShort(a *answers.WintersAnswer, layout int) func(winter int) string {
	counts := a.DrawnOf(layout)
	return func(winter int) string {
		if counts == nil {
			return ""
		}
		return fmt.Sprintf("%d of %d", counts[winter].Shut, a.About.Draws)
	}
}

// SummaryDraws is how likely a layout is to fail with what nobody knows well drawn. Chances are those of a winter, and hold the true one in 90 of 100
// cases as far as the winters tell.
type SummaryDraws struct {
	Draws      int             `json:"draws"`
	Seed       uint64          `json:"seed"`
	Quantities []answers.Drawn `json:"quantities"`
	Shut       SummaryLikely   `json:"freezes_shut"`
	Wet        SummaryLikely   `json:"gets_wet"`
	Floor      SummaryLikely   `json:"floor_wet"`
}

// SummaryLikely is a chance in words and in numbers.
type SummaryLikely struct {
	Words  string       `json:"words"`
	Chance SummaryRange `json:"chance"`
}

// SummaryDrawnWinter is in how many of the draws a winter failed.
type SummaryDrawnWinter struct {
	Shut  int `json:"shut"`
	Wet   int `json:"wet"`
	Floor int `json:"floor"`
}

// summaryDraws gives the summary of a layout's draws; nil where nothing was drawn.
func summaryDraws(a *answers.WintersAnswer, layout int) *SummaryDraws {
	l := a.Summarize(layout).Drawn
	if l == nil {
		return nil
	}
	likely := func(s chance.Share) SummaryLikely {
		return SummaryLikely{s.Winters(), summaryRange(s.Best, s.Low, s.High)}
	}
	return &SummaryDraws{a.About.Draws, a.About.Seed, append([]answers.Drawn{}, a.About.Layouts[layout].Drawn...), likely(l.Shut), likely(l.Wet), likely(l.Floor)}
}
