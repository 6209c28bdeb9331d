package sim

import (
	"fmt"
	"math"
	"slices"

	"winterline/pipe"
	"winterline/sim/heat"
)

// recorder keeps what the result shows: hourly rows, events, segment figures, and the
// moment with most ice.
type recorder struct {
	w          *winter
	segments   []segmentTally
	hourly     Hourly
	events     []Event
	cycles     []CycleRecord
	verdict    Verdict
	worst      Snapshot
	mostIce    float64 // [kg]
	moments    [momentKinds]Snapshot
	coldest    int     // weather row
	shutTime   float64 // total time that the line was shut [s]
	shutOn     float64 // since when it is shut [s]; NaN: it is open
	shutBefore float64 // since when it was shut before it last opened [s]
	flags      map[string]bool
	airGap     *AirGap   // nil: no house pipe ends open
	refusedAny bool      // the line refused water in some cycle
	highest    float64   // standpipe level of the cycles since the last row [m]
	instants   []float64 // room for follow
	closings   []closing // in the order in which they were found
	plugOf     []int     // by cell, 1 + index of the closing that it is part of now; 0: none
}

// segmentTally follows one segment.
type segmentTally struct {
	cells  []*cell
	result SegmentResult
	levels [3]*float64
	isShut bool
	shut   float64 // total time shut [s]
	shutOn float64 // since when it is shut, or was before it last opened [s]
	opened float64 // when it last opened [s]; −Inf: never

	room      float64 // what its bore holds [kg]
	slushTold bool    // its water turned to slush and has not all been above 0 °C since
}

// icePresent is the ice share of a segment's standing water from which it counts as
// holding ice [-].
const icePresent = 0.01

// iceLevels are the shares whose first times are kept.
var iceLevels = [3]float64{0.10, 0.50, 0.90}

func newRecorder(w *winter) *recorder {
	r := &recorder{w: w, shutOn: math.NaN(), flags: map[string]bool{}, highest: math.NaN(), airGap: newAirGap(w)}
	for _, s := range w.k.Layout.Segments {
		r.addSegment(s.Name, s.Setting)
	}
	for i, c := range w.line.cells {
		if c.upright && (i == w.line.standFrom || i == w.line.elbow) {
			r.addSegment(w.line.uprightName(i), pipe.Buried)
		}
		c.part = c.segment
		if c.upright {
			c.part = len(r.segments) - 1
		}
		s := &r.segments[c.part]
		s.cells = append(s.cells, c)
		s.room += c.boreArea() * c.length * heat.WaterDensity
	}
	r.hourly.Segments = make([]SegmentHourly, len(r.segments))
	r.verdict.ClosedWhere = -1
	r.plugOf = make([]int, len(w.line.cells))
	return r
}

// addSegment adds a row for a segment, or for an upright part.
func (r *recorder) addSegment(name string, setting pipe.Setting) {
	r.segments = append(r.segments, segmentTally{opened: math.Inf(-1), result: SegmentResult{Name: name, Setting: setting, LowestWater: math.NaN()}})
}

// event notes that something happened. value is NaN where there is none.
func (r *recorder) event(t float64, kind EventKind, where string, value float64, unit, meaning string) {
	e := Event{Time: t, Kind: kind, Where: where, Unit: unit, Meaning: meaning}
	if !math.IsNaN(value) {
		e.Value = &value
	}
	r.events = append(r.events, e)
}

// once turns a flag on or off and reports whether that changed it.
func (r *recorder) once(flag string, on bool) bool {
	if r.flags[flag] == on {
		return false
	}
	r.flags[flag] = on
	return true
}

// at returns a pointer to a time, for the first of a kind.
func at(t float64) *float64 { return &t }

// put keeps a figure in the room of the one before, if there was one: a fork copies such figures.
func put(kept **float64, v float64) {
	if *kept == nil {
		*kept = new(float64)
	}
	**kept = v
}

// interval reads what the cells went through between two synchronisations.
func (r *recorder) interval(from, to float64) {
	for i := range r.segments {
		s := &r.segments[i]
		s.follow(from, to, &r.instants)
		for _, c := range s.cells {
			if low := c.lowestWater(); low < s.result.LowestWater || math.IsNaN(s.result.LowestWater) {
				s.result.LowestWater = low
			}
		}
		if s.result.FirstIce == nil {
			r.firstIce(i)
		}
		r.slush(s)
	}
}

