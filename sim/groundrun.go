package sim

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"winterline/pipe"
	"winterline/weather"
)

// GroundCase is what the undisturbed ground is computed from. It is read only.
type GroundCase struct {
	Name     string
	Invented bool // the built-in demonstration
	Layout   *pipe.Layout
	Profile  *pipe.Profile
	Weather  *weather.Series
}

// GapError says that a thermometer which is to drive the ground was silent for too long.
type GapError struct {
	From, To float64 // last reading before the gap and first after it, or the record's ends [s]
}

// Error gives the length of the gap.
func (e *GapError) Error() string {
	return fmt.Sprintf("no reading for %.0f h", (e.To-e.From)/3600)
}

// SimulateGround computes the ground through the record under the site's own surface. An error
// means that a step did not converge, that the run was cancelled, or a *GapError.
func SimulateGround(ctx context.Context, k *GroundCase, s GroundSettings) (*GroundResult, error) {
	layout := asDryAsRecorded(k.Layout, k.Weather)
	site := &layout.Site
	all := newGrounds(site, k.Weather, newSky(k.Weather, site.WindExposure))
	g := all.own()
	if t := s.SurfaceFrom; t != nil {
		record, err := bridged(t.Temp, k.Weather.Time)
		if err != nil {
			return nil, err
		}
		g.below(t.Depth, record)
	}
	depths := s.Depths
	if depths == nil {
		depths = DefaultDepths
	}
	if n := len(depths) * len(k.Weather.Time); n > maxGroundValues {
		return nil, &LimitError{fmt.Sprintf("%d depths at %d weather rows, %d temperatures", len(depths), len(k.Weather.Time), n), fmt.Sprintf("at most %d; fewer depths or a part of the record", maxGroundValues)}
	}
	g.show(depths)
	if s.SurfaceFrom == nil {
		for i, segment := range layout.Segments {
			if segment.Setting == pipe.Buried {
				cover, snow := layout.Over(i)
				all.under(groundKey{cover, snow}).show(depths)
			}
		}
	}
	for i, one := range all.list {
		progress := s.Progress
		if i > 0 {
			progress = nil
		}
		if err := one.run(ctx, newStepper(s.Stepping), progress); err != nil {
			return nil, err
		}
	}
	r := all.result(k, layout)
	r.Guesses = append(r.Guesses, groundGuesses(site, k.Weather)...)
	return r, nil
}

// below lets a thermometer at a depth [m] drive the ground from there down.
func (g *ground) below(depth float64, record []float64) {
	g.above = depth
	g.surface = &surface{cover: g.key.cover, drive: ThermometerDrive, measured: record, air: g.s.Air}
	if g.firstYear == 0 {
		return // part of a year gives no mean: the layout's or the supposed one stands
	}
	mean := 0.0
	for _, t := range record {
		mean += t / float64(len(record))
	}
	g.mean = pick(g.site.GroundMean, mean)
}

// longestBridge is the longest silence of a driving thermometer that is bridged [s].
const longestBridge = 6 * 3600

// bridged joins the readings around short gaps.
func bridged(temps, times []float64) ([]float64, error) {
	out := slices.Clone(temps)
	last := -1
	for i := 0; i <= len(out); i++ {
		if i < len(out) && math.IsNaN(out[i]) {
			continue
		}
		if i > last+1 {
			if err := bridge(out, times, last, i); err != nil {
				return nil, err
			}
		}
		last = i
	}
	return out, nil
}

// bridge fills the rows between a and b, which have readings unless they lie outside; at an end of
// the record the nearest reading holds.
func bridge(out, times []float64, a, b int) error {
	gap := &GapError{times[max(a, 0)], times[min(b, len(out)-1)]}
	if silent := gap.To - gap.From - (times[1] - times[0]); silent > longestBridge || a < 0 && b == len(out) {
		return gap
	}
	for i := a + 1; i < b; i++ {
		switch {
		case a < 0:
			out[i] = out[b]
		case b == len(out):
			out[i] = out[a]
		default:
			out[i] = out[a] + (out[b]-out[a])*(times[i]-times[a])/(times[b]-times[a])
		}
	}
	return nil
}

