package verify

import (
	"context"
	"math"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// Cases of the convergence study that are run as a user's are. The undisturbed ground keeps its
// nodes in them: those have rows of their own.

// buriedText is half a metre of shallow pipe that stands full.
const buriedText = `title = "buried cell"
[site]
soil = "silt loam"
soil_moisture = "20 %"
ground_mean = "8 degC"
ground_swing = "12 K"
surface = "bare"
wind_exposure = 0.4
[[segment]]
name = "run"
pipe = "4 in D3034"
length = "0.5 m"
drop = "0 m"
cover = "15 cm"
setting = "buried"
standing = "full"
[outlet]
kind = "open"
`

// houseText is the usual house: a run that sags under a cleared path, a lid at its end, a relief
// opening in the standpipe.
const houseText = `title = "house"
[site]
soil = "silt loam"
soil_moisture = "20 %"
ground_mean = "8 degC"
ground_swing = "10 K"
surface = "grass"
snow_on_line = "cleared"
wind_exposure = 0.4
room_temperature = "15 degC"
[basin]
floor_below_ground = "2 m"
bottom_below_floor = "60 cm"
diameter = "50 cm"
float_on = "30 cm"
float_off = "10 cm"
water_temperature = "8 degC"
check_valve = true
[[pump]]
name = "main"
curve = [["0 m", "150 L/min"], ["3 m", "100 L/min"], ["6 m", "0 L/min"]]
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "2.8 m"
rise = "2.8 m"
setting = "indoor"
[[segment]]
name = "wall stub"
pipe = "1-1/2 in sch 40 PVC"
length = "40 cm"
drop = "1 cm"
setting = "through-wall"
[[segment]]
name = "yard run"
pipe = "4 in D2729"
length = "4 m"
slope = "1 %"
sag = "4 cm"
cover = "12 cm"
setting = "buried"
[standpipe]
after = "wall stub"
pipe = "4 in D3034"
house_pipe_end = "35 cm"
rim = "40 cm"
[[relief]]
at = "standpipe"
height = "20 cm"
width = "75 mm"
opening_height = "50 mm"
faces_house = false
spread_area = "1000 m2"
[outlet]
kind = "lid"
level = "2 cm"
lid_opening_head = "2 cm"
spread_area = "1000 m2"
[water]
cycles = "every 6 h for 15 s"
`

// spell is days at one mean [°C].
type spell struct {
	days int
	mean float64
}

// inventedDays is an hourly record of spells, with a daily wave.
func inventedDays(spells ...spell) *weather.Series {
	s := &weather.Series{Source: "invented days", Start: time.Date(2026, 1, 10, 0, 0, 0, 0, time.UTC)}
	for _, p := range spells {
		for range 24 * p.days {
			hour := float64(len(s.Time))
			s.Time = append(s.Time, 3600*hour)
			s.Air = append(s.Air, p.mean-4*math.Cos(2*math.Pi*(hour-4)/24))
			s.Wind = append(s.Wind, 3)
		}
	}
	return s
}

// runAt runs a layout as finely as wanted.
func runAt(ctx context.Context, text string, s *weather.Series, w sim.Supply, f Fineness) (*sim.Result, error) {
	l, err := readLayout(text)
	if err != nil {
		return nil, err
	}
	p, problems := l.MakeProfile(l.Title)
	if len(problems) > 0 {
		return nil, problems
	}
	k, err := sim.NewCase(l.Title, l, p, s, w)
	if err != nil {
		return nil, err
	}
	return sim.Run(ctx, k, f.settings())
}

// buriedMeasures are those of the buried cell in six weeks of frost.
func buriedMeasures(ctx context.Context, f Fineness) ([]measure, error) {
	s := inventedDays(spell{5, 4}, spell{40, -9}, spell{10, 4})
	r, err := runAt(ctx, buriedText, s, sim.Supply{Given: true, Cycles: []pipe.Cycle{}}, f)
	if err != nil {
		return nil, err
	}
	return append(segmentMeasures(r.Segments[0]), measure{"frost depth", "", deepest(r), needFrost}), nil
}

// houseMeasures are those of the house in two weeks.
func houseMeasures(ctx context.Context, f Fineness) ([]measure, error) {
	r, err := runAt(ctx, houseText, inventedDays(spell{1, 4}, spell{5, -14}, spell{8, 8}), sim.Supply{}, f)
	if err != nil {
		return nil, err
	}
	v := r.Verdict
	all := []measure{
		{"first ice", "line", orNaN(v.FirstIce), needInstant},
		{"closing", "line", orNaN(v.Closed), needInstant},
		{"closing, by slush", "line", orNaN(v.ClosedDendritic), needInstant},
		{"opening", "line", orNaN(v.Reopened), needInstant},
		{"time shut", "line", v.ShutFor, needLength},
		{"water out of relief", "", r.Ledger.Relief, needWater},
		{"frost depth", "", deepest(r), needFrost},
	}
	for _, s := range r.Segments {
		if s.Setting != pipe.Buried {
			continue
		}
		all = append(all, segmentMeasures(s)...)
	}
	return all, nil
}

// segmentMeasures are those of a segment.
func segmentMeasures(s sim.SegmentResult) []measure {
	return []measure{
		{"heat lost", s.Name, s.HeatLost, needHeat},
		{"largest ice", s.Name, s.LargestIce, needIce},
		{"time with ice", s.Name, 3600 * s.HoursWithIce, needLength},
		{"first ice", s.Name, orNaN(s.FirstIce), needInstant},
		{"closing", s.Name, orNaN(s.Closed), needInstant},
		{"coldest water", s.Name, s.LowestWater, needColdest},
	}
}

func deepest(r *sim.Result) float64 {
	most := 0.0
	for _, z := range r.Hourly.Frost {
		most = max(most, z)
	}
	return most
}

func orNaN(p *float64) float64 {
	if p == nil {
		return math.NaN()
	}
	return *p
}
