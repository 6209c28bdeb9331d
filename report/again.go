package report

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"maps"
	"slices"
)

// Repeat says of every table of a run whether it came out the same again.
type Repeat struct {
	Tables    []TableRepeat
	Then, Now string // versions of the program
}

// TableRepeat is one table made twice.
type TableRepeat struct {
	Name       string
	Then, Now  bool // it was written
	SameDigest bool
}

// Same says whether it is identical, which a table that was written but once is not.
func (t TableRepeat) Same() bool { return t.Then && t.Now && t.SameDigest }

// Compare holds the tables of a run against those made now, by their digests.
func (r *RunRecord) Compare(now map[string]string, version string) *Repeat {
	all := maps.Clone(now)
	maps.Copy(all, r.Tables)
	out := &Repeat{Then: r.Version, Now: version}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		a, then := r.Tables[name]
		b, again := now[name]
		out.Tables = append(out.Tables, TableRepeat{name, then, again, a == b})
	}
	return out
}

// Differing counts the tables that are not identical.
func (r *Repeat) Differing() int {
	n := 0
	for _, t := range r.Tables {
		if !t.Same() {
			n++
		}
	}
	return n
}

// AgainBrief tells in one line whether a run came out the same.
func AgainBrief(w io.Writer, r *Repeat) error {
	line := fmt.Sprintf("THE SAME AGAIN. All %d tables are identical.", len(r.Tables))
	if n := r.Differing(); n > 0 {
		verb := "differ"
		if n == 1 {
			verb = "differs"
		}
		line = fmt.Sprintf("NOT THE SAME. %d of %d tables %s.", n, len(r.Tables), verb)
	}
	_, err := fmt.Fprintln(w, line)
	return err
}

// AgainScreen tells it table by table, and what may explain a difference. folder is where the tables of now are;
// "" for nowhere.
func AgainScreen(w io.Writer, r *Repeat, folder string) error {
	if err := AgainBrief(w, r); err != nil {
		return err
	}
	for _, t := range r.Tables {
		word := "identical"
		switch {
		case !t.Now:
			word = "not written this time"
		case !t.Then:
			word = "not written then"
		case !t.SameDigest:
			word = "differs"
		}
		fmt.Fprintf(w, "  %-14s %s\n", t.Name, word)
	}
	if r.Then != r.Now {
		fmt.Fprintf(w, "Version      then %s, now %s\n", r.Then, r.Now)
	}
	if r.Differing() > 0 {
		fmt.Fprintln(w, "Mind         The inputs are those of the run. Another version of the program, or another kind of")
		fmt.Fprintln(w, "             processor, may give other digits; --out DIR writes the tables of this time.")
	}
	if folder != "" {
		fmt.Fprintf(w, "Results      %s\n", folder)
	}
	return nil
}

// digest is the SHA-256 [hex] of what write writes.
func digest(write func(io.Writer) error) (string, error) {
	sum := sha256.New()
	if err := write(sum); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
