package weather

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// Digest is what there is to say about a record, whole or in several spans.
type Digest struct {
	Source, Format string
	Typical        bool
	Design         []string // how a design cold snap was made; nil: a record
	Spans          []Extent
	Rows           int
	Step           float64 // usual time between rows [s]
	Hours          float64 // of all spans together
	RowsMissing    float64 // whole rows that were bridged [h]
	Columns        []ColumnDigest
	Coldest        Reading  // lowest air temperature [°C]
	ColdestDay     *Reading // lowest mean of 24 h [°C] and their beginning; nil: no span is that long
	Winters        []WinterCold
	Below          []TimeBelow // the longest, one a limit of BelowLimits
	Spells         []DatedSpell
	Notes          []Note
	Ledger         []Repair
}

// Extent is from a first row to a last one.
type Extent struct{ Start, End time.Time }

// ColumnDigest is what a column's values are like [SI]. Of an amount, Mean is the total in a
// day, and Low is 0.
type ColumnDigest struct {
	Name            string // the quantity's word, with the depth of a soil temperature
	Depth           float64
	Amount          bool
	Low, Mean, High float64
	Missing         float64 // bridged in rows without its value [h]; of soil, which keeps its gaps, 0
}

// Reading is a value and its time.
type Reading struct {
	Time  time.Time
	Value float64
}

// TimeBelow is the longest time without a break below a limit.
type TimeBelow struct {
	Limit  float64 // [°C]
	Start  time.Time
	Length float64 // [s]; 0: the air never is below
}

// DatedSpell is a cold spell with its date.
type DatedSpell struct {
	Start time.Time
	Spell
}

// BelowLimits are the air temperatures for which the longest time below is told [°C].
var BelowLimits = []float64{0, -10, -20}

// mostSpells is how many cold spells are told.
const mostSpells = 10

// Present is the share of the record's time, 0 to 1, of which it has rows and air temperature.
func (d *Digest) Present() float64 {
	missing := d.RowsMissing
	for _, c := range d.Columns {
		if c.Name == airTemperature.word {
			missing += c.Missing
		}
	}
	return math.Max(0, 1-missing/d.Hours)
}

// DigestOf sums up a record that has come in one span or several, of which there is at
// least one.
func DigestOf(spans ...*Series) *Digest {
	first := spans[0]
	d := &Digest{Source: first.Source, Format: first.Format, Typical: first.Typical, Design: first.Design, Notes: first.Notes,
		Step: usualStep(first.Time), Coldest: Reading{Value: math.Inf(1)}}
	for _, limit := range BelowLimits {
		d.Below = append(d.Below, TimeBelow{Limit: limit})
	}
	for _, s := range spans {
		d.add(s)
	}
	slices.SortStableFunc(d.Spells, func(a, b DatedSpell) int { return cmp.Compare(a.Mean, b.Mean) })
	d.Spells = d.Spells[:min(len(d.Spells), mostSpells)]
	d.Columns = columnDigests(spans)
	return d
}

// add takes in one span.
func (d *Digest) add(s *Series) {
	d.Spans = append(d.Spans, Extent{s.Start, s.Stamp(s.End())})
	d.Rows += len(s.Time)
	d.Hours += s.End() / 3600
	d.Ledger = append(d.Ledger, s.Repairs...)
	d.RowsMissing += s.rowGaps().hours()
	if t, air := s.Coldest(); air < d.Coldest.Value {
		d.Coldest = Reading{s.Stamp(t), air}
	}
	if t, mean, ok := s.coldestDay(); ok && (d.ColdestDay == nil || mean < d.ColdestDay.Value) {
		d.ColdestDay = &Reading{s.Stamp(t), mean}
	}
	for i := range d.Below {
		b := &d.Below[i]
		if t, length := s.longestBelow(b.Limit); length > b.Length {
			b.Start, b.Length = s.Stamp(t), length
		}
	}
	for _, p := range s.coldestSpells(mostSpells) {
		d.Spells = append(d.Spells, DatedSpell{s.Stamp(p.Start), p})
	}
	d.addWinters(s.Winters())
}

// addWinters adds the winters of a later span; the first may be the last of an earlier
// one. The two ends of a typical year are one winter.
func (d *Digest) addWinters(winters []WinterCold) {
	for _, w := range winters {
		n := len(d.Winters)
		if n == 0 || d.Winters[n-1].Ends != w.Ends && !d.Typical {
			d.Winters = append(d.Winters, w)
			continue
		}
		known := &d.Winters[n-1]
		known.DegreeDays += w.DegreeDays
		known.Days += w.Days
		known.Lowest = min(known.Lowest, w.Lowest)
	}
}

// columnDigests sums up the quantities that any span has, soil last.
func columnDigests(spans []*Series) (out []ColumnDigest) {
	var done []*quantity
	for _, c := range columns {
		if slices.Contains(done, c.quantity) {
			continue
		}
		done = append(done, c.quantity)
		digest := ColumnDigest{Name: c.quantity.word, Amount: c.quantity.amount}
		digest.sumUp(spans, func(s *Series) []float64 { return *c.quantity.slot(s) })
		for _, s := range spans {
			digest.Missing += s.rowGaps().beside(s, c.quantity)
		}
		if digest.High >= digest.Low {
			out = append(out, digest)
		}
	}
	for _, depth := range soilDepths(spans) {
		digest := ColumnDigest{Name: soilTemperature.word, Depth: depth}
		digest.sumUp(spans, func(s *Series) []float64 {
			for _, track := range s.Soil {
				if track.Depth == depth {
					return track.Temp
				}
			}
			return nil
		})
		if digest.High >= digest.Low {
			out = append(out, digest)
		}
	}
	return out
}

func soilDepths(spans []*Series) (depths []float64) {
	for _, s := range spans {
		for _, track := range s.Soil {
			if !slices.Contains(depths, track.Depth) {
				depths = append(depths, track.Depth)
			}
		}
	}
	return depths
}

// sumUp finds lowest, mean and highest value; High stays below Low where there is none.
func (c *ColumnDigest) sumUp(spans []*Series, of func(*Series) []float64) {
	c.Low, c.High = math.Inf(1), math.Inf(-1)
	sum, weight := 0.0, 0.0
	for _, s := range spans {
		values := of(s)
		for i, v := range values {
			if math.IsNaN(v) {
				continue
			}
			c.Low, c.High = min(c.Low, v), max(c.High, v)
			switch {
			case !c.Amount:
				sum += v
				weight++
			case i+1 < len(values): // the last row's falls after the record's end
				sum += v
			}
		}
		if c.Amount && values != nil {
			weight += s.End() / secondsPerDay
		}
	}
	c.Mean = sum / weight
}
