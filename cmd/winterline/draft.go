package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"winterline/pipe"
	"winterline/pipe/units"
)

// draft is the text of a layout.toml in which each key stands on a line of its own, so
// that values can be put in without losing the comments.
type draft struct {
	lines []string
	err   error // the first edit that found no place: the text is not the one expected
}

func newDraft(text []byte) *draft {
	return &draft{lines: strings.Split(string(text), "\n")}
}

func (d *draft) text() []byte { return []byte(strings.Join(d.lines, "\n")) }

func (d *draft) copy() *draft { return &draft{slices.Clone(d.lines), d.err} }

// set puts a value, as it stands behind the equals sign, on a key of a section: a table's
// name, or a segment's. A key that is not there is added behind the section's last.
func (d *draft) set(section, key, value string) {
	from, to := d.section(section)
	last := from
	for i := from; i < to; i++ {
		name, _, isKey := strings.Cut(d.lines[i], " = ")
		switch {
		case isKey && name == key:
			d.lines[i] = key + " = " + value
			return
		case isKey && !strings.HasPrefix(name, "#"):
			last = i
		}
	}
	if last > 0 {
		d.lines = slices.Insert(d.lines, last+1, key+" = "+value)
	}
}

// remark puts a comment above a key of a section.
func (d *draft) remark(section, key, words string) {
	from, to := d.section(section)
	for i := from; i < to; i++ {
		if strings.HasPrefix(d.lines[i], key+" = ") {
			d.lines = slices.Insert(d.lines, i, "# "+words)
			return
		}
	}
}

// leaveOut makes a table a comment.
func (d *draft) leaveOut(section string) {
	from, to := d.section(section)
	for i := from; i < to; i++ {
		if d.lines[i] != "" && !strings.HasPrefix(d.lines[i], "#") {
			d.lines[i] = "# " + d.lines[i]
		}
	}
}

// add puts a section of its own at the end.
func (d *draft) add(lines ...string) {
	end := len(d.lines)
	for end > 0 && d.lines[end-1] == "" {
		end--
	}
	d.lines = append(append(append(d.lines[:end:end], ""), lines...), "")
}

// section gives the lines from a section's header to the next header; "" is what stands
// before all sections.
func (d *draft) section(name string) (from, to int) {
	from = -1
	if name == "" {
		from = 0
	}
	for i, line := range d.lines {
		header := strings.HasPrefix(line, "[")
		if header && from >= 0 {
			return from, i
		}
		if header && strings.Trim(line, "[]") == name {
			from = i
		}
		if line == fmt.Sprintf("name = %q", name) {
			from = i
		}
	}
	if from < 0 {
		d.err = fmt.Errorf("the starter layout has no section %q", name)
		return 0, 0
	}
	return from, len(d.lines)
}

// problems reads the draft as a layout.
func (d *draft) problems() units.Problems {
	const name = "layout.toml"
	layout, problems := pipe.ReadLayout(name, bytes.TrimSpace(d.text()))
	if layout == nil {
		return problems
	}
	_, problems = layout.MakeProfile(name)
	return problems
}
