package weather

import (
	"math"
	"slices"

	"winterline/pipe/units"
)

// clean puts a record in order and enters in its ledger what that took. strict leaves
// every row where and as it is: what is wrong has then been refused by the reader.
func (r *record) clean(strict bool) units.Problems {
	r.doubt()
	if strict {
		r.tellSpring(r.clockChanges())
		r.tellSpikes()
		return nil
	}
	r.setSummerTimeBack()
	r.dateEarly()
	r.sort()
	r.dropDoubles()
	problems := r.takeToHours()
	r.keepEarly()
	r.takeOutSpikes()
	return problems
}

// series makes the series of a record that is in order. The record's slices become the
// series' own.
func (r *record) series(strict bool) (*Series, units.Problems) {
	if !strict {
		r.trim()
	}
	if problems := r.checkAxis(); problems != nil || len(r.stamp) < 2 {
		return nil, problems
	}
	if !strict {
		r.leaveOut()
	}
	if problems := r.bridge(strict); problems != nil {
		return nil, problems
	}
	if !strict {
		r.roundAmounts()
	}
	s := &Series{Source: r.source, Start: wall(r.stamp[0]), Time: make([]float64, len(r.stamp)),
		Format: r.format, Typical: r.typical, Design: r.design, Repairs: r.ledger, Notes: r.notes}
	for i := range s.Time {
		s.Time[i] = r.at(i)
	}
	for _, c := range r.columns {
		if c.quantity == soilTemperature {
			s.Soil = append(s.Soil, SoilTrack{Depth: c.depth, Temp: c.values})
		} else {
			*c.quantity.slot(s) = c.values
		}
	}
	return s, nil
}

// trim leaves out rows before the first air temperature and after the last, where there
// are more than 6 h of them.
func (r *record) trim() {
	c := r.column(airTemperature)
	if c == nil || !c.any(isValue) {
		return
	}
	air := c.values
	from, to := slices.IndexFunc(air, isValue), len(air)
	for to > from && !isValue(air[to-1]) {
		to--
	}
	step := usualStep(r.stamp)
	if from > 0 && r.gapLength(0, from, step) <= maxBridge {
		from = 0
	}
	if to < len(air) && r.gapLength(to, len(air), step) <= maxBridge {
		to = len(air)
	}
	if from > 0 {
		r.repaired(0, Repair{Kind: Trimmed, Column: "time", Count: from, Evidence: "no air temperature before " + showTime(wall(r.stamp[from]))})
	}
	if to < len(air) {
		r.repaired(to, Repair{Kind: Trimmed, Column: "time", Count: len(air) - to, Evidence: "no air temperature after " + showTime(wall(r.stamp[to-1]))})
	}
	r.cut(from, to)
}

// enough is the share of a lesser column that must be there for the rest to be bridged.
const enough = 0.9

// leaveOut drops columns other than air temperature of which too little is there: it is
// better to know nothing of the wind than to draw lines through it for weeks.
func (r *record) leaveOut() {
	step := usualStep(r.stamp)
	r.columns = slices.DeleteFunc(r.columns, func(c recordColumn) bool {
		if c.quantity == airTemperature {
			return false
		}
		share := r.covered(&c, step)
		if share >= enough || c.quantity == soilTemperature && share > 0 {
			return false
		}
		r.repaired(0, Repair{Kind: LeftOut, Column: c.name, Count: len(r.stamp),
			Evidence: showPercent(share) + " of the record; " + showPercent(enough) + " are needed"})
		return true
	})
}

// covered returns the share of the rows in which a column has a value, or would have one
// once gaps of up to 6 h (of snow depth, which is often measured once a day, 24 h) are bridged.
func (r *record) covered(c *recordColumn, step float64) float64 {
	bridgeable := float64(maxBridge)
	if c.quantity == snowOnGround {
		bridgeable = secondsPerDay
	}
	there := len(c.values)
	for from, to := range missingRuns(c.values) {
		if to-from == len(c.values) || r.gapLength(from, to, step) > bridgeable {
			there -= to - from
		}
	}
	return float64(there) / float64(len(c.values))
}

// roundAmounts rounds amounts to a millionth of a millimetre, so that sums and inches can
// be written in millimetres and read back unchanged.
func (r *record) roundAmounts() {
	for _, c := range r.columns {
		if !c.quantity.amount {
			continue
		}
		for i, v := range c.values {
			c.values[i] = math.Round(v*1e9) / 1e6 / 1000
		}
	}
}