// result gathers what was kept under the site's own surface, and under the others that were run.
func (g *grounds) result(k *GroundCase, l *pipe.Layout) *GroundResult {
	var own *GroundResult
	for i, one := range g.list {
		if i > 0 && one.frost == nil {
			continue
		}
		r := one.result(l)
		r.Name, r.Title, r.Invented, r.Profile = k.Name, l.Title, k.Invented, k.Profile
		if i == 0 {
			own = r
			continue
		}
		r.Measured = nil
		own.Others = append(own.Others, r)
	}
	return own
}

// result gathers what was kept.
func (g *ground) result(l *pipe.Layout) *GroundResult {
	r := &GroundResult{
		Start: g.s.Start, Layout: l, Time: g.s.Time, Air: g.surface.air, Field: g.field,
		Surface:      GroundSurface{Cover: g.key.cover, Drive: g.surface.drive, SnowKind: g.sky.pack.Kind, SnowOn: g.key.snowOn, Depth: g.above},
		HeatRelative: g.balance, SpinUpYears: g.years, Guesses: g.guesses(l.Guesses), Warnings: append(recordWarnings(g.s), g.warnings()...),
	}
	if depth := g.sky.pack.Depth; depth != nil {
		r.Snow = make([]float64, len(depth))
		for i, d := range depth {
			r.Snow[i] = d * g.key.snowOn
		}
	}
	for _, f := range g.frost {
		r.FrostTop, r.FrostBottom, r.Frozen = append(r.FrostTop, f.top), append(r.FrostBottom, f.bottom), append(r.Frozen, f.thickness)
	}
	for _, t := range g.order {
		if !t.shown {
			continue
		}
		r.Tracks = append(r.Tracks, GroundTrack{Depth: t.depth, Temp: t.temperatures()})
	}
	slices.SortFunc(r.Tracks, func(a, b GroundTrack) int { return cmp.Compare(a.Depth, b.Depth) })
	r.Seasons = frostSeasons(r)
	r.Measured = measuredDepths(g.s, r.Tracks)
	return r
}

// guesses are those of a layout that the ground rests on.
func (g *ground) guesses(all []pipe.Guess) []pipe.Guess {
	var out []pipe.Guess
	for _, guess := range all {
		about := map[string]bool{
			"site.ground_mean": true, "site.ground_swing": true, "site.topsoil": true,
			"site.surface": g.surface.covered(), "site.snow_on_line": g.surface.covered(), "site.wind_exposure": g.surface.drive == EnergyDrive,
		}[guess.Key]
		ownSurface := strings.HasSuffix(guess.Key, ".snow_on_line") && g.surface.covered()
		if about || ownSurface || strings.HasPrefix(guess.Key, "site.soil") || strings.HasPrefix(guess.Key, "site.layer") {
			out = append(out, guess)
		}
	}
	return out
}

// notSettled warns of a spin-up that gave up.
func (g *ground) notSettled() Warning {
	return Warning{"ground-not-settled", "The ground did not reach a steady yearly cycle before the record; deep temperatures may drift by more than 0.002 °C (0.004 °F) a year."}
}

// warnings are what the reader of the ground must know.
func (g *ground) warnings() []Warning {
	var out []Warning
	if !g.settled {
		out = append(out, g.notSettled())
	}
	if g.firstYear == 0 {
		out = append(out, Warning{"short-record", fmt.Sprintf("The record is shorter than a year (%.0f days): the ground before it was worked out from its annual mean and swing alone, without snow. How deep the frost goes rests on those two numbers as well.",
			g.s.End()/86400)})
	}
	if first := g.s.Start.Month(); g.sky.pack.Kind == weather.SnowModelled && (first >= time.December || first <= time.March) {
		out = append(out, Warning{"snow-starts-bare", "The record starts in winter, and the snow that is worked out from snowfall starts at nothing there: the first winter freezes deeper than it did (safe side)."})
	}
	if step := g.s.End() / float64(len(g.s.Time)-1); step > 3.5*3600 {
		out = append(out, Warning{"coarse-rows", fmt.Sprintf("Rows of weather are about %.0f h apart: nights are cut short, and the frost comes out too shallow (unsafe side).", step/3600)})
	}
	if g.surface.drive == AirDrive && g.sky.pack.Kind == weather.SnowNone && g.surface.resistance == nil {
		out = append(out, Warning{"no-snow-record", "No snow depth in the weather: the ground is taken as bare, and freezes deeper than under snow (safe side)."})
	}
	return out
}
