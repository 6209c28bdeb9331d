package pipe

import (
	"bytes"
	"sort"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"

	"winterline/pipe/units"
)

// MaxLayout is the largest layout file that is read [bytes].
const MaxLayout = 4 << 20

// nodeKind is the kind of a raw value.
type nodeKind int

const (
	tableNode nodeKind = iota
	arrayNode
	stringNode
	numberNode
	boolNode
	timeNode
	brokenNode // stood in a line that is no TOML; already reported
)

// node is a raw value of a layout: text as written, with the line it stands on. A table
// keeps its keys in the order of the file.
type node struct {
	kind     nodeKind
	text     string // strings without quotes, other scalars as written
	line     int
	keys     []string
	children map[string]*node
	items    []*node
	inline   bool // a table in braces or an array in brackets: headers cannot add to it
	headed   bool // a table that has had its [header]
}

func newTable(line int) *node {
	return &node{kind: tableNode, line: line, children: map[string]*node{}}
}

func (n *node) set(key string, child *node) {
	if _, there := n.children[key]; !there {
		n.keys = append(n.keys, key)
	}
	n.children[key] = child
}

func (n *node) remove(key string) {
	delete(n.children, key)
	for i, k := range n.keys {
		if k == key {
			n.keys = append(n.keys[:i:i], n.keys[i+1:]...)
			return
		}
	}
}

// tomlReader walks a TOML text into raw nodes.
type tomlReader struct {
	file     string
	text     []byte
	newlines []int // offsets of line ends
	base     int   // offset at which the parser was last started
	parser   unstable.Parser
	root     *node
	current  *node
	problems units.Problems
}

// readTOML turns a text into raw nodes. A line that is no TOML becomes a Problem and a broken
// node, and reading goes on with the next line where that is safe. The second result is false
// where the rest of the file could not be read.
func readTOML(file string, text []byte) (*node, bool, units.Problems) {
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	r := &tomlReader{file: file, text: text, root: newTable(1)}
	r.current = r.root
	for i, b := range text {
		if b == '\n' {
			r.newlines = append(r.newlines, i)
		}
	}
	r.parser.Reset(text)
	for {
		for r.parser.NextExpression() {
			r.expression(r.parser.Expression())
		}
		err := r.parser.Error()
		if err == nil {
			return r.root, true, r.problems
		}
		if !r.recover(err) {
			return r.root, false, r.problems
		}
	}
}

// lineAt returns the 1-based line of an offset into what the parser was last given.
func (r *tomlReader) lineAt(offset uint32) int {
	return sort.SearchInts(r.newlines, r.base+int(offset)) + 1
}

func (r *tomlReader) problem(line int, key, found, expected string) {
	r.problems = append(r.problems, units.Problem{File: r.file, Line: line, Key: key, Found: found, Expected: expected})
}

// expression takes one header or one key with its value.
func (r *tomlReader) expression(e *unstable.Node) {
	path, line := r.path(e)
	switch e.Kind {
	case unstable.Table:
		r.header(path, line)
	case unstable.ArrayTable:
		r.arrayHeader(path, line)
	case unstable.KeyValue:
		r.keyValue(r.current, path, line, e.Value(), 0)
	}
}

func (r *tomlReader) path(e *unstable.Node) (path []string, line int) {
	for it := e.Key(); it.Next(); {
		if len(path) == 0 {
			line = r.lineAt(it.Node().Raw.Offset)
		}
		path = append(path, string(it.Node().Data))
	}
	return path, line
}

// above begins a new table and returns the one that its header puts it into, and its name there.
// Keys under a header that is refused go into the new table and are dropped with it.
func (r *tomlReader) above(path []string, line int) (parent *node, name string, ok bool) {
	r.current = newTable(line)
	last := len(path) - 1
	parent, ok = r.descend(r.root, path[:last], line)
	return parent, path[last], ok
}

// header opens [a.b].
func (r *tomlReader) header(path []string, line int) {
	parent, name, ok := r.above(path, line)
	if !ok {
		return
	}
	child := parent.children[name]
	switch {
	case child == nil:
		child = newTable(line)
		parent.set(name, child)
	case child.kind != tableNode || child.headed || child.inline:
		r.problem(line, strings.Join(path, "."), "the table a second time", "each table once; this name was used before")
		return
	}
	child.headed, child.line = true, line
	r.current = child
}

// arrayHeader opens the next table of [[a.b]].
func (r *tomlReader) arrayHeader(path []string, line int) {
	parent, name, ok := r.above(path, line)
	if !ok {
		return
	}
	child := parent.children[name]
	switch {
	case child == nil:
		child = &node{kind: arrayNode, line: line}
		parent.set(name, child)
	case child.kind != arrayNode || child.inline:
		r.problem(line, strings.Join(path, "."), "[["+name+"]] where this name was used for something else", "one or the other")
		return
	}
	r.current.headed = true
	child.items = append(child.items, r.current)
}

// descend follows a dotted path through tables, making those that are missing.
func (r *tomlReader) descend(n *node, path []string, line int) (*node, bool) {
	for i, key := range path {
		child := n.children[key]
		if child == nil {
			child = newTable(line)
			n.set(key, child)
		}
		if child.kind == arrayNode && !child.inline && len(child.items) > 0 {
			child = child.items[len(child.items)-1] // the latest [[table]]
		}
		if child.kind == brokenNode {
			return nil, false
		}
		if child.kind != tableNode || child.inline {
			r.problem(line, strings.Join(path[:i+1], "."), "a value where a table is opened", "one or the other")
			return nil, false
		}
		n = child
	}
	return n, true
}

// keyValue puts a value under a possibly dotted key.
func (r *tomlReader) keyValue(table *node, path []string, line int, value *unstable.Node, depth int) {
	parent, ok := r.descend(table, path[:len(path)-1], line)
	if !ok {
		return
	}
	name := path[len(path)-1]
	if before := parent.children[name]; before != nil {
		if before.kind != brokenNode {
			r.problem(line, strings.Join(path, "."), "the key a second time", "each key once in its table")
		}
		return
	}
	parent.set(name, r.value(value, line, depth))
}

// maxDepth bounds the nesting of brackets and braces; a layout needs three.
const maxDepth = 16

// value turns a parsed value into a raw node; line is that of its key.
func (r *tomlReader) value(v *unstable.Node, line, depth int) *node {
	if v.Raw.Length > 0 {
		line = r.lineAt(v.Raw.Offset)
	}
	n := &node{text: string(v.Data), line: line}
	switch v.Kind {
	case unstable.String:
		n.kind = stringNode
	case unstable.Bool:
		n.kind = boolNode
	case unstable.Float, unstable.Integer:
		n.kind = numberNode
	case unstable.LocalDate, unstable.LocalTime, unstable.LocalDateTime, unstable.DateTime:
		n.kind = timeNode
	default:
		r.collection(n, v, depth)
	}
	return n
}

func (r *tomlReader) collection(n *node, v *unstable.Node, depth int) {
	n.inline = true
	if depth >= maxDepth {
		r.problem(n.line, "", "brackets nested over 16 deep", "a flat list")
		n.kind = brokenNode
		return
	}
	if v.Kind == unstable.Array {
		n.kind = arrayNode
		for it := v.Children(); it.Next(); {
			n.items = append(n.items, r.value(it.Node(), n.line, depth+1))
		}
		return
	}
	n.kind, n.children = tableNode, map[string]*node{}
	for it := v.Children(); it.Next(); {
		path, line := r.path(it.Node())
		r.keyValue(n, path, line, it.Node().Value(), depth+1)
	}
}
