package pipe

import (
	"strings"

	"winterline/pipe/units"
)

// exchange binds what may stand for film, cover and snow together, a surface resistance or n-factors.
// It says whether neither does: then, and only then, cover, snow and wind count.
func (b *binder) exchange(s, override *scope, site *Site) bool {
	site.NFactor = s.nFactor()
	if override != nil {
		site.SurfaceResistance = override.optional("surface_resistance", units.ThermalResistance, limit{1e-6, 100, "from 0.000001 to 100 m2K/W"})
	}
	if site.NFactor != nil && site.SurfaceResistance != nil {
		s.problem("n_factor", "n-factors beside soil_override.surface_resistance", "one or the other: each replaces film, cover and snow")
	}
	return site.NFactor == nil && site.SurfaceResistance == nil
}

// nFactor binds n_factor, both of them or none.
func (s *scope) nFactor() *NFactor {
	n, st := s.get("n_factor")
	if st != given {
		return nil
	}
	if n.kind != tableNode {
		s.problem("n_factor", describe(n), "the surface's indices over the air's, such as { freezing = 0.7, thawing = 1.4 }")
		return nil
	}
	t := s.table("n_factor")
	defer t.finish()
	within := limit{0, 3, "from 0 to 3"}
	freezing, _ := t.required("freezing", units.Fraction, within)
	thawing, _ := t.required("thawing", units.Fraction, within)
	return &NFactor{freezing, thawing}
}

// surface binds what covers the ground and how much of the snow lies on it, for the site and for
// the segments that have a surface of their own.
func (b *binder) surface(s *scope, counts bool, l *Layout) {
	site := &l.Site
	i, st := s.word("surface", surfaceNames)
	site.Surface = Surface(i)
	if counts && (st == missing || st == unknown) {
		s.guessWord("surface", defaults["site.surface"])
	}
	share, st := s.snowShare()
	if st == missing || st == unknown {
		share = s.guess("snow_on_line", units.Fraction, snowDefault(site.Surface), counts)
	}
	site.SnowOnLine = share
	for i := range l.Segments {
		b.ownSurface(l, i, st == given, counts)
	}
}

// snowDefault is the snow on a surface where nothing is said of it.
func snowDefault(cover Surface) fallback {
	if cover == Paved {
		return defaults["site.snow_paved"]
	}
	return defaults["site.snow_on_line"]
}

// snowShare reads snow_on_line.
func (s *scope) snowShare() (float64, state) {
	n, st := s.get("snow_on_line")
	if st != given {
		return 0, st
	}
	switch strings.ToLower(strings.TrimSpace(n.text)) {
	case "natural":
		return 1, given
	case "cleared":
		return 0, given
	}
	if n.kind == stringNode && !strings.ContainsAny(n.text, "0123456789") {
		s.problem("snow_on_line", describe(n), `"natural", "cleared", or a share of the recorded depth such as 0.5`+suggest(n.text, []string{"natural", "cleared"}))
		return 0, faulty
	}
	v, ok := s.measure(n, "snow_on_line", units.Fraction, limit{0, 10, "from 0 to 10"})
	if !ok {
		return 0, faulty
	}
	return v, given
}

// segmentSurface binds a surface and its snow that differ from the site's over one segment.
func (t *scope) segmentSurface(seg *Segment, buried, settingKnown bool) {
	if i, st := t.word("surface", surfaceNames); st == given {
		cover := Surface(i)
		seg.Surface = &cover
	}
	if share, st := t.snowShare(); st == given {
		seg.SnowOnLine = &share
	}
	for _, key := range []string{"surface", "snow_on_line"} {
		if n, st := t.get(key); st == given && settingKnown && !buried {
			t.problem(key, describe(n)+" over a segment that is not buried", "no "+key+`, or setting = "buried"`)
		}
	}
}

// ownSurface completes segment i once the site is known. A segment under another surface than the
// site's has the snow of that surface where nothing is said of it: paving is cleared, beside cleared
// paving snow lies as it falls, and other surfaces share what is written for the site.
func (b *binder) ownSurface(l *Layout, i int, snowWritten, counts bool) {
	seg := &l.Segments[i]
	if seg.Surface == nil && seg.SnowOnLine == nil {
		return
	}
	t := b.scope(newTable(seg.Line), segmentPath(seg.Name, i), "segment")
	if l.Site.NFactor != nil || l.Site.SurfaceResistance != nil {
		t.problem("", "a surface or snow of its own", "none beside site.n_factor or site.soil_override.surface_resistance: these replace cover and snow over the whole line")
		return
	}
	differs := seg.Surface != nil && *seg.Surface != l.Site.Surface
	if seg.SnowOnLine == nil && differs && (*seg.Surface == Paved || l.Site.Surface == Paved && !snowWritten) {
		share := t.guess("snow_on_line", units.Fraction, snowDefault(*seg.Surface), counts)
		seg.SnowOnLine = &share
	}
}
