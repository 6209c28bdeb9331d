package report

import (
	"math"
	"sort"
	"strings"

	"winterline/pipe"
	"winterline/sim"
)

// teller words what one finding did in a winter.
type teller struct {
	*sim.Result
	units System
	where string // as in pipe.Finding
}

// litres is the volume in both units, the reader's first.
func (t *teller) litres(m3 float64) string { return t.units.bothVolumes(m3) }

// runs counts the pump runs that have something about them.
func (t *teller) runs(has func(sim.CycleRecord) bool) int {
	n := 0
	for _, c := range t.Cycles {
		if has(c) {
			n++
		}
	}
	return n
}

// inRuns is "in 1 pump run" or "in 12 pump runs".
func inRuns(n int) string { return "in " + plural(float64(n), "pump run") }

// times is "once", "twice" or "12 times".
func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return number(float64(n), 0) + " times"
}

// happened counts events of a kind.
func (t *teller) happened(kind sim.EventKind) int {
	n := 0
	for _, e := range t.Events {
		if e.Kind == kind {
			n++
		}
	}
	return n
}

// powerless says whether a cycle fell into a power cut.
func (t *teller) powerless(c sim.CycleRecord) bool {
	at := stamp(t.Start, c.Time)
	for _, o := range t.Layout.Outages {
		if !at.Before(o.Start) && at.Before(o.End) {
			return true
		}
	}
	return false
}

// waited is what had to wait in the basin because the line did not take it, power cuts apart [m³].
func (t *teller) waited() (stuck, dark float64) {
	for _, c := range t.Cycles {
		if t.powerless(c) {
			dark += c.Refused
		} else {
			stuck += c.Refused
		}
	}
	return stuck, dark
}

// stayed says where water that could not leave stayed.
func (t *teller) stayed(m3 float64) string {
	if t.Ledger.Floor < puddle {
		return t.litres(m3) + " stayed in the basin"
	}
	return t.litres(m3) + " could not leave, and " + t.litres(t.Ledger.Floor) + " reached the floor"
}

func (t *teller) noRelief() string {
	if t.Verdict.Closed == nil {
		return ""
	}
	words := "the line was shut for " + spokenDuration(t.Verdict.ShutFor)
	if stuck, _ := t.waited(); stuck >= puddle {
		words += "; " + t.stayed(stuck)
	}
	if t.Ledger.Rim >= puddle {
		words += "; " + t.litres(t.Ledger.Rim) + " came out of the top of the standpipe"
	}
	return words
}

func (t *teller) glued() string {
	if t.Verdict.Closed == nil {
		return ""
	}
	words := "ice shut the line for " + spokenDuration(t.Verdict.ShutFor)
	stopped := t.runs(func(c sim.CycleRecord) bool { return c.Refused >= puddle && !t.powerless(c) })
	if stuck, _ := t.waited(); stopped > 0 {
		words += "; " + inRuns(stopped) + " " + t.stayed(stuck)
	}
	return words
}

func (t *teller) bothStuck() string {
	stuck, _ := t.waited()
	if t.Verdict.Closed == nil || stuck < puddle {
		return ""
	}
	return "with the line shut for both pumps " + t.stayed(stuck)
}

func (t *teller) noBackup() string {
	stuck, dark := t.waited()
	if stuck+dark < puddle {
		return ""
	}
	var why []string
	if dark >= puddle {
		why = append(why, t.litres(dark)+" came while the power was out")
	}
	if stuck >= puddle {
		why = append(why, t.litres(stuck)+" came while the pump moved nothing")
	}
	words := strings.Join(why, " and ")
	if t.Ledger.Floor < puddle {
		return words + "; the basin held it"
	}
	return words + "; " + t.litres(t.Ledger.Floor) + " reached the floor"
}

func (t *teller) towardsHouse() string {
	if t.Ledger.Relief < puddle {
		return ""
	}
	words := "let " + t.litres(t.Ledger.Relief) + " go towards the wall"
	if len(t.Layout.Reliefs) > 1 {
		words = "all openings let " + t.litres(t.Ledger.Relief) + " go, some of it towards the wall"
	}
	if t.Ledger.Returned >= puddle {
		words += "; " + t.litres(t.Ledger.Returned) + " of what ran out beside the house came back to the basin"
	}
	return words
}

func (t *teller) overRim() string {
	if t.Ledger.Rim < puddle {
		return ""
	}
	return t.litres(t.Ledger.Rim) + " came out of the top of the standpipe " + inRuns(t.Verdict.SpillRuns)
}

func (t *teller) gapUsed() string {
	if t.Layout.Standpipe == nil {
		return ""
	}
	end := t.Layout.Standpipe.HousePipeEnd
	n := t.runs(func(c sim.CycleRecord) bool { return c.Level >= end }) // NaN is no level
	if n == 0 {
		return ""
	}
	return "water in the standpipe reached the end of the house pipe " + inRuns(n)
}

func (t *teller) ranBack() string {
	n := t.runs(func(c sim.CycleRecord) bool { return c.Run > 0 })
	if n == 0 {
		return ""
	}
	return "the house pipe ran empty after each of " + plural(float64(n), "pump run") + "; pumping that water again is not simulated"
}

