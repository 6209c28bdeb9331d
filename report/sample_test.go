package report

import (
	"fmt"
	"math"
	"strings"
	"time"

	"winterline/pipe"
	"winterline/pipe/units"
	"winterline/sim"
)

// sampleSpec asks for a winter. The numbers are invented: they have the shape of a
// result, not its physics.
type sampleSpec struct {
	state    sim.State
	segments int // 3: a glued line to an open end; 5 and more: standpipe, yard run in parts, lid and rock pit
	days     int
}

// plain is the winter that most tests use: riser, wall stub, standpipe, yard run and
// outlet elbow over 60 days.
func plain(state sim.State) *sim.Result { return sample(sampleSpec{state, 5, 60}) }

// sampler carries what the parts of a sample share.
type sampler struct {
	spec   sampleSpec
	r      *sim.Result
	growth []float64 // by segment: ice share gained in a day at 10 K of frost
	cap    float64   // largest ice share
	shut   []bool    // by segment
	open   float64   // when the line was last seen open [s]
}

func sample(spec sampleSpec) *sim.Result {
	s := &sampler{spec: spec, cap: 1}
	layout, profile := sampleLayout(spec)
	s.r = &sim.Result{
		Name: "larkspur-hollow", Title: layout.Title,
		Start:  time.Date(2025, time.December, 1, 0, 0, 0, 0, time.UTC),
		Layout: layout, Profile: profile,
		Verdict: sim.Verdict{State: spec.state, ClosedWhere: -1},
		Stats:   sim.Stats{Cells: 44, Nodes: 1210, Cycles: spec.days * 6, Steps: 21034, Rejected: 811, Newton: 39220},
		Balance: sim.Balance{WaterRelative: 3.1e-14, HeatRelative: 2.2e-12, HeatExchanged: 9.3e9, NewtonResidual: 4.2e-8},
	}
	s.nameSegments()
	s.weather()
	for i := range s.r.Hourly.Time {
		s.hour(i)
	}
	s.finish()
	return s.r
}

func ptr(v float64) *float64 { return &v }

func (s *sampler) nameSegments() {
	names := []string{"riser", "wall stub", "yard run"}
	settings := []pipe.Setting{pipe.Indoor, pipe.ThroughWall, pipe.Buried}
	if s.spec.segments >= 5 {
		names = []string{"riser", "wall stub", "standpipe"}
		settings = []pipe.Setting{pipe.Indoor, pipe.ThroughWall, pipe.OpenAir}
		for i := range s.spec.segments - 4 {
			names = append(names, yardRunName(i, s.spec.segments-4))
			settings = append(settings, pipe.Buried)
		}
		names, settings = append(names, "outlet elbow"), append(settings, pipe.Buried)
	}
	for i, name := range names {
		s.r.Segments = append(s.r.Segments, sim.SegmentResult{
			Name: name, Setting: settings[i], Standing: 0.002 + 0.051*float64(i%4)/3, LowestWater: math.NaN(),
		})
		growth := 0.0
		if i >= 2 && s.spec.state != sim.Clear {
			growth = 0.17 - 0.004*float64(i%9) - 0.01*float64((i*7)%5)
		}
		s.growth = append(s.growth, growth)
	}
	if s.spec.state == sim.Iced {
		s.cap = 0.61
	}
	s.shut = make([]bool, len(names))
	s.r.Hourly.Segments = make([]sim.SegmentHourly, len(names))
}

func yardRunName(i, n int) string {
	if n == 1 {
		return "yard run"
	}
	return fmt.Sprintf("yard run part %d", i+1)
}

