package main

import (
	"errors"
	"fmt"
	"strings"

	"winterline/pipe"
	"winterline/report"
)

// parseSet reads a change, "NAME: KEY=VALUE; KEY=VALUE". Without a name the changes are its name.
func parseSet(text string) (name string, edits []pipe.Edit, err error) {
	rest := text
	if head, _, found := strings.Cut(text, "="); found {
		if before, _, named := strings.Cut(head, ": "); named {
			name, rest = strings.TrimSpace(before), text[len(before)+2:]
		}
	}
	for _, part := range unquotedParts(rest, ';') {
		if strings.TrimSpace(part) == "" {
			continue
		}
		path, value, found := strings.Cut(part, "=")
		path, value = strings.TrimSpace(path), strings.TrimSpace(value)
		if !found || path == "" {
			return "", nil, fmt.Errorf("found %q; expected a change such as \"yard run.cover=30 in\"", strings.TrimSpace(part))
		}
		edits = append(edits, pipe.Edit{Path: path, Value: value})
	}
	if len(edits) == 0 {
		return "", nil, errors.New(`found no change; expected one such as "yard run.cover=30 in"`)
	}
	if name == "" {
		name = report.WrittenChange(edits)
	}
	return name, edits, nil
}

// unquotedParts cuts a text at a sign where it stands outside of quotes.
func unquotedParts(text string, at byte) (parts []string) {
	from, quoted := 0, false
	for i := range len(text) {
		switch {
		case text[i] == '"':
			quoted = !quoted
		case text[i] == at && !quoted:
			parts, from = append(parts, text[from:i]), i+1
		}
	}
	return append(parts, text[from:])
}

// setsWater says whether changes say how much water comes.
func setsWater(edits []pipe.Edit) bool {
	for _, e := range edits {
		if e.Path == "water" || e.Path == "water.cycles" || e.Path == "water.arrives" {
			return true
		}
	}
	return false
}