// firstIce notes when the first of a segment's cells came to 0 °C.
func (r *recorder) firstIce(i int) {
	s := &r.segments[i]
	first := math.Inf(1)
	for _, c := range s.cells {
		if c.tally.hasFirstIce {
			first = math.Min(first, c.tally.firstIce)
		}
	}
	if math.IsInf(first, 1) {
		return
	}
	s.result.FirstIce = at(first)
	for _, c := range s.cells {
		heatIn := c.tally.heatIn
		if c.tally.hasFirstIce {
			heatIn = c.tally.heatToIce
		}
		s.result.HeatLostFirstIce -= heatIn
	}
	if r.verdict.FirstIce == nil || first < *r.verdict.FirstIce {
		r.verdict.FirstIce = at(first)
	}
	r.event(first, EventFirstIce, s.result.Name, math.NaN(), "", "the first ice formed in the "+s.result.Name)
}

// stretch books the ice share between two instants, straight in between.
func (s *segmentTally) stretch(a, b share) {
	s.result.LargestIce = math.Max(s.result.LargestIce, math.Max(a.ice, b.ice))
	s.result.HoursWithIce += above(a, b, icePresent) / 3600
	for i, level := range iceLevels {
		switch {
		case s.levels[i] != nil:
		case a.ice >= level: // water that moved has made it so at once
			s.levels[i] = at(a.t)
		case b.ice >= level:
			s.levels[i] = at(a.t + (b.t-a.t)*(level-a.ice)/(b.ice-a.ice))
		}
	}
}

// above is how long the ice share stood over a level between two instants [s].
func above(a, b share, level float64) float64 {
	dt := b.t - a.t
	switch {
	case a.ice >= level && b.ice >= level:
		return dt
	case a.ice < level && b.ice < level:
		return 0
	case b.ice > a.ice:
		return dt * (b.ice - level) / (b.ice - a.ice)
	}
	return dt * (a.ice - level) / (a.ice - b.ice)
}

// turned notes that a cell shut or opened.
func (r *recorder) turned(i int, shut bool, t float64) {
	c := r.w.line.cells[i]
	s := &r.segments[c.part]
	any := false
	for k, on := range r.w.shut {
		any = any || on && r.w.line.cells[k].part == c.part
	}
	if any != s.isShut {
		s.isShut = any
		switch {
		case any && t-s.opened < hardlyOpen:
			s.shut -= s.opened - s.shutOn
			r.forget(EventReopened, s.result.Name, s.opened)
		case any:
			if s.result.Closed == nil {
				s.result.Closed = at(t)
			}
			s.shutOn = t
			r.event(t, EventClosed, s.result.Name, c.x0, "m", fmt.Sprintf("ice shut the %s, first at this distance from the wall", s.result.Name))
		default:
			s.shut += t - s.shutOn
			s.opened = t
			r.event(t, EventReopened, s.result.Name, math.NaN(), "", fmt.Sprintf("the %s opened again", s.result.Name))
		}
	}
	r.lineTurned(c, !r.w.line.findPlugs(r.w.shut).none(), t)
}

// hardlyOpen is for how long what ice had shut must stay open to be told of [s]: water that falls from its
// ice as it opens can leave it shut again at once.
const hardlyOpen = 60.0

// forget takes back the last event of a kind at a place, of time t [s].
func (r *recorder) forget(kind EventKind, where string, t float64) {
	for i := len(r.events) - 1; i >= 0; i-- {
		if e := r.events[i]; e.Kind == kind && e.Where == where && e.Time == t {
			r.events = slices.Delete(r.events, i, i+1)
			return
		}
	}
}

// lineTurned keeps when the line as a whole was shut.
func (r *recorder) lineTurned(c *cell, shut bool, t float64) {
	switch {
	case shut && math.IsNaN(r.shutOn) && r.verdict.Reopened != nil && t-*r.verdict.Reopened < hardlyOpen:
		r.shutOn = r.shutBefore
		r.shutTime -= *r.verdict.Reopened - r.shutOn
		r.verdict.Reopened = nil
	case shut && math.IsNaN(r.shutOn):
		r.shutOn = t
		r.verdict.Reopened = nil
		if r.verdict.Closed == nil {
			r.verdict.Closed, r.verdict.ClosedWhere, r.verdict.ClosedDistance = at(t), c.part, c.x0
		}
	case !shut && !math.IsNaN(r.shutOn):
		r.shutTime += t - r.shutOn
		r.shutBefore, r.shutOn = r.shutOn, math.NaN()
		r.verdict.Reopened = at(t)
	}
}
