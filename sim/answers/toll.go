package answers

import (
	"cmp"
	"math"

	"winterline/sim"
)

// Toll is what a winter did to line and house, as far as changes to them are ranked by it.
type Toll struct {
	State    sim.State
	FirstIce *float64 // seconds since the first weather row; nil: never
	Closed   *float64 // the same
	ShutFor  float64  // in all [s]
	Floor    float64  // water on the basement floor [m³]
	Beside   float64  // over the standpipe's rim, next to the wall [m³]
	Relief   float64  // out of relief openings [m³]
	Refused  float64  // that the line did not take where no basin says where it stays [m³]
	Starts   int      // of the pump in its busiest hour
	WallIce  float64  // thickest ice on the ground at a relief opening [m]
}

// tollOf reads the toll off a result.
func tollOf(r *sim.Result) Toll {
	pump := sim.CountShortCycling(r.Cycles)
	t := Toll{State: r.Verdict.State, FirstIce: r.Verdict.FirstIce, Closed: r.Verdict.Closed, ShutFor: r.Verdict.ShutFor,
		Floor: r.Ledger.Floor, Beside: r.Ledger.Rim, Relief: r.Ledger.Relief, Refused: r.Refused(), Starts: pump.Busiest}
	for _, m := range r.Mounds {
		if m.Place != "outlet" {
			t.WallIce = math.Max(t.WallIce, m.Thickest)
		}
	}
	return t
}

// harm is the state as changes are ranked by it: ice that never shut the line did none.
func (t Toll) harm() sim.State {
	if t.State == sim.Iced {
		return sim.Clear
	}
	return t.State
}

// litres is all the water that did not leave at the line's end [m³].
func (t Toll) litres() float64 { return t.Floor + t.Beside + t.Relief + t.Refused }

// Open says whether the line never shut.
func (t Toll) Open() bool { return t.Closed == nil }

// Dry says whether no water was let go beside the house, reached the floor or was refused.
func (t Toll) Dry() bool { return t.State < sim.Spilled && t.Refused <= sim.LeastRefused }

// compare ranks tolls: by harm, then time shut, then water.
func (t Toll) compare(o Toll) int {
	return cmp.Or(cmp.Compare(t.harm(), o.harm()), cmp.Compare(t.ShutFor, o.ShutFor), cmp.Compare(t.litres(), o.litres()))
}

// Tolls that differ by no more are the same: by an hour, by five litres, or by two hundredths of either.
const (
	sameTime  = 3600.0 // [s]
	sameWater = 5e-3   // [m³]
	sameShare = 0.02
)

// against compares tolls as people do, who take what is nearly the same for the same: -1 where this one is the lesser,
// 1 where the other is. It orders no list, for nearly the same twice over may be different; compare does.
func (t Toll) against(o Toll) int {
	switch {
	case t.harm() != o.harm():
		return cmp.Compare(t.harm(), o.harm())
	case (t.Closed == nil) != (o.Closed == nil), !near(t.ShutFor, o.ShutFor, sameTime):
		return cmp.Compare(t.ShutFor, o.ShutFor)
	case !near(t.Floor, o.Floor, sameWater):
		return cmp.Compare(t.Floor, o.Floor)
	case !near(t.litres(), o.litres(), sameWater):
		return cmp.Compare(t.litres(), o.litres())
	case t.Closed != nil && !near(*t.Closed, *o.Closed, sameTime):
		return cmp.Compare(*o.Closed, *t.Closed) // the later the better
	}
	return 0
}

// near says whether two figures differ by no more than `least`, or by no more than a small share.
func near(a, b, least float64) bool {
	return math.Abs(a-b) <= math.Max(least, sameShare*math.Max(math.Abs(a), math.Abs(b)))
}
