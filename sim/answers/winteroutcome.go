package answers

import (
	"math"
	"time"

	"winterline/sim"
	"winterline/weather"
)

// WinterOutcome is what became of one layout in one winter of a long record: a unit of work. In a share of the work it
// is written with these keys, its numbers exact. Times are seconds since Start; nil: never.
type WinterOutcome struct {
	Winter   string    `json:"winter"` // July to June, "2014-15"
	Layout   int       `json:"layout"` // index among the layouts asked about
	Start    time.Time `json:"start"`  // of the simulation, local standard time carried as UTC
	End      time.Time `json:"end"`
	State    string    `json:"state"` // the verdict's word, see sim.State
	FirstIce *float64  `json:"first_ice_s"`
	Shut     *float64  `json:"shut_s"`  // the line first shut
	Spill    *float64  `json:"spill_s"` // water first let go beside the house
	Floor    *float64  `json:"floor_s"` // floor first wet

	Lowest     float64   `json:"lowest_air_c"`
	LowestAt   time.Time `json:"lowest_air_at"`
	DegreeDays float64   `json:"freezing_degree_days_k_d"`
	Frost      float64   `json:"frost_m"` // deepest frost in the undisturbed ground; 0 also where nothing is buried

	IceFor     float64 `json:"ice_for_s"`    // longest total time with ice of any segment
	ShutFor    float64 `json:"shut_for_s"`   // total time shut
	StillShut  bool    `json:"still_shut"`   // at the end
	ReliefFor  float64 `json:"relief_for_s"` // pump's running time in cycles in which a relief opening ran
	ReliefRuns int     `json:"relief_runs"`  // those cycles

	Pumped  float64 `json:"pumped_m3"`
	Outlet  float64 `json:"outlet_m3"`
	Relief  float64 `json:"relief_m3"`
	Rim     float64 `json:"rim_m3"`
	ToSoil  float64 `json:"pocket_to_soil_m3"`
	OnFloor float64 `json:"floor_m3"`
	Refused float64 `json:"refused_m3"` // what the line did not take where no basin says where it stays; else 0

	Snow   string  `json:"snow"`   // where the snow's depth comes from, in words
	Margin *Margin `json:"margin"` // nil: not asked for
}

// outcomeOf is what is kept of the result of a layout in a winter.
func outcomeOf(w weather.Winter, layout int, k *sim.Case, r *sim.Result) WinterOutcome {
	v := r.Verdict
	o := WinterOutcome{
		Winter: w.Name(), Layout: layout, Start: r.Start, End: k.Weather.Stamp(k.Weather.End()), State: v.State.String(),
		FirstIce: v.FirstIce, Shut: v.Closed, Spill: v.Spill, Floor: v.Floor,
		Lowest: w.Lowest, LowestAt: w.LowestAt, DegreeDays: w.DegreeDays,
		ShutFor: v.ShutFor, StillShut: v.Closed != nil && v.Reopened == nil, ReliefRuns: v.ReliefRuns,
		Pumped: r.Ledger.Pumped, Outlet: r.Ledger.Outlet, Relief: r.Ledger.Relief, Rim: r.Ledger.Rim,
		ToSoil: r.Ledger.PocketToSoil, OnFloor: r.Ledger.Floor, Refused: r.Refused(), Snow: k.Weather.Snow().Kind.String(),
	}
	for _, z := range r.Hourly.Frost {
		o.Frost = math.Max(o.Frost, z)
	}
	for _, s := range r.Segments {
		o.IceFor = math.Max(o.IceFor, s.HoursWithIce*3600)
	}
	for _, c := range r.Cycles {
		if c.Relief > 0 {
			o.ReliefFor += c.Run
		}
	}
	return o
}

// state is the verdict's place in the order of harm.
func (o *WinterOutcome) state() sim.State {
	for s := sim.Clear; s < sim.Flooded; s++ {
		if s.String() == o.State {
			return s
		}
	}
	return sim.Flooded
}

// Wet says whether water came out beside the house, reached the floor, or was refused where no basin says where it stays.
func (o *WinterOutcome) Wet() bool {
	return o.Spill != nil || o.Floor != nil || o.Refused > sim.LeastRefused
}

// Worse says whether a winter went worse than another, by its verdict.
func (o *WinterOutcome) Worse(other WinterOutcome) bool { return o.state() > other.state() }
