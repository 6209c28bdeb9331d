package answers

import (
	"strings"

	"winterline/weather/chance"
)

// Priced says whether it is known what a layout costs to install. A layout made from the first by changes that do not
// touch cost.installed has the price of another.
func (c *Comparison) Priced(layout int) bool {
	if c.About.Layouts[layout].Cost == nil {
		return false
	}
	if c.Changes[layout] == nil {
		return true
	}
	for _, e := range c.Changes[layout] {
		if strings.EqualFold(strings.TrimSpace(e.Path), "cost.installed") {
			return true
		}
	}
	return false
}

// WinterCost is what one winter's failures cost with a layout: a service call where the line shut, and a flooded basement
// where the floor got wet; false where the layout says no costs, or there are many winters.
func (c *Comparison) WinterCost(layout int) (float64, bool) {
	cost := c.About.Layouts[layout].Cost
	if cost == nil || c.Single == nil {
		return 0, false
	}
	sum, v := 0.0, c.Single[layout].Verdict
	if v.Closed != nil {
		sum += cost.ServiceCall
	}
	if v.Floor != nil {
		sum += cost.FloodedBasement
	}
	return sum, true
}

// PayBack is how long a layout takes to pay for itself against the first; false for the first itself, for one winter
// alone, and where a price or a loss is not known.
func (c *Comparison) PayBack(layout int) (chance.Payback, bool) {
	if layout == 0 || c.Single != nil || !c.Priced(0) || !c.Priced(layout) {
		return chance.Payback{}, false
	}
	ours, theirs := c.Summarize(layout).Loss, c.Summarize(0).Loss
	extra := c.About.Layouts[layout].Cost.Installed - c.About.Layouts[0].Cost.Installed
	return chance.PayBack(extra, *ours, *theirs), true
}

// LeastMargin is the margin of the winter that came nearest to failing, or failed most, for each goal; false where
// margins were not asked for.
func (c *Comparison) LeastMargin(layout int) (least Margin, ok bool) {
	for _, o := range c.Of(layout) {
		if o.Margin == nil {
			return Margin{}, false
		}
		if !ok || o.Margin.Open.K < least.Open.K {
			least.Open = o.Margin.Open
		}
		if !ok || o.Margin.Dry.K < least.Dry.K {
			least.Dry = o.Margin.Dry
		}
		ok = true
	}
	return least, ok
}
