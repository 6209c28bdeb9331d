package report

import (
	"fmt"
	"math"
	"strings"

	"winterline/sim"
)

// causeWords says in plain sentences what brought closure i of a result about: what stood there and why, since when,
// what heat it held and how fast it went, through which weak layer, into what air and ground, and what the relief
// opening and the rock pit did. Empty where there is no such closure.
func causeWords(r *sim.Result, i int, s System) []string {
	if i < 0 || i >= len(r.Closures) {
		return nil
	}
	c := causeTeller{r: r, c: &r.Closures[i], s: s}
	c.place()
	c.stood()
	if !c.c.Mound {
		c.warm()
		c.heat()
		c.layers()
	}
	c.met()
	c.relief()
	c.during()
	c.pocket()
	return c.lines
}

// causeTeller gathers the sentences on one closure.
type causeTeller struct {
	r     *sim.Result
	c     *sim.Closure
	s     System
	lines []string
}

// say adds a sentence.
func (t *causeTeller) say(form string, words ...any) {
	t.lines = append(t.lines, capital(fmt.Sprintf(form, words...)))
}

// when is a time within a sentence.
func (t *causeTeller) when(at float64) string { return spokenTime(t.r.Start, at) }

// place says where and when it froze shut.
func (t *causeTeller) place() {
	c := t.c
	switch where := segmentWords(t.r, c.Where); {
	case c.Mound:
		t.say(causeMound, endWords(t.r), t.when(c.Shut))
	case c.Distance > 0:
		t.say(causeShut, where, t.when(c.Shut), t.s.bothLengths(c.Distance))
	default:
		t.say(causeShutThere, where, t.when(c.Shut))
	}
	if c.To-c.From > c.Length*1.5 {
		t.say(causePlug, t.reach(c.From, c.To))
	}
	if c.Slush {
		t.say(causeSlush)
	}
	if c.After >= 0 && c.After < len(t.r.Closures) {
		before := t.r.Closures[c.After]
		where := segmentWords(t.r, before.Where)
		if before.Mound {
			where = endWords(t.r)
		}
		form := causeAfter
		if c.Warm.Time > before.Shut {
			form = causeAfterToo
		}
		t.say(form, where, t.when(before.Shut))
	}
}

// stood says what stood there, and why.
func (t *causeTeller) stood() {
	x := t.c.Stood
	t.say(causeStood, t.s.bothVolumes(x.Volume), percent(x.Fill), t.barrier())
	if x.Stretch > 1.5*x.Volume && x.To > atWall {
		t.say(causeStretch, t.s.bothVolumes(x.Stretch), t.reach(x.From, x.To))
	}
}

// barrier says why it stood there.
func (t *causeTeller) barrier() string {
	why := barrierWords[t.c.Stood.Barrier]
	if strings.Contains(why, "%s") {
		why = fmt.Sprintf(why, t.s.bothLengths(t.c.Stood.At))
	}
	return why
}

// brief says in one sentence what stood in the line there, and why.
func (t *causeTeller) brief() string {
	x, volume := t.c.Stood, "Water"
	if most := math.Max(x.Volume, x.Stretch); most >= puddle {
		volume = t.s.bothVolumes(most)
	}
	return fmt.Sprintf(causeBrief, volume, segmentWords(t.r, t.c.Where), t.barrier())
}

// atWall is a distance from the wall that is not worth a figure [m].
const atWall = 0.005

// reach says from where to where something lies, by distances from the wall [m].
func (t *causeTeller) reach(from, to float64) string {
	if from < atWall {
		return fmt.Sprintf(reachFromWall, t.s.bothLengths(to))
	}
	return fmt.Sprintf(reachBetween, t.s.bothLengths(from), t.s.bothLengths(to))
}

// warm says since when the water stood there.
func (t *causeTeller) warm() {
	t.lastWarm()
	w, h := t.c.Warm, t.c.Heat
	if h.IceBefore > 0.005 {
		t.say(causeHadIce, percent(h.IceBefore), t.when(h.FirstIce))
	} else if !math.IsNaN(h.Mean) && !math.IsNaN(w.Time) {
		t.say(causeLeft, t.s.bothVolumes(h.Standing), t.s.bothTemperatures(h.Mean))
	}
}

// lastWarm says when warm water last ran through there.
func (t *causeTeller) lastWarm() {
	w := t.c.Warm
	if math.IsNaN(w.Time) {
		t.say(causeNeverWarm, spokenDuration(t.c.Shut))
	} else {
		t.say(causeWarm, spokenDuration(t.c.Shut-w.Time), t.when(w.Time), t.s.bothVolumes(w.Volume))
	}
}

// heat says what heat the water held, and how fast that went.
func (t *causeTeller) heat() {
	h, length := t.c.Heat, t.s.bothLengths(t.c.Length)
	if h.AboveZero >= 0.01*h.ToShut {
		t.say(causeHeldHeat, length, t.s.bothEnergies(h.AboveZero), t.s.bothEnergies(h.ToShut))
	} else {
		t.say(causeHeldIce, length, t.s.bothEnergies(h.ToShut))
	}
	switch {
	case math.IsNaN(h.Loss):
	case math.IsNaN(h.LossToIce):
		t.say(causeLost, t.s.bothPowers(h.Loss))
	default:
		t.say(causeLostBoth, t.s.bothPowers(h.LossToIce), t.when(h.FirstIce), t.s.bothPowers(h.Loss))
	}
}

