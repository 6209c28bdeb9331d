package report

import (
	"fmt"
	"strings"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather/chance"
)

// This file holds the sentences on layouts side by side.

// WrittenChange says what is changed, by the keys of the layout's file. Costs are told only where nothing else changes.
func WrittenChange(edits []pipe.Edit) string {
	var changes, taken, costs []string
	for _, e := range edits {
		switch {
		case strings.HasPrefix(e.Path, "cost"):
			costs = append(costs, e.Path+" = "+e.Value)
		case e.Value == "":
			taken = append(taken, e.Path)
		default:
			changes = append(changes, e.Path+" = "+strings.Trim(e.Value, `"`))
		}
	}
	if len(changes)+len(taken) == 0 {
		changes = costs
	}
	var words []string
	if len(changes) > 0 {
		words = append(words, "with "+strings.Join(changes, ", "))
	}
	if len(taken) > 0 {
		words = append(words, "without "+list(taken))
	}
	return strings.Join(words, ", ")
}

// OtherWater is the sentence on layouts that do not all get the same water.
const OtherWater = "The layouts do not all get the same water: what differs between them may come from that."

// compareHeadline says in one breath what became of the basement and of the line with each layout.
func compareHeadline(c *Comparison) string {
	words := c.oneHeadline()
	if c.Single == nil {
		words = c.manyHeadline()
	}
	if c.About.Layouts[0].Invented {
		return "An invented house: " + words
	}
	return words
}

// split parts the layouts by whether something is so.
func (c *Comparison) split(is func(layout int) bool) (yes, no []int) {
	for i := range c.About.Layouts {
		if is(i) {
			yes = append(yes, i)
		} else {
			no = append(no, i)
		}
	}
	return yes, no
}

// every names all layouts.
func (c *Comparison) every() string {
	if len(c.About.Layouts) == 2 {
		return "both layouts"
	}
	return fmt.Sprintf("all %d layouts", len(c.About.Layouts))
}

// oneHeadline is the headline of one winter.
func (c *Comparison) oneHeadline() string {
	wet, _ := c.split(func(i int) bool { return c.Outcomes[i].Floor != nil })
	words := "THE BASEMENT STAYED DRY WITH " + strings.ToUpper(c.every()) + "."
	if len(wet) > 0 {
		words = "THE BASEMENT GOT WET WITH " + strings.ToUpper(c.withAll(wet)) + "."
	}
	if refused, _ := c.split(func(i int) bool { return c.Outcomes[i].Refused > sim.LeastRefused }); len(refused) > 0 && len(wet) == 0 {
		words = "THE LINE DID NOT TAKE ALL THE WATER WITH " + strings.ToUpper(c.withAll(refused)) + "."
	}
	words += " " + c.oneLine()
	if spilled, _ := c.split(func(i int) bool { return c.Outcomes[i].Spill != nil }); len(spilled) > 0 {
		words += "; water came out beside the house with " + c.withAll(spilled)
	}
	return words + "."
}

// oneLine says with which layouts the line froze shut in the one winter.
func (c *Comparison) oneLine() string {
	shut, open := c.split(func(i int) bool { return c.Outcomes[i].Shut != nil })
	switch {
	case len(shut) == 0:
		return "The line stayed open with " + c.every()
	case len(open) == 0:
		return "The line froze shut with " + c.every()
	}
	return "The line froze shut with " + keysOf(shut) + "; it stayed open with " + keysOf(open)
}

// withAll names layouts, all of them by their number.
func (c *Comparison) withAll(layouts []int) string {
	if len(layouts) == len(c.About.Layouts) {
		return c.every()
	}
	return keysOf(layouts)
}

// manyHeadline is the headline of many winters.
func (c *Comparison) manyHeadline() string {
	n := len(c.About.Winters)
	var wet []int
	for i := range c.About.Layouts {
		if count := c.CountOf(i); count.Flooded > 0 || count.Refused > 0 {
			wet = append(wet, i)
		}
	}
	words := fmt.Sprintf("THE BASEMENT STAYED DRY IN %d OF %d WINTERS WITH %s.", n, n, strings.ToUpper(c.every()))
	if len(wet) > 0 {
		words = fmt.Sprintf("THE BASEMENT GOT WET %s.", strings.ToUpper(c.inWinters(c.flooded)))
		if c.total(c.flooded) == 0 {
			words = fmt.Sprintf("THE LINE DID NOT TAKE ALL THE WATER %s.", strings.ToUpper(c.inWinters(c.refused)))
		}
	}
	words += " The line froze shut " + c.inWinters(c.shut)
	if c.total(c.spilled) > 0 {
		words += "; water came out beside the house " + c.inWinters(c.spilled)
	}
	return words + "."
}

// Counts of winters by layout.
func (c *Comparison) shut(i int) int    { return c.CountOf(i).Shut }
func (c *Comparison) spilled(i int) int { return c.CountOf(i).Spilled }
func (c *Comparison) flooded(i int) int { return c.CountOf(i).Flooded }
func (c *Comparison) refused(i int) int { return c.CountOf(i).Refused }

// total adds a count up over the layouts.
func (c *Comparison) total(count func(int) int) (sum int) {
	for i := range c.About.Layouts {
		sum += count(i)
	}
	return sum
}

// inWinters says in how many winters with which layouts: "in 6 of 30 winters with A and C, in 0 of 30 with B".
func (c *Comparison) inWinters(count func(layout int) int) string {
	var counts []int // in the order of their first layouts
	layouts := map[int][]int{}
	for i := range c.About.Layouts {
		n := count(i)
		if layouts[n] == nil {
			counts = append(counts, n)
		}
		layouts[n] = append(layouts[n], i)
	}
	var words []string
	for k, n := range counts {
		of := fmt.Sprintf("in %d of %d", n, len(c.About.Winters))
		if k == 0 {
			of += " winters"
		}
		words = append(words, of+" with "+c.withAll(layouts[n]))
	}
	return strings.Join(words, ", ")
}

// oftenShort says in a table how often: a period where a law of extremes gives one, else the share that was counted.
func oftenShort(f chance.Frequency) string {
	if _, fitted := f.Period(); fitted {
		return f.String()
	}
	return f.Chance.String()
}
