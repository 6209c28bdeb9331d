package pipe

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"winterline/pipe/units"
)

// Edit is one change to a layout, made on the text's values before they are bound, so that an
// edited layout is identical to one with the change written into the file.
//
// Path names the key, such as `segment[2].insulation[0].thickness` (counted from 0) or, by the
// segment's name, `yard run.cover`. Missing tables are made; the index one past the end appends.
// Value is what stands after the equals sign, with or without quotes around a single text. An
// empty Value removes the key, table or list item.
type Edit struct{ Path, Value string }

// step is one part of a path: a key, then any indices after it.
type step struct {
	key     string
	indices []int
}

// apply makes the edits in order.
func applyEdits(file string, root *node, edits []Edit) units.Problems {
	var ps units.Problems
	for _, e := range edits {
		if err := applyEdit(root, e); err != nil {
			ps = append(ps, units.At(file, 0, e.Path, err))
		}
	}
	return ps
}

func applyEdit(root *node, e Edit) error {
	at, rest, err := editStart(root, e.Path)
	if err != nil {
		return err
	}
	steps, err := parsePath(rest)
	if err != nil {
		return err
	}
	for _, s := range steps[:len(steps)-1] {
		if at, err = at.enter(s); err != nil {
			return err
		}
	}
	last := steps[len(steps)-1]
	if e.Value == "" {
		return at.drop(last)
	}
	return at.put(last, editValue(e.Value))
}

// editStart resolves a segment's name at the head of a path; a table of that name goes first.
func editStart(root *node, path string) (*node, string, error) {
	segments := root.children["segment"]
	if segments == nil {
		return root, path, nil
	}
	for _, s := range segments.items {
		name := s.children["name"]
		if name == nil || topKey(name.text) {
			continue
		}
		head := strings.TrimSpace(name.text) + "."
		if len(path) > len(head) && strings.EqualFold(path[:len(head)], head) {
			return s, path[len(head):], nil
		}
	}
	head, _, _ := strings.Cut(path, ".")
	head, _, _ = strings.Cut(head, "[")
	if topKey(head) {
		return root, path, nil
	}
	known := append(segmentNames(segments), topKeys...)
	return nil, "", &units.Error{Found: strconv.Quote(head), Expected: "a segment's name or a table of the layout" + nearestHint(head, known)}
}

func segmentNames(segments *node) []string {
	var names []string
	for _, s := range segments.items {
		if name := s.children["name"]; name != nil && name.kind == stringNode {
			names = append(names, name.text)
		}
	}
	return names
}

// parsePath reads `insulation[0].thickness`.
func parsePath(path string) ([]step, error) {
	bad := &units.Error{Found: strconv.Quote(units.Shorten(path)), Expected: "a path such as segment[2].insulation[0].thickness or yard run.cover"}
	var steps []step
	for _, part := range strings.Split(path, ".") {
		key, rest, indexed := strings.Cut(part, "[")
		s := step{key: strings.TrimSpace(key)}
		if s.key == "" || len(steps) > maxDepth {
			return nil, bad
		}
		for indexed {
			var digits string
			var closed bool
			digits, rest, closed = strings.Cut(rest, "]")
			i, err := strconv.Atoi(digits)
			if !closed || err != nil || i < 0 || len(s.indices) > 1 {
				return nil, bad
			}
			s.indices = append(s.indices, i)
			if indexed = strings.HasPrefix(rest, "["); indexed {
				rest = rest[1:]
			} else if rest != "" {
				return nil, bad
			}
		}
		steps = append(steps, s)
	}
	return steps, nil
}

// enter goes into the table that a step names, making it where it is missing.
func (n *node) enter(s step) (*node, error) {
	child, err := n.child(s, func() *node { return newTable(0) })
	if err == nil && child.kind != tableNode {
		err = &units.Error{Found: "a value at " + s.key, Expected: "a table there"}
	}
	return child, err
}

// child returns the value that a step names; fresh makes a missing one.
func (n *node) child(s step, fresh func() *node) (*node, error) {
	c := n.children[s.key]
	if c == nil {
		if c = fresh(); len(s.indices) > 0 {
			c = &node{kind: arrayNode}
		}
		n.set(s.key, c)
	}
	for depth, i := range s.indices {
		if c.kind != arrayNode || i > len(c.items) {
			return nil, &units.Error{Found: fmt.Sprintf("%s[%d]", s.key, i), Expected: fmt.Sprintf("an index up to %d", len(c.items))}
		}
		if i == len(c.items) {
			item := &node{kind: arrayNode}
			if depth == len(s.indices)-1 {
				item = fresh()
			}
			c.items = append(c.items, item)
		}
		c = c.items[i]
	}
	return c, nil
}

// alternatives are keys of which a table takes only one (or one group): writing one by an edit
// takes the others out.
var alternatives = map[string][]string{
	"rise": {"drop", "slope"}, "drop": {"rise", "slope"}, "slope": {"rise", "drop"},
	"diameter": {"area"}, "area": {"diameter"},
	"pipe": {"outside_diameter", "wall", "material"}, "outside_diameter": {"pipe"},
	"ground_slope": {"ground_point"}, "ground_point": {"ground_slope"},
	"cycles": {"arrives"}, "arrives": {"cycles"},
}

func (n *node) put(s step, value *node) error {
	if len(s.indices) == 0 {
		for _, other := range alternatives[s.key] {
			n.remove(other)
		}
		n.set(s.key, value)
		return nil
	}
	at, err := n.child(s, func() *node { return &node{} })
	if err != nil {
		return err
	}
	*at = *value
	return nil
}

// drop takes a key or a list item out; one that is not there is no fault.
func (n *node) drop(s step) error {
	if len(s.indices) == 0 {
		n.remove(s.key)
		return nil
	}
	list := n.children[s.key]
	for depth, i := range s.indices {
		if list == nil || list.kind != arrayNode || i >= len(list.items) {
			return nil
		}
		if depth == len(s.indices)-1 {
			list.items = append(list.items[:i:i], list.items[i+1:]...)
			return nil
		}
		list = list.items[i]
	}
	return nil
}

// editValue reads what stands after the equals sign; anything that is no TOML value is a text.
func editValue(text string) *node {
	plain := &node{kind: stringNode, text: text}
	r := &tomlReader{root: newTable(0)}
	r.parser.Reset([]byte("value = " + text))
	if !r.parser.NextExpression() {
		return plain
	}
	e := r.parser.Expression()
	if e.Kind != unstable.KeyValue {
		return plain
	}
	value := r.value(e.Value(), 0, 0)
	if r.parser.NextExpression() || r.parser.Error() != nil || len(r.problems) > 0 {
		return plain
	}
	unline(value)
	return value
}

// unline takes the line numbers of an edit off: they would point into the layout file.
func unline(n *node) {
	n.line = 0
	for _, item := range n.items {
		unline(item)
	}
	for _, key := range n.keys {
		unline(n.children[key])
	}
}