// weather makes hourly rows: a mild start, a plunge in the second half, a thaw.
func (s *sampler) weather() {
	h := &s.r.Hourly
	rows := s.spec.days*24 + 1
	snow, frost := 0.0, 0.0
	for i := range rows {
		day := float64(i) / 24
		at := day / float64(max(1, s.spec.days))
		plunge := math.Exp(-math.Pow((at-0.62)/0.13, 2))
		air := 2.5 - 4*math.Sin(math.Pi*at) - 15*plunge + 3*math.Sin(2*math.Pi*(day-0.4)) +
			4*math.Sin(2*math.Pi*day/7.3+1) + 1.3*math.Sin(2*math.Pi*day/2.1)
		snow = math.Max(0, snow*math.Pow(0.97, 1.0/24)-0.0006*math.Max(0, air))
		if math.Mod(day+2, 9) < 0.7 && air < 0 {
			snow += 0.006
		}
		frost = math.Max(0, frost+(-0.0003*air-0.0004*frost)/2)
		h.Time = append(h.Time, float64(i)*3600)
		h.Air = append(h.Air, air)
		h.Wind = append(h.Wind, 1.6+1.1*math.Sin(2*math.Pi*day/3.7))
		h.SnowDepth = append(h.SnowDepth, snow)
		h.Frost = append(h.Frost, frost)
	}
}

// hour fills one row: ice grows in frost and goes in thaw, every fourth hour brings a
// pump cycle, whose way out depends on what is shut.
func (s *sampler) hour(i int) {
	r, h := s.r, &s.r.Hourly
	t := h.Time[i]
	for j := range r.Segments {
		s.segmentHour(i, j)
	}
	pocket := math.Min(1, 0.05+float64(i)/400)
	h.Pocket = appendIf(r.Layout.Pocket != nil, h.Pocket, pocket)
	h.Basin = appendIf(r.Layout.Basin != nil, h.Basin, 0.13+0.17*float64(i%4)/3)
	h.Standpipe = appendIf(r.Layout.Standpipe != nil, h.Standpipe, -0.38+0.1*pocket)
	l := &r.Ledger
	if i > 0 && i%4 == 0 {
		s.cycle(t)
	}
	if r.Layout.Pocket != nil && i > 0 {
		drunk := math.Min(0.000_13, l.Outlet-l.PocketToSoil)
		l.PocketToSoil += drunk
		l.Outlet -= drunk
	}
	h.Outlet, h.Relief, h.Rim = append(h.Outlet, l.Outlet), append(h.Relief, l.Relief), append(h.Rim, l.Rim)
	h.ToSoil, h.Floor = append(h.ToSoil, l.PocketToSoil), append(h.Floor, l.Floor)
}

func appendIf(present bool, series []float64, v float64) []float64 {
	if !present {
		return series
	}
	return append(series, v)
}

func (s *sampler) segmentHour(i, j int) {
	r, h := s.r, &s.r.Hourly
	seg, track := &r.Segments[j], &r.Hourly.Segments[j]
	ice := 0.0
	if i > 0 {
		ice = track.Ice[i-1]
	}
	cold := -h.Air[i] - 4
	ice += s.growth[j] * cold / 10 / 24
	ice = math.Min(math.Max(ice, 0), s.cap)
	lag := h.Air[max(0, i-30)]
	water := 9 - float64(j)*0.4 + 0.35*math.Min(0, lag) + 0.6*math.Sin(float64(i)/3+float64(j))
	switch {
	case ice > 0.97:
		water = math.Min(-0.1, 0.3*(lag+4))
	case ice > 0:
		water = 0
	default:
		water = math.Max(water, 0.4)
	}
	fill := math.Min(1, 0.4+float64(j)/3)
	if seg.Name == "wall stub" {
		water, fill = math.NaN(), 0 // drains after every cycle
	}
	track.Water, track.Ice, track.Fill = append(track.Water, water), append(track.Ice, ice), append(track.Fill, fill)
	if !(water >= seg.LowestWater) && !math.IsNaN(water) {
		seg.LowestWater = water
	}
	s.segmentFrost(j, h.Time[i], ice)
}

