package costume

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"

	"tasset/body"
)

// SetMeasurement writes a size into the text of a wearer.yaml: over the value
// that stands there, or as a new line at the end of the measurements. Comments,
// order and everything else stay as they are: the syntax tree only says where
// the value stands. side "" is the value for both sides.
func SetMeasurement(src []byte, name body.Name, side, typed string) ([]byte, error) {
	r := &reader{file: WearerFile}
	root, ok := r.parse(src)
	if !ok {
		return nil, r.done()
	}
	list := find(root.entries(""), "measurements")
	if list == nil {
		end := strings.TrimRight(string(src), "\n") + "\n"
		return []byte(end + "measurements:\n  " + line(name, side, typed) + "\n"), nil
	}
	if list.isNothing() {
		return beginList(src, *list, line(name, side, typed))
	}
	sizes := list.entries("")
	old := find(sizes, string(name))
	switch {
	case old == nil && len(sizes) == 0:
		return nil, fmt.Errorf("%s: measurements: found %s; write one measurement there by hand first", list.where(), list.describe())
	case old == nil:
		return insertAfter(src, sizes[len(sizes)-1], line(name, side, typed))
	}
	return replaceSize(src, *old, side, typed)
}

func find(entries []value, key string) *value {
	for _, e := range entries {
		if e.key == key {
			return &e
		}
	}
	return nil
}

// line is a measurement as a new line of the file.
func line(name body.Name, side, typed string) string {
	if side == "" {
		return fmt.Sprintf("%s: %s", name, typed)
	}
	return fmt.Sprintf("%s: {%s: %s}", name, side, typed)
}

// replaceSize puts a new value where the old one stands.
func replaceSize(src []byte, old value, side, typed string) ([]byte, error) {
	if !old.isMapping() {
		if side != "" {
			return nil, fmt.Errorf("%s: %s has one value for both sides; write {left: …, right: …} there by hand first", old.where(), old.key)
		}
		return splice(src, old.node, typed)
	}
	key := side
	if key == "" {
		key = "value"
	}
	parts := old.entries("")
	if v := find(parts, key); v != nil {
		return splice(src, v.node, typed)
	}
	if len(parts) == 0 || side == "" {
		return nil, fmt.Errorf("%s: %s has values for its sides; say which: left or right", old.where(), old.key)
	}
	first := old.keyToken(parts[0].key)
	if first == nil {
		return nil, fmt.Errorf("%s: %s could not be found in the file", old.where(), old.key)
	}
	at, err := offset(src, first.line, first.column)
	if err != nil {
		return nil, err
	}
	gap := ", "
	if m, ok := old.node.(*ast.MappingNode); !ok || !m.IsFlowStyle {
		gap = "\n" + strings.Repeat(" ", first.column-1)
	}
	return insert(src, at, key+": "+typed+gap), nil
}

type spot struct{ line, column int }

// keyToken is where a key of a mapping stands.
func (v value) keyToken(key string) *spot {
	var pairs []*ast.MappingValueNode
	switch n := v.node.(type) {
	case *ast.MappingNode:
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	}
	for _, p := range pairs {
		if t := p.Key.GetToken(); t.Value == key {
			return &spot{t.Position.Line, t.Position.Column}
		}
	}
	return nil
}

// splice puts text in the place of a scalar.
func splice(src []byte, n ast.Node, text string) ([]byte, error) {
	t := n.GetToken()
	at, err := offset(src, t.Position.Line, t.Position.Column)
	if err != nil {
		return nil, err
	}
	old := strings.TrimSpace(t.Value)
	rest := string(src[at:])
	if q := rest[:1]; q == `"` || q == "'" {
		end := strings.Index(rest[1:], q)
		if end < 0 {
			return nil, fmt.Errorf("%s:%d: found a quotation that does not end", WearerFile, t.Position.Line)
		}
		old = rest[:end+2]
	}
	if !strings.HasPrefix(rest, old) {
		return nil, fmt.Errorf("%s:%d: the value %q runs over several lines; change it by hand", WearerFile, t.Position.Line, old)
	}
	return append(insert(src, at, text)[:at+len(text)], src[at+len(old):]...), nil
}

// beginList writes the first entry under a key that stands there alone.
func beginList(src []byte, list value, text string) ([]byte, error) {
	lines := strings.SplitAfter(string(src), "\n")
	key, _, _ := strings.Cut(lines[list.line-1], "#")
	if strings.TrimSpace(key) != list.key+":" {
		return nil, fmt.Errorf("%s: found %q; write one measurement there by hand first", list.where(), strings.TrimSpace(key))
	}
	head := strings.TrimSuffix(strings.Join(lines[:list.line], ""), "\n")
	return []byte(head + "\n  " + text + "\n" + strings.Join(lines[list.line:], "")), nil
}

// insertAfter adds a line behind an entry, indented as the entry is.
func insertAfter(src []byte, last value, text string) ([]byte, error) {
	lines := strings.SplitAfter(string(src), "\n")
	end := lastLine(last.node, last.line)
	if end > len(lines) {
		return nil, fmt.Errorf("%s:%d: the end of the measurements was not found", WearerFile, last.line)
	}
	first := lines[last.line-1]
	indent := first[:len(first)-len(strings.TrimLeft(first, " "))]
	if !strings.HasSuffix(lines[end-1], "\n") {
		lines[end-1] += "\n"
	}
	head := strings.Join(lines[:end], "")
	return []byte(head + indent + text + "\n" + strings.Join(lines[end:], "")), nil
}

// lastLine is the last line that a value stands on.
func lastLine(n ast.Node, line int) int {
	most := line
	ast.Walk(visit(func(n ast.Node) {
		if t := n.GetToken(); t != nil {
			most = max(most, t.Position.Line)
		}
	}), n)
	return most
}

type visit func(ast.Node)

// Visit makes a function a visitor of the syntax tree.
func (v visit) Visit(n ast.Node) ast.Visitor { v(n); return v }

// offset turns a line and a column (in characters) into a place in the bytes.
func offset(src []byte, line, column int) (int, error) {
	starts := []int{0}
	for i, b := range src {
		if b == '\n' {
			starts = append(starts, i+1)
		}
	}
	if line < 1 || line > len(starts) {
		return 0, fmt.Errorf("line %d is not in the file", line)
	}
	at := starts[line-1]
	for ; column > 1 && at < len(src); column-- {
		_, size := utf8.DecodeRune(src[at:])
		at += size
	}
	return at, nil
}

func insert(src []byte, at int, text string) []byte {
	out := make([]byte, 0, len(src)+len(text))
	return append(append(append(out, src[:at]...), text...), src[at:]...)
}
