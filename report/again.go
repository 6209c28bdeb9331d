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

// Same says whether the table was written both times, byte for byte the same.
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

// headline tells in one line whether a run came out the same.
func (r *Repeat) headline() string {
	line := fmt.Sprintf("THE SAME AGAIN. All %d tables are identical.", len(r.Tables))
	if n := r.Differing(); n > 0 {
		verb := "differ"
		if n == 1 {
			verb = "differs"
		}
		line = fmt.Sprintf("NOT THE SAME. %d of %d tables %s.", n, len(r.Tables), verb)
	}
	return line
}

// AgainBrief prints in one line whether a run came out the same.
func AgainBrief(w io.Writer, r *Repeat) error {
	p := newSheet(0)
	p.line(r.headline())
	return p.print(w)
}

// otherDigits says what may explain a difference.
const otherDigits = "The inputs are those of the run. Another version of the program, or another kind of processor, may give other digits; " +
	"--out DIR writes the tables of this time."

// AgainScreen prints it table by table, with what may explain a difference. folder is where the tables of this time are;
// "": nowhere.
func AgainScreen(w io.Writer, r *Repeat, folder string) error {
	p := newSheet(0)
	p.line(r.headline())
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
		p.line(fmt.Sprintf("  %-14s %s", t.Name, word))
	}
	if r.Then != r.Now {
		p.blocks(block{"Version", []string{"then " + r.Then + ", now " + r.Now}})
	}
	if r.Differing() > 0 {
		p.blocks(block{"Mind", []string{otherDigits}})
	}
	p.blocks(block{"Results", optional(folder)})
	return p.print(w)
}

// digest is the SHA-256 [hex] of what write writes.
func digest(write func(io.Writer) error) (string, error) {
	sum := sha256.New()
	if err := write(sum); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