// segmentFrost keeps the milestones of one segment and the events that they are.
func (s *sampler) segmentFrost(j int, t, ice float64) {
	r, seg := s.r, &s.r.Segments[j]
	for _, mark := range []struct {
		share float64
		when  **float64
	}{{1e-9, &seg.FirstIce}, {0.1, &seg.Ice10}, {0.5, &seg.Ice50}, {0.9, &seg.Ice90}} {
		if *mark.when == nil && ice > mark.share {
			*mark.when = ptr(t + 1234.5)
		}
	}
	if seg.FirstIce != nil && r.Verdict.FirstIce == nil {
		r.Verdict.FirstIce = seg.FirstIce
		s.event(t+1234.5, sim.EventFirstIce, seg.Name, nil, "", "the first ice formed")
	}
	if ice > 0 {
		seg.HoursWithIce++
	}
	seg.LargestIce = math.Max(seg.LargestIce, ice)
	if s.shut[j] {
		seg.HoursClosed++
	}
	switch {
	case !s.shut[j] && ice > 0.92:
		s.shut[j] = true
		s.event(t+240, sim.EventClosed, seg.Name, ptr(ice), "", "the bore froze shut")
		if seg.Closed == nil {
			seg.Closed = ptr(t + 240)
		}
		if r.Verdict.Closed == nil {
			r.Verdict.Closed, r.Verdict.ClosedWhere, r.Verdict.ClosedDistance = seg.Closed, j, 4.27
			r.Verdict.ClosedDendritic = ptr(t - 9*3600)
			r.Closures = []sim.Closure{sampleClosure(s.spec, j, t+240)}
		}
	case s.shut[j] && ice < 0.84:
		s.shut[j] = false
		s.event(t, sim.EventReopened, seg.Name, nil, "", "the bore opened again")
	}
}

// sampleClosure is a first closure of a segment at a time [s]; figures invented.
func sampleClosure(spec sampleSpec, segment int, t float64) sim.Closure {
	c := sim.Closure{
		Where: segment, Distance: 4.27, Length: 0.5, From: 4, To: 5, Shut: t, Grew: t + 3600, After: -1,
		Stood: sim.Stood{Volume: 0.003, Fill: 0.96, Stretch: 0.053, From: 2.7, To: 9.4, Barrier: sim.BarrierPocket, At: 9.4, Part: segment},
		Warm:  sim.WarmWater{Time: t - 4*3600, Temperature: 7, Volume: 0.03},
		Heat:  sim.HeatHeld{Standing: 0.003, Mean: 5, AboveZero: 63_000, ToShut: 960_000, FirstIce: t - 3*3600, LossToIce: 17.5, Loss: 71},
		Layers: []sim.Layer{
			{Kind: sim.LayerIce, Thickness: math.NaN(), Resistance: 0.08, Share: 0.2}, {Kind: sim.LayerSoil, Thickness: 0.36, Resistance: 0.32, Share: 0.8},
		},
		Met: sim.Met{
			Air: -19, Wind: 2, Outside: -2.5, LowestSince: -20, MeanSince: -18, Spell: t - 9*86400, LowestSpell: -22, MeanSpell: -9,
			Ground: -2.5, Depth: 0.41, Frost: 0.6, Snow: 0.12,
		},
		Relief: &sim.ReliefThen{Snow: 0.12, Clear: 0.13}, Pocket: &sim.PocketThen{Full: 1, Temperature: 2, Drinking: 3.5e-8},
		During: sim.WhileShut{Cycles: 113, ReliefRuns: 113, Relief: 3.3},
	}
	if spec.segments < 5 { // glued, in the open
		c.Stood.Barrier, c.Met.Ground, c.Met.Frost, c.Relief, c.Pocket = sim.BarrierSag, math.NaN(), math.NaN(), nil, nil
	}
	return c
}

func (s *sampler) event(t float64, kind sim.EventKind, where string, value *float64, unit, meaning string) {
	s.r.Events = append(s.r.Events, sim.Event{Time: t, Kind: kind, Where: where, Value: value, Unit: unit, Meaning: meaning})
}

func (s *sampler) anyShut() bool {
	for _, shut := range s.shut {
		if shut {
			return true
		}
	}
	return false
}

// cycle sends 45 L by the way that is open in this kind of winter.
func (s *sampler) cycle(t float64) {
	r, l, v := s.r, &s.r.Ledger, &s.r.Verdict
	const volume = 0.0453
	c := sim.CycleRecord{Time: t, Volume: volume, Run: 31, Level: -0.2}
	if r.Layout.Standpipe == nil {
		c.Level = math.NaN()
	}
	if len(r.Cycles) == 0 {
		s.open = t
	}
	if !s.anyShut() {
		if len(r.Cycles) > 0 && v.Closed != nil && v.Reopened == nil {
			v.Reopened = ptr(t)
		}
		c.Outlet = volume
	} else {
		v.Reopened = nil
		v.ShutFor += 4 * 3600
		s.shutCycle(&c)
	}
	l.Arrived += volume + 1e-5
	l.HeldBasin += 1e-5
	l.Floor += c.Refused
	l.Pumped += volume - c.Refused
	l.Outlet += c.Outlet
	l.Relief += c.Relief
	l.Rim += c.Rim
	r.Cycles = append(r.Cycles, c)
}