// layers names the weakest and the strongest layer.
func (t *causeTeller) layers() {
	weak, ok := t.c.Weakest()
	strong, _ := t.c.Strongest()
	switch {
	case !ok:
		return
	case weak == strong:
		t.say(causeOneLayer, t.layer(weak))
	default:
		t.say(causeLayers, t.layer(weak), percent(weak.Share), t.layer(strong), percent(strong.Share))
	}
	bare := true
	for _, l := range t.c.Layers {
		if l.Kind == sim.LayerIce && l.Share >= 0.05 {
			t.say(causeIceLayer, percent(l.Share))
		}
		bare = bare && l.Kind != sim.LayerInsulation
	}
	if bare {
		t.say(causeBare)
	}
}

// layer names a layer, with its thickness where that says something.
func (t *causeTeller) layer(l sim.Layer) string {
	name := layerWords[l.Kind]
	if l.Kind == sim.LayerInsulation {
		name = "the " + l.Material
		if l.Material == "" {
			name = "the insulation"
		}
	}
	if !math.IsNaN(l.Thickness) && l.Kind != sim.LayerWall {
		name += ", " + t.s.bothLengths(l.Thickness) + " of it,"
	}
	return name
}

// sameAir is a difference that is not worth a figure [K].
const sameAir = 0.5

// met says what air and ground the place faced.
func (t *causeTeller) met() {
	t.air()
	m := t.c.Met
	if !math.IsNaN(m.Spell) {
		t.say(causeSpell, spokenDuration(t.c.Shut-m.Spell), t.s.bothTemperatures(m.MeanSpell))
	}
	t.ground()
	t.draught()
}

// draught says what air was drawn through the line.
func (t *causeTeller) draught() {
	if words := draughtWords(t.r, t.c.Shut, t.s); words != "" {
		t.say("%s", words)
	}
}

// air says what air it met as it shut, and since the warm water.
func (t *causeTeller) air() {
	m, never := t.c.Met, math.IsNaN(t.c.Warm.Time)
	air, wind := t.s.bothTemperatures(m.Air), t.s.bothSpeeds(m.Wind)
	mean, lowest := t.s.bothTemperatures(m.MeanSince), t.s.bothTemperatures(m.LowestSince)
	switch {
	case never:
		t.say(causeAirRecord, air, wind, mean, lowest)
	case math.Abs(m.MeanSince-m.Air) < sameAir && math.Abs(m.LowestSince-m.Air) < sameAir:
		t.say(causeAirSame, air, wind)
	default:
		t.say(causeAir, air, wind, mean, lowest)
	}
}

// ground says what ground lies around a buried pipe, and else what surrounds it.
func (t *causeTeller) ground() {
	m := t.c.Met
	switch {
	case !math.IsNaN(m.Ground) && !math.IsNaN(m.Frost):
		snow := ""
		if m.Snow >= 0.005 {
			snow = fmt.Sprintf(causeSnow, t.s.bothLengths(m.Snow))
		} else if !math.IsNaN(m.Snow) {
			snow = causeNoSnow
		}
		t.say(causeGround, t.s.bothDepths(m.Depth), t.s.bothTemperatures(m.Ground), t.s.bothDepths(m.Frost), snow)
	case math.Abs(m.Outside-m.Air) >= 1 && !t.c.Mound:
		t.say(causeSheltered, t.s.bothTemperatures(m.Outside))
	}
}

// relief says what the relief opening did as it shut.
func (t *causeTeller) relief() {
	x := t.c.Relief
	switch {
	case x == nil:
		t.say(causeReliefNone)
	case x.Blocked:
		t.say(causeReliefBlocked)
	case x.Running:
		t.say(causeReliefRuns)
	case x.Snow > 0 && x.Clear < atWall:
		t.say(causeReliefPartly)
	case x.Snow > 0:
		t.say(causeReliefBefore, t.s.bothLengths(x.Clear))
	default:
		t.say(causeReliefDry)
	}
}

// during says where the water went while it was shut.
func (t *causeTeller) during() {
	d := t.c.During
	shut := spokenDuration(t.shutFor())
	if d.Cycles == 0 {
		t.say(causeDuringNone, shut)
		return
	}
	var ways []string
	for _, w := range []struct {
		form   string
		volume float64
	}{{causeThroughRelief, d.Relief}, {causeOverRim, d.Rim}, {causeStayed, d.Refused}} {
		if w.volume >= puddle {
			ways = append(ways, fmt.Sprintf(w.form, t.s.bothVolumes(w.volume)))
		}
	}
	if len(ways) == 0 {
		ways = []string{causeOtherwise}
	}
	times := "once"
	if d.Cycles > 1 {
		times = plural(float64(d.Cycles), "time")
	}
	t.say(causeDuring, shut, times, list(ways))
}

// shutFor is how long it was shut [s], to the end of the record where it never opened.
func (t *causeTeller) shutFor() float64 {
	if t.c.Reopened != nil {
		return *t.c.Reopened - t.c.Shut
	}
	times := t.r.Hourly.Time
	if len(times) == 0 {
		return 0
	}
	return math.Max(0, times[len(times)-1]-t.c.Shut)
}

// pocket says what the rock pit did.
func (t *causeTeller) pocket() {
	p := t.c.Pocket
	switch {
	case p == nil:
	case p.Ice >= 0.5:
		t.say(causePocketFrozen, percent(p.Full), percent(p.Ice))
	default:
		t.say(causePocket, percent(p.Full), t.s.bothVolumes(p.Drinking*86400))
	}
}