func (t *teller) roofWater() string {
	for _, w := range t.Warnings {
		if w.Kind == "no-rain-record" {
			return notSimulated + ": the weather has no rain"
		}
	}
	var parts []string
	if t.Ledger.Extra >= puddle {
		parts = append(parts, t.litres(t.Ledger.Extra)+" of roof water joined the line")
	}
	if n := t.happened(sim.EventRoofOver); n > 0 {
		parts = append(parts, "roof water found the line shut and ran over beside the downspout "+times(n))
	}
	return strings.Join(parts, "; ")
}

// segmentIce is how long ice stood in the segment that the finding is about.
func (t *teller) segmentIce() string { return t.iceIn(t.where, "it") }

// elbowIce is the same of the pipe under the lid.
func (t *teller) elbowIce() string { return t.iceIn(t.underLid()) }

// underLid names the pipe under the lid, as a segment and in a sentence.
func (t *teller) underLid() (segment, spoken string) {
	for _, s := range t.Segments {
		if s.Name == riserPart {
			return riserPart, "the riser under the lid"
		}
	}
	last := t.Layout.Segments[len(t.Layout.Segments)-1].Name
	return last, "the " + last
}

func (t *teller) iceIn(segment, spoken string) string {
	for _, s := range t.Segments {
		if s.Name != segment || s.HoursWithIce <= 0 {
			continue
		}
		words := "ice stood in " + spoken + " for " + spokenDuration(s.HoursWithIce*3600) + " in all"
		if s.HoursClosed > 0 {
			return words + " and shut it for " + spokenDuration(s.HoursClosed*3600)
		}
		return words + " but never shut it"
	}
	return ""
}

func (t *teller) ranOut() string {
	if t.Ledger.Outlet < puddle {
		return ""
	}
	return t.litres(t.Ledger.Outlet) + " ran out there"
}

// ranOutInFrost is what pump runs let go at the place of the finding while the air was below 0 °C,
// and what of it lay there as ice.
func (t *teller) ranOutInFrost() string {
	volume, n := t.letGo(math.Nextafter(0, -1))
	if volume < puddle {
		return ""
	}
	return t.litres(volume) + " ran out there in frost, " + inRuns(n) + t.moundIce()
}

// reliefInHardFrost is what the relief let go at the cold in which a small opening can frost shut.
func (t *teller) reliefInHardFrost() string {
	volume, n := t.letGo(hardFrost)
	if volume < puddle {
		return ""
	}
	return "it ran in that cold " + times(n) + " and let " + t.litres(volume) + " go"
}

// letGo sums what left at the finding's place in pump runs with the air at warmest [°C] or colder.
func (t *teller) letGo(warmest float64) (volume float64, n int) {
	for _, c := range t.Cycles {
		v := c.Outlet
		if t.where == pipe.AtRelief {
			v = c.Relief
		}
		if v > 0 && len(t.Hourly.Air) > 0 && t.Hourly.Air[hourOf(t.Result, c.Time)] <= warmest {
			volume, n = volume+v, n+1
		}
	}
	return volume, n
}

// heldByPocket is the fill from which the rock pit is said to hold the line's water up [-].
const heldByPocket = 0.95

func (t *teller) fullPocket() string {
	full := 0.0
	for i := 1; i < len(t.Hourly.Pocket); i++ {
		if t.Hourly.Pocket[i] >= heldByPocket {
			full += t.Hourly.Time[i] - t.Hourly.Time[i-1]
		}
	}
	if full == 0 {
		return ""
	}
	words := "it was full for " + spokenDuration(full) + "; the soil took " + t.litres(t.Ledger.PocketToSoil) + " of its water"
	if n := t.happened(sim.EventPocketFrozen); n > 0 {
		words += "; it froze " + times(n)
	}
	return words
}

func (t *teller) underSnow() string {
	if t.Ledger.Relief < puddle && t.Ledger.Rim < puddle {
		return ""
	}
	words := "snow covered part of the " + reliefWords(t.Result) + ", never all"
	if n := t.happened(sim.EventReliefBuried); n > 0 {
		words = "snow shut every opening " + times(n)
	}
	if t.Ledger.Rim >= puddle {
		return words + "; " + t.litres(t.Ledger.Rim) + " came out of the top of the standpipe"
	}
	return words + "; no water came out of the top"
}

func (t *teller) busyHours() string {
	hours := sim.CountShortCycling(t.Cycles).BusyHours
	if hours == 0 {
		return ""
	}
	return "over " + number(sim.MostStarts, 0) + " starts in " + plural(float64(hours), "hour") + " of this winter"
}

func (t *teller) shortRuns() string {
	s := sim.CountShortCycling(t.Cycles)
	if s.Short == 0 {
		return ""
	}
	return number(float64(s.Short), 0) + " of " + plural(float64(s.Runs), "run") + " were that short"
}

// hourOf is the last weather row at or before a time.
func hourOf(r *sim.Result, t float64) int {
	i := sort.SearchFloat64s(r.Hourly.Time, t)
	if i == len(r.Hourly.Time) || r.Hourly.Time[i] > t {
		i--
	}
	return max(i, 0)
}