// shutCycle is a cycle against a line that froze shut.
func (s *sampler) shutCycle(c *sim.CycleRecord) {
	v := &s.r.Verdict
	t := c.Time + 20
	first := func(when **float64, kind sim.EventKind, where, meaning string) {
		if *when == nil {
			*when = ptr(t)
		}
		s.event(t, kind, where, ptr(c.Volume*1000), "L", meaning)
	}
	rim, refused := 0.0, 0.0
	switch {
	case len(s.r.Layout.Reliefs) == 0:
		refused = c.Volume
	case s.spec.state == sim.Spilled:
		rim = 0.3 * c.Volume
	case s.spec.state == sim.Flooded:
		rim, refused = 0.1*c.Volume, 0.5*c.Volume
	}
	c.Rim, c.Refused, c.Relief = rim, refused, c.Volume-rim-refused
	if c.Relief > 0 {
		v.ReliefRuns++
		c.Level = 0.29
		first(&v.Relief, sim.EventReliefRunning, "standpipe", "the relief opening ran")
	}
	if rim > 0 {
		v.SpillRuns++
		c.Level = 0.412
		first(&v.Spill, sim.EventRimSpill, "standpipe", "water went over the rim")
	}
	if refused > 0 {
		first(&v.Floor, sim.EventFloorWet, "basin", "water reached the basement floor")
		if v.Spill == nil && len(s.r.Layout.Reliefs) == 0 {
			s.event(t, sim.EventPumpNoFlow, "basin", ptr(24), "L", "the pump pushed against ice and moved nothing")
		}
	}
}

func (s *sampler) finish() {
	r := s.r
	if len(r.Layout.Reliefs) > 0 {
		r.Verdict.ReliefMargin, r.Verdict.HighestSnow = ptr(0.076), ptr(0.178)
	}
	if s.spec.state == sim.Iced {
		r.Verdict.ClosedDendritic = ptr(*r.Verdict.FirstIce + 40*3600)
	}
	if r.Layout.Pocket != nil && s.spec.days > 30 {
		s.event(395*3600, sim.EventPocketFull, "pocket", ptr(136), "L", "the rock pit is full, so the line stays full")
		s.event(700*3600, sim.EventReliefBuried, "standpipe", ptr(0.28), "m", "snow stood over every relief opening")
	}
	if s.anyShut() {
		r.Verdict.Reopened = nil
	}
	sortEvents(r.Events)
	s.snapshot()
}

func sortEvents(events []sim.Event) {
	for i := range events {
		for j := i; j > 0 && events[j].Time < events[j-1].Time; j-- {
			events[j], events[j-1] = events[j-1], events[j]
		}
	}
}

// snapshot takes the line at the row with most ice, and at its moments.
func (s *sampler) snapshot() {
	r := s.r
	worst, most := 0, -1.0
	for i := range r.Hourly.Time {
		sum := 0.0
		for j := range r.Segments {
			sum += r.Hourly.Segments[j].Ice[i]
		}
		if sum > most {
			worst, most = i, sum
		}
	}
	r.Worst = s.picture(worst)
	coldest := 0
	for i, air := range r.Hourly.Air {
		if air < r.Hourly.Air[coldest] {
			coldest = i
		}
	}
	for kind, at := range []*float64{sim.MomentFirstIce: r.Verdict.FirstIce, sim.MomentShut: r.Verdict.Closed, sim.MomentColdest: &r.Hourly.Time[coldest]} {
		if at != nil {
			row := min(int(math.Ceil(*at/3600)), len(r.Hourly.Time)-1)
			r.Moments = append(r.Moments, sim.Moment{Kind: sim.MomentKind(kind), Snapshot: s.picture(row)})
		}
	}
}

