package answers

import (
	"fmt"
	"math"
	"strings"
	"time"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
	"winterline/weather"
)

// split makes every logged pump run n shorter ones that bring the same water: as the basin fills evenly between two
// runs, a float set to 1/n of its travel starts the pump n times in that time. The first run has no pause before it
// and is taken to have had the second one's.
func split(w sim.Supply, n int) sim.Supply {
	if n < 2 || len(w.Cycles) == 0 {
		return w
	}
	var out []pipe.Cycle
	for i, c := range w.Cycles {
		pause := time.Duration(0)
		switch {
		case i > 0:
			pause = c.Start.Sub(w.Cycles[i-1].Start)
		case len(w.Cycles) > 1:
			pause = w.Cycles[1].Start.Sub(c.Start)
		}
		for part := range n {
			before := pause * time.Duration(n-1-part) / time.Duration(n)
			out = append(out, pipe.Cycle{Start: c.Start.Add(-before).Round(time.Second), Run: c.Run / float64(n), Flow: c.Flow})
		}
	}
	w.Cycles = out
	return w
}

// waterChanges are those to the water that comes.
func (m *maker) waterChanges() {
	m.roofWater()
	m.backup()
	if len(m.base.Cycles) == 0 {
		return
	}
	for _, n := range []int{2, 4} {
		m.add(m.shortCycles(n))
	}
}

// roofWater takes water other than the pump's off the line.
func (m *maker) roofWater() {
	area := 0.0
	for _, e := range m.layout.ExtraInflows {
		area += e.Area
	}
	if area > 0 {
		m.add(Change{Kind: RoofWaterOff, Segment: -1, Amount: area, Edits: []pipe.Edit{{Path: "extra_inflow"}}, Takes: TakesOwner})
	}
}

// backup adds a backup pump as large as the main one, on a line of its own and on the same one.
func (m *maker) backup() {
	same := -1
	for i, p := range m.layout.Pumps {
		switch {
		case p.Role != pipe.BackupPump:
		case p.OwnLine:
			return // nothing to add
		default:
			same = i
		}
	}
	own := Change{Kind: BackupOwnLine, Segment: -1, Takes: TakesLicensed | TakesApproval}
	if same >= 0 {
		own.Edits = []pipe.Edit{{Path: fmt.Sprintf("pump[%d].line", same), Value: "own"}}
		m.add(own)
		return
	}
	shared := Change{Kind: BackupSameLine, Segment: -1, Takes: TakesLicensed}
	if m.layout.Basin == nil || len(m.layout.Pumps) == 0 {
		own.Barred, shared.Barred = BarNoBasin, BarNoBasin
	} else {
		own.Edits, shared.Edits = m.backupPump("own"), m.backupPump("same")
	}
	m.add(own)
	m.add(shared)
}

// backupPump adds a backup that starts 3 in above the main pump's float, where the basin is that deep (common practice, no source).
func (m *maker) backupPump(line string) []pipe.Edit {
	b := m.layout.Basin
	start := math.Min(b.FloatOn+0.0762, (b.FloatOn+b.BottomBelowFloor)/2)
	pump := fmt.Sprintf("{ name = \"backup\", role = \"backup\", line = %q, start = %q%s }", line, metres(start), m.mainCurve())
	return []pipe.Edit{{Path: fmt.Sprintf("pump[%d]", len(m.layout.Pumps)), Value: pump}}
}

// mainCurve is the main pump's curve as a table takes it.
func (m *maker) mainCurve() string {
	for _, p := range m.layout.Pumps {
		if p.Role != pipe.MainPump {
			continue
		}
		var points []string
		for _, c := range p.Curve {
			points = append(points, fmt.Sprintf("[%q, %q]", units.Write(units.Length, c.Head), units.Write(units.Flow, c.Flow)))
		}
		return ", curve = [" + strings.Join(points, ", ") + "]"
	}
	return ""
}

// shortCycles sets the float to a part of its travel. Where runs were logged these are split as well, and a plan of
// regular runs is written anew: neither follows from the float.
func (m *maker) shortCycles(n int) Change {
	c := Change{Kind: ShortCycles, Segment: -1, Amount: float64(n), Takes: TakesOwner, Risks: RiskStarts,
		Key: key(ShortCycles, fmt.Sprint(n))}
	if b := m.layout.Basin; b != nil {
		c.Edits = append(c.Edits, pipe.Edit{Path: "basin.float_on", Value: metres(b.FloatOff + (b.FloatOn-b.FloatOff)/float64(n))})
	}
	switch plan := m.layout.Water; {
	case len(m.source.Supply.Cycles) > 0:
		c.Split = n
	case m.source.Supply.Given || len(m.source.Supply.Inflow) > 0 || plan.Arrives.Flow > 0:
	default:
		if plan.Every == 0 {
			plan = m.base.Layout.Water // supposed
		}
		c.Edits = append(c.Edits, pipe.Edit{Path: "water.cycles", Value: fmt.Sprintf("every %s for %s",
			units.Write(units.Duration, plan.Every/float64(n)), units.Write(units.Duration, plan.For/float64(n)))})
	}
	c.Barred = m.pumpBar(c)
	return c
}

// pumpBar says whether a pump's motor would not bear a change, by the runs of the changed case as if nothing froze.
func (m *maker) pumpBar(c Change) Bar {
	k, err := m.source.With(c)
	if err != nil {
		return BarNone // which is found, with its reason, when the change is added
	}
	var runs []sim.CycleRecord
	for _, cycle := range k.Cycles {
		runs = append(runs, sim.CycleRecord{Time: cycle.Start.Sub(k.Weather.Start).Seconds(), Run: cycle.Run})
	}
	switch count := sim.CountShortCycling(runs); {
	case count.Short > 0:
		return BarShortRuns
	case count.Busiest > sim.MostStarts:
		return BarStarts
	}
	return BarNone
}

// snowChanges leave snow lying where it is cleared away.
func (m *maker) snowChanges() {
	bar := BarNone
	if m.base.Weather.Snow().Kind == weather.SnowNone {
		bar = BarNoSnow
	}
	for _, i := range m.targets() {
		if _, share := m.layout.Over(i); m.layout.Segments[i].Setting != pipe.Buried || share >= 1 {
			continue
		}
		c := Change{Kind: KeepSnow, Segment: -1, Amount: 1, Takes: TakesOwner, Risks: RiskWalk, Barred: bar}
		path := "site.snow_on_line"
		if m.layout.Segments[i].SnowOnLine != nil {
			path = m.layout.SegmentPath(i) + ".snow_on_line"
			c.Segment, c.Key = i, key(KeepSnow, m.layout.Segments[i].Name)
		}
		c.Edits = []pipe.Edit{{Path: path, Value: "natural"}}
		m.add(c)
	}
}
