package sim

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

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