// picture is the line at a row.
func (s *sampler) picture(row int) sim.Snapshot {
	r := s.r
	out := sim.Snapshot{Time: r.Hourly.Time[row], Frost: r.Hourly.Frost[row], Snow: r.Hourly.SnowDepth[row]}
	for j, seg := range r.Segments {
		n := 4
		reach, bore := sampleReach(r, j)
		if long := reach.X1 - reach.X0; long > 1 {
			n = int(math.Ceil(long / 0.5))
		}
		for k := range n {
			a, b := float64(k)/float64(n), float64(k+1)/float64(n)
			c := sim.CellState{Segment: j, Bore: bore,
				X0: reach.X0 + a*(reach.X1-reach.X0), X1: reach.X0 + b*(reach.X1-reach.X0),
				Z0: reach.Z0 + a*(reach.Z1-reach.Z0), Z1: reach.Z0 + b*(reach.Z1-reach.Z0),
				Temperature: r.Hourly.Segments[j].Water[row],
				Ice:         math.Min(1, r.Hourly.Segments[j].Ice[row]*(0.8+0.3*math.Sin(float64(k)))),
				Vertical:    reach.X0 == reach.X1 && seg.Setting != pipe.ThroughWall,
			}
			switch {
			case strings.HasPrefix(seg.Name, "yard run"):
				c.Fill = 0.45 + 0.55*float64(k+1)/float64(n)
			case seg.Name == "wall stub", seg.Name == "standpipe" && k > 0:
				c.Temperature = math.NaN()
			default:
				c.Fill = 1
			}
			c.Closed = s.r.Verdict.Closed != nil && c.Ice > 0.92 && c.Fill > 0.9
			out.Cells = append(out.Cells, c)
		}
	}
	return out
}

// sampleReach places segment j of the result: the layout's own segments by name, the
// standpipe and the elbow where the layout has them.
func sampleReach(r *sim.Result, j int) (pipe.Reach, float64) {
	name := r.Segments[j].Name
	for i, seg := range r.Layout.Segments {
		if seg.Name == name {
			return r.Profile.Segments[i], seg.Size.Bore()
		}
	}
	if name == "standpipe" {
		end := r.Profile.Segments[r.Layout.Standpipe.After]
		return pipe.Reach{X0: end.X1, X1: end.X1, Z0: r.Profile.Segments[2].Z0, Z1: r.Layout.Standpipe.Rim}, 0.1
	}
	last := r.Profile.Segments[len(r.Profile.Segments)-1]
	return pipe.Reach{X0: last.X1, X1: last.X1, Z0: last.Z1, Z1: -0.02*last.X1 + 0.025}, 0.1
}

func sampleLayout(spec sampleSpec) (*pipe.Layout, *pipe.Profile) {
	pvc := pipe.Material{Name: "PVC"}
	thin := pipe.Size{Name: "1-1/2 in sch 40 PVC", OutsideDiameter: 0.04826, Wall: 0.00368, Material: pvc}
	wide := pipe.Size{Name: "4 in D3034", OutsideDiameter: 0.10706, Wall: 0.00305, Material: pvc}
	l := &pipe.Layout{
		Title: "Larkspur Hollow, north wall",
		Site:  pipe.Site{GroundSlope: 0.02, GroundWritten: true, SnowOnLine: 1, Soil: pipe.Soil{Texture: "silty clay"}},
		Basin: &pipe.Basin{FloorBelowGround: 2.44, BottomBelowFloor: 0.61, Area: 0.164, FloatOn: 0.305, FloatOff: 0.127, CheckValve: true},
		Guesses: []pipe.Guess{
			{Key: "site.soil_moisture", Dimension: units.Fraction, Value: 0.24, Low: 0.15, High: 0.32, Source: "common practice, no source"},
			{Key: "site.wind_exposure", Dimension: units.Fraction, Value: 0.4, Low: 0.2, High: 0.6, Source: "log profile over grass"},
			{Key: "basin.water_temperature", Dimension: units.Temperature, Value: 8, Low: 3, High: 10, Source: "ground mean"},
			{Key: "site.soil", Text: "loam", LowText: "sand", HighText: "clay", Source: "common practice, no source"},
		},
		Segments: []pipe.Segment{{Name: "riser", Size: thin, Length: 3.41, Drop: -3.41}, {Name: "wall stub", Size: thin, Length: 0.45, Setting: pipe.ThroughWall}},
		Outlet:   pipe.Outlet{Kind: pipe.Open, DistanceToHouse: 9.75},
	}
	size, setting := thin, pipe.OpenAir
	drop, start := 0.72, 0.36
	if spec.segments >= 5 {
		size, setting, drop, start = wide, pipe.Buried, 0.1, -0.46
	}
	parts := max(1, spec.segments-4)
	for i := range parts {
		seg := pipe.Segment{Name: yardRunName(i, parts), Size: size, Setting: setting, Length: 9.3 / float64(parts), Drop: drop / float64(parts)}
		if setting == pipe.Buried && i == 0 {
			top := start + wide.OutsideDiameter - wide.Wall
			seg.Cover = &[2]float64{-top, -0.02*seg.Length - (top - seg.Drop)}
		}
		l.Segments = append(l.Segments, seg)
	}
	if spec.segments >= 5 {
		level := 0.025
		l.Standpipe = &pipe.Standpipe{After: 1, Size: wide, HousePipeEnd: 0.3556, Rim: 0.4064, SlipTravel: 0.076}
		l.Reliefs = []pipe.Relief{{Segment: -1, Height: 0.254, Width: 0.076, OpeningHeight: 0.051, DistanceToHouse: 0.61, SnowFactor: 1}}
		l.Outlet = pipe.Outlet{Kind: pipe.Lid, Level: &level, DistanceToHouse: 9.75, Weep: &pipe.Slot{Height: 0.0095, Width: 0.0508}}
		l.Pocket = &pipe.Pocket{Length: 0.91, Width: 0.61, Depth: 0.61, Void: 0.4}
	}
	p, problems := l.MakeProfile("layout.toml")
	if problems.Err() != nil {
		panic(problems) // of the sample itself
	}
	return l, p
}

