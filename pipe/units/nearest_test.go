package units

import "testing"

func TestNearest(t *testing.T) {
	known := []string{"length", "rise", "drop", "slope", "float_on", "wind_exposure", "closed-cell foam"}
	for _, c := range []struct{ word, want string }{
		{"lenght", "length"}, {"Length", "length"}, {"ries", "rise"}, {"flaot on", "float_on"}, {"wind exposure", "wind_exposure"},
		{"closed cell foam", "closed-cell foam"}, {"colour", ""}, {"", ""}, {"slop", "slope"},
	} {
		if got := Nearest(c.word, known); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.word, got, c.want)
		}
	}
	if got := Nearest("x", nil); got != "" {
		t.Errorf("nothing known, yet %q", got)
	}
}

// The distances are the classical examples: Levenshtein's kitten and sitting 3, a swap of
// neighbours 1 (Damerau 1964), and ca to abc 3 under optimal string alignment.
func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"teh", "the", 1}, {"ca", "abc", 3}, {"", "abc", 3}, {"same", "same", 0}} {
		if got := distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}
