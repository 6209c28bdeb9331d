package main

import (
	"strings"

	"winterline/pipe/units"
	"winterline/sim/answers"
)

// keeping reads --keep and --margin.
func (o *sizeOptions) keeping() (answers.Keep, error) {
	keep := answers.Keep{Goal: answers.Open}
	if o.keep.word == "dry" {
		keep.Goal = answers.Dry
	}
	var err error
	if keep.Margin, err = units.Parse(units.TemperatureDifference, o.margin); err != nil {
		return keep, usage("--margin: %w", err)
	}
	if keep.Margin < 0 || keep.Margin > answers.MarginReach {
		return keep, usage("--margin: found %q; expected from 0 to %g K (%g degF)", o.margin, answers.MarginReach, 1.8*answers.MarginReach)
	}
	return keep, nil
}

// varied reads --vary, --from and --to.
func (o *sizeOptions) varied() ([]answers.Vary, error) {
	if len(o.vary) < 1 || len(o.vary) > 2 {
		return nil, usage("--vary: found %d quantities; expected one or two of %s", len(o.vary), strings.Join(answers.QuantityWords(), ", "))
	}
	var vary []answers.Vary
	for _, word := range o.vary {
		q, err := answers.ParseQuantity(word)
		if err != nil {
			return nil, usage("--vary: %w", err)
		}
		vary = append(vary, answers.Vary{Quantity: q, Segment: -1})
	}
	if len(vary) == 2 && vary[0].Quantity == vary[1].Quantity {
		return nil, usage("--vary: found %s twice; expected two different quantities", o.vary[0])
	}
	return vary, o.bounds(vary)
}

// bounds reads --from and --to, which bound one quantity.
func (o *sizeOptions) bounds(vary []answers.Vary) error {
	for _, bound := range []struct {
		flag, text string
		to         *float64
	}{{"--from", o.from, &vary[0].Low}, {"--to", o.to, &vary[0].High}} {
		if bound.text == "" {
			continue
		}
		if len(vary) > 1 {
			return usage("%s: found two quantities; expected one, which it bounds", bound.flag)
		}
		v, err := units.Parse(sizeDimension(vary[0].Quantity), bound.text)
		if err != nil {
			return usage("%s: %w", bound.flag, err)
		}
		*bound.to = v
	}
	if vary[0].Low < 0 || o.to != "" && vary[0].High <= vary[0].Low {
		return usage("--from, --to: found %q to %q; expected a range from 0 up", o.from, o.to)
	}
	return nil
}

func sizeDimension(q answers.Quantity) units.Dimension {
	switch q {
	case answers.BySlope:
		return units.Slope
	case answers.ByPocket:
		return units.Volume
	}
	return units.Length
}

// name finds the segments that --segment names, one for each quantity that is a segment's.
func (o *sizeOptions) name(vary []answers.Vary, in *inputs) error {
	names := o.segments
	for i := range vary {
		if !vary[i].Quantity.OfSegment() || len(names) == 0 {
			continue
		}
		for j, s := range in.layout.Segments {
			if strings.EqualFold(s.Name, strings.TrimSpace(names[0])) {
				vary[i].Segment = j
			}
		}
		if vary[i].Segment < 0 {
			var known []string
			for _, s := range in.layout.Segments {
				known = append(known, s.Name)
			}
			return usage("--segment: found %q; expected one of %s", names[0], strings.Join(known, ", "))
		}
		if len(names) > 1 || len(vary) == 1 { // one name alone is that of both
			names = names[1:]
		}
	}
	if len(o.segments) > len(vary) || len(names) > 0 && len(o.segments) > 1 {
		return usage("--segment: found %d names; expected one for each quantity that is a segment's", len(o.segments))
	}
	return nil
}
