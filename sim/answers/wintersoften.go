package answers

import "winterline/weather/chance"

// WintersSummary is how often a layout fails, from what became of it in the winters of a record.
type WintersSummary struct {
	Count WintersCount
	Shut  chance.Frequency // the line froze shut
	Wet   chance.Frequency // water came out beside the house, reached the floor, or was refused where no basin says where it stays
	Floor chance.Share     // of winters with a wet floor, counted
	Loss  *chance.Loss     // expected, a year; nil: the layout says no costs
	Drawn *Likelihood      // with what nobody knows well drawn; nil: nothing was
}

// Summarize sums the winters of a layout up. Chances are those of a law fitted to the winters' margins, where there are
// margins and the law can be believed; else they are counted. The answer's seed draws their intervals.
func (a *WintersAnswer) Summarize(layout int) WintersSummary {
	s := WintersSummary{Count: a.CountOf(layout)}
	n := s.Count.Winters
	s.Shut = counted(s.Count.Shut, n)
	s.Wet = counted(s.Count.Wet, n)
	s.Floor = chance.Counted(float64(s.Count.Flooded), n)
	if a.About.Margins {
		var open, dry []float64
		for _, o := range a.Of(layout) {
			open, dry = append(open, o.Margin.Open.K), append(dry, o.Margin.Dry.K)
		}
		s.Shut, s.Wet = chance.Failing(open, MarginReach, a.About.Seed), chance.Failing(dry, MarginReach, a.About.Seed)
	}
	s.Drawn = a.likelihood(layout)
	if c := a.About.Layouts[layout].Cost; c != nil {
		loss := chance.Costs(*c).YearlyLoss(s.Shut.Chance, s.Floor)
		s.Loss = &loss
	}
	return s
}

// counted is how often winters fail, where only their count is known.
func counted(failed, winters int) chance.Frequency {
	return chance.Frequency{Winters: winters, Failed: failed, Chance: chance.Counted(float64(failed), winters), Basis: chance.FewWinters}
}
