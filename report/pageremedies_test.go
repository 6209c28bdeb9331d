package report

import (
	"slices"
	"strings"
	"testing"

	"winterline/sim"
	"winterline/sim/answers"
)

// whyPageOf are the words of the page of an answer.
func whyPageOf(t *testing.T, a *WhyAnswer) string {
	t.Helper()
	o := fullPage(a.Result, US)
	o.Why, o.Sure, o.Charts = a, a.Sure, nil
	return skeleton(pageOf(t, a.Result, o))
}

// What `why` found stands on the page: changes as a table with the winter as it was above them, what is not possible, the
// winter without the relief opening, and what to write. The screen holds the same rows.
func TestPageRemedies(t *testing.T) {
	a := whySample()
	pair := a.Remedies.Singles[1]
	pair.Changes = slices.Concat(a.Remedies.Singles[2].Changes, a.Remedies.Singles[3].Changes)
	a.Remedies.Pairs = []answers.Remedy{pair}
	text := whyPageOf(t, a)
	at := 0
	for _, want := range []string{
		"li: " + unshout(whyFar), "h3: What you saw, and what the simulation has", "h2: What would have helped", "p: Line laid deeper: 24 in (0.60 m) of soil on top of the yard run: in this winter",
		"th: As it was\ntd: shut 18 days", "th: Line laid deeper", "td: Enough.", "td: Helps, but is not enough. The pump starts up to",
		"h3: No effect", "li: Backup pump on the same line", "h3: Makes it worse", "li: Sag of", "(line shut 20 days; ", "h3: Not possible here", "dd: The line's end would lie under the ground there.",
		"h3: Two changes together", "th: As it was", "th: Backup pump on the same line AND sag", "p: The same winter WITHOUT the relief opening", "li: yard run.cover = ",
	} {
		next := strings.Index(text[at:], want)
		if next < 0 {
			t.Fatalf("no %q behind\n%s\nin\n%s", want, text[:at], text)
		}
		at += next
	}
	if strings.Contains(text, "winterline why") {
		t.Error("the page of why sends its reader to why")
	}
}

// What the page of `why` says where nothing had to be mended or nothing can be, and that the page of a run sends those to
// `why` who have something to mend.
func TestPageRemediesWording(t *testing.T) {
	for _, c := range []whyTurn{
		{"nothing froze", func(a *WhyAnswer) {
			a.Result, a.Remedies, a.Seen, a.Sure = plain(sim.Clear), &answers.Remedies{}, nil, nil
		},
			[]string{"dt: Power cut", "dt: Stuck float", "h3: What else wets a basement"}, []string{"What would have helped", unshout(whyFar)}},
		{"ice alone", func(a *WhyAnswer) {
			a.Remedies.Base.Toll = answers.Toll{State: sim.Iced}
			a.Remedies.Singles = a.Remedies.Singles[1:]
		}, []string{"p: " + whyHeld, "td: Leaves more room. The pump starts"}, []string{"not enough", "dt: Power cut", "To try the best"}},
		{"nothing is enough", func(a *WhyAnswer) { a.Remedies.Singles, a.Remedies.Reverse = a.Remedies.Singles[1:], nil }, []string{"p: " + whyNoSingle}, []string{"good for", "To try"}},
		{"dry, though shut", func(a *WhyAnswer) { a.Remedies.Singles[0].Effect = answers.KeepsDry }, []string{"would have kept the house dry, though"}, nil},
	} {
		a := whySample()
		c.change(a)
		text := whyPageOf(t, a)
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in\n%s", c.name, want, text)
			}
		}
		for _, never := range c.never {
			if strings.Contains(text, never) {
				t.Errorf("%s: the page has %q", c.name, never)
			}
		}
	}
	for state, want := range map[sim.State]bool{sim.Clear: false, sim.Iced: true, sim.Flooded: true} {
		r := plain(state)
		if got := strings.Contains(skeleton(pageOf(t, r, PageOptions{})), "winterline why"); got != want {
			t.Errorf("%v: names the command: %v", state, got)
		}
	}
}
