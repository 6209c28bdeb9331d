package report

import (
	"os"
	"strings"
	"testing"
)

// The README's table of what is neglected and the page's are one.
func TestNeglectedIsTheREADMEs(t *testing.T) {
	text, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, ok := strings.Cut(string(text), "| neglected | the result is then |\n|---|---|\n")
	table, _, ends := strings.Cut(table, "\n\n")
	if !ok || !ends {
		t.Fatal("the README has lost its table of what is neglected")
	}
	var want []string
	for _, n := range neglectedThings {
		want = append(want, "| "+n.What+" | "+n.Then+" |")
	}
	if got := strings.Split(table, "\n"); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("the README has\n%s\nthe page\n%s", table, strings.Join(want, "\n"))
	}
}

// The leaning agrees with the words that stand beside it.
func TestLeaningsAgreeWithWords(t *testing.T) {
	for _, n := range neglectedThings {
		unsafe := strings.Contains(n.Then, "**unsafe** side")
		safe := strings.Contains(n.Then, "on the safe side")
		want := leansHardly
		switch {
		case unsafe && safe, strings.HasPrefix(n.Then, "either"):
			want = leansEither
		case unsafe:
			want = leansUnsafe
		case safe:
			want = leansSafe
		}
		if n.Leans != want {
			t.Errorf("%q: leaning %v, words say %v", n.Then, n.Leans, want)
		}
	}
}
