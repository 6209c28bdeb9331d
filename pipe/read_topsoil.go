package pipe

// topsoilWords are what may lie uppermost under grass.
var topsoilWords = []string{"lawn", "none"}

// topsoil binds what lies uppermost under grass: the topsoil of a lawn, where a texture class alone
// says what the ground is, or none.
func (b *binder) topsoil(s *scope, hand byHand, counts bool, l *Layout) {
	i, st := s.word("topsoil", topsoilWords)
	site := &l.Site
	t, ok := findTexture(site.Soil.Texture)
	described := len(site.Layers) > 0 || hand.describes()
	switch {
	case st == given && i == 0 && described:
		s.problem("topsoil", describe(s.node.children["topsoil"])+" beside layers or a soil_override", "one or the other: those say what lies uppermost")
		return
	case st == faulty, described, !ok, !t.hasTopsoil(), !l.underGrass():
		return
	case st == missing || st == unknown:
		if counts {
			s.guessWord("topsoil", defaults["site.topsoil"])
		}
	case i == 1:
		return
	}
	site.Topsoil = t.topsoil(site.Soil)
}

// underGrass says whether any of the ground is under grass.
func (l *Layout) underGrass() bool {
	if l.Site.Surface == Grass {
		return true
	}
	for _, s := range l.Segments {
		if s.Surface != nil && *s.Surface == Grass {
			return true
		}
	}
	return false
}