// verificationCell is the smallest case: one pipe in the open, full of water, cooling
// down for 60 h, with no pump and nothing else around it.
func verificationCell() *sim.Result {
	size := pipe.Size{OutsideDiameter: 0.0483, Wall: 0.00368}
	layout := &pipe.Layout{Title: "cell", Segments: []pipe.Segment{{Name: "cell", Size: size, Length: 1, Setting: pipe.OpenAir}}, Outlet: pipe.Outlet{Kind: pipe.Open}}
	profile, problems := layout.MakeProfile("layout.toml")
	if problems.Err() != nil {
		panic(problems) // of the sample itself
	}
	r := &sim.Result{Name: "cell", Title: "cell", Layout: layout, Profile: profile,
		Start:   time.Date(2026, time.January, 1, 0, 0, 0, 0, time.UTC),
		Verdict: sim.Verdict{State: sim.ShutRelieved, FirstIce: ptr(20 * 3600), Closed: ptr(50 * 3600), ShutFor: 10 * 3600, ClosedDistance: 0.5},
		Segments: []sim.SegmentResult{{Name: "cell", Setting: pipe.OpenAir, Standing: 0.00132, LowestWater: 0,
			FirstIce: ptr(20 * 3600), Closed: ptr(50 * 3600), HoursWithIce: 40, HoursClosed: 10, LargestIce: 1}},
		Hourly: sim.Hourly{Segments: make([]sim.SegmentHourly, 1)},
		Events: []sim.Event{{Time: 20 * 3600, Kind: sim.EventFirstIce, Where: "cell"}, {Time: 50 * 3600, Kind: sim.EventClosed, Where: "cell"}},
		Worst:  sim.Snapshot{Time: 60 * 3600, Cells: []sim.CellState{{X1: 1, Bore: size.Bore(), Fill: 1, Ice: 1, Closed: true}}},
	}
	for i := range 61 {
		h, s := &r.Hourly, &r.Hourly.Segments[0]
		h.Time, h.Air, h.Wind = append(h.Time, float64(i)*3600), append(h.Air, -20), append(h.Wind, 0)
		for _, path := range []*[]float64{&h.Frost, &h.Outlet, &h.Relief, &h.Rim, &h.ToSoil, &h.Floor} {
			*path = append(*path, 0)
		}
		s.Water = append(s.Water, math.Max(0, 10-0.5*float64(i)))
		s.Ice = append(s.Ice, math.Min(1, math.Max(0, float64(i-20)/30)))
		s.Fill = append(s.Fill, 1)
	}
	return r
}
