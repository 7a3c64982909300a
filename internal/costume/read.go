package costume

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"

	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern/template"
)

// A maker's file is small and flat; more is an accident or an attack, and the
// YAML parser takes seconds over deep nesting.
const (
	mostBytes   = 256 << 10
	mostNesting = 40
)

// reader reads one file of the maker's and gathers everything that is wrong
// with it, so that all of it is told at once.
type reader struct {
	file string // as findings name it: "wearer.yaml"
	errs []error
}

// value is a part of the file with the key that it stands under.
type value struct {
	r    *reader
	key  string
	line int
	node ast.Node
}

// parse reads the file's one mapping; false if it is not YAML of our kind.
func (r *reader) parse(src []byte) (value, bool) {
	src = bytes.TrimPrefix(src, []byte("\uFEFF")) // some editors begin a file with it
	if line, ok := notText(src); ok {
		r.fail(line, "the file is not UTF-8 text; open it in a text editor and save it as UTF-8")
		return value{}, false
	}
	if len(src) > mostBytes || nesting(src) > mostNesting {
		r.fail(1, "the file is larger or more deeply nested than a costume can be")
		return value{}, false
	}
	file, err := parser.ParseBytes(src, 0)
	var bad yaml.Error
	if errors.As(err, &bad) {
		r.fail(bad.GetToken().Position.Line, "%s", template.NotYAML(bad.GetMessage()))
		return value{}, false
	}
	if err != nil {
		r.fail(1, "this is not well-formed YAML: %v", err)
		return value{}, false
	}
	var docs []ast.Node
	for _, d := range file.Docs {
		if d.Body != nil && d.Body.Type() != ast.NullType {
			docs = append(docs, d.Body)
		}
	}
	if len(docs) != 1 {
		r.fail(1, "found %d documents; the file must hold one, starting with \"format: 1\"", len(docs))
		return value{}, false
	}
	return value{r, "", 1, docs[0]}, true
}

// notText finds the first line that is not UTF-8 text.
func notText(src []byte) (line int, found bool) {
	for i, l := range bytes.Split(src, []byte("\n")) {
		if !utf8.Valid(l) || bytes.IndexByte(l, 0) >= 0 {
			return i + 1, true
		}
	}
	return 0, false
}

// nesting is the deepest that brackets stand in each other, or that list marks
// follow each other at the start of one line.
func nesting(src []byte) int {
	depth, most := 0, 0
	marks, start := 0, true // of this line
	for _, b := range src {
		switch b {
		case '\n':
			marks, start = 0, true
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case '-', '?':
			if start {
				marks++
			}
		}
		start = start && bytes.IndexByte([]byte("\n -?:"), b) >= 0
		most = max(most, depth, marks)
	}
	return most
}

func (r *reader) fail(line int, format string, args ...any) {
	r.errs = append(r.errs, fmt.Errorf("%s:%d: %s", r.file, line, fmt.Sprintf(format, args...)))
}

// fail records what was found at the value and what would be right.
func (v value) fail(format string, args ...any) {
	message := fmt.Sprintf(format, args...)
	if v.key != "" {
		message = v.key + ": " + message
	}
	v.r.fail(v.line, "%s", message)
}

// where is the value's place as findings name it.
func (v value) where() string { return fmt.Sprintf("%s:%d", v.r.file, v.line) }

// entries are the keys of a mapping with their values, in the file's order.
func (v value) entries(what string) []value {
	var pairs []*ast.MappingValueNode
	switch n := v.node.(type) {
	case *ast.MappingNode:
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	default:
		v.fail("found %s; %s", v.describe(), what)
		return nil
	}
	var out []value
	for i, p := range pairs {
		key := p.Key.GetToken()
		switch {
		case i+1 < len(pairs) && cutAtComma(p, pairs[i+1]):
			whole, rest := p.Value.GetToken().Value, pairs[i+1].Key.GetToken().Value
			v.r.fail(key.Position.Line, "%s: found %s,%s; write a decimal point, not a comma: %s.%s", key.Value, whole, rest, whole, rest)
		case i > 0 && cutAtComma(pairs[i-1], p):
		default:
			out = append(out, value{v.r, key.Value, key.Position.Line, p.Value})
		}
	}
	return out
}

// cutAtComma tells whether two pairs between braces are one whose number was written
// with a decimal comma, as in {width: 2,5 in}.
func cutAtComma(p, next *ast.MappingValueNode) bool {
	_, whole := p.Value.(*ast.IntegerNode)
	_, empty := next.Value.(*ast.NullNode)
	rest := next.Key.GetToken().Value
	return whole && empty && rest != "" && rest[0] >= '0' && rest[0] <= '9'
}

// items are the members of a list.
func (v value) items(what string) []value {
	list, ok := v.node.(*ast.SequenceNode)
	if !ok {
		v.fail("found %s; %s", v.describe(), what)
		return nil
	}
	var out []value
	for _, n := range list.Values {
		line := v.line
		if t := n.GetToken(); t != nil {
			line = t.Position.Line
		}
		if m, ok := n.(*ast.MappingNode); ok && len(m.Values) > 0 {
			line = m.Values[0].Key.GetToken().Position.Line
		}
		out = append(out, value{v.r, v.key, line, n})
	}
	return out
}

// isMapping tells whether the value has keys.
func (v value) isMapping() bool {
	switch v.node.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return true
	}
	return false
}

// isList tells whether the value is a list.
func (v value) isList() bool {
	_, ok := v.node.(*ast.SequenceNode)
	return ok
}

// text is a scalar as it was typed; a failure gives "" and is recorded.
func (v value) text() string {
	switch n := v.node.(type) {
	case *ast.StringNode:
		return strings.TrimSpace(n.Value)
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return strings.TrimSpace(n.GetToken().Value)
	case *ast.LiteralNode:
		return strings.TrimSpace(n.Value.Value)
	}
	v.fail("found %s; write one value behind the colon", v.describe())
	return ""
}

// longestLabel is as much of a name as a title block holds.
const longestLabel = 60

// label is a title or a name: a line of characters that can be printed.
func (v value) label() string {
	before := len(v.r.errs)
	s := v.text()
	switch {
	case len(v.r.errs) > before:
	case s == "":
		v.fail("found nothing; write a name, or leave the line out")
	case utf8.RuneCountInString(s) > longestLabel:
		v.fail("found %d characters; write at most %d", utf8.RuneCountInString(s), longestLabel)
	case strings.ContainsFunc(s, unprintable):
		v.fail("found %q; a name is one line of characters that can be printed", s)
	}
	return s
}

// isNothing tells whether a key stands there without a value.
func (v value) isNothing() bool {
	_, nothing := v.node.(*ast.NullNode)
	return nothing
}

func (v value) describe() string {
	switch n := v.node.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "keys and values"
	case *ast.SequenceNode:
		return "a list"
	case *ast.NullNode:
		return "nothing"
	case *ast.AnchorNode, *ast.AliasNode, *ast.TagNode:
		return "an anchor, alias or tag, which these files do not use"
	default:
		return fmt.Sprintf("%q", shortened(n.String()))
	}
}

// shortened keeps what is quoted in a message to a line.
func shortened(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}

// unknown records a key that the file does not have.
func (v value) unknown(known []string) {
	key := shortened(v.key)
	if k := report.Nearest(v.key, known); k != "" {
		v.r.fail(v.line, "found the key %q, which is not known here; did you mean %q?", key, k)
		return
	}
	v.r.fail(v.line, "found the key %q, which is not known here; known are %s", key, strings.Join(known, ", "))
}

// among reads a word out of a list of known ones and gives its index, 0 after
// a failure.
func (v value) among(known []string) int {
	word := v.text()
	for i, k := range known {
		if strings.EqualFold(word, k) {
			return i
		}
	}
	if word == "" {
		return 0
	}
	if k := report.Nearest(word, known); k != "" {
		v.fail("found %q; did you mean %q?", word, k)
		return 0
	}
	v.fail("found %q; write one of %s", word, strings.Join(known, ", "))
	return 0
}

// length reads a length in mm; def is the file's default unit. The example, which an error
// gives, must be one that would do here.
func (v value) length(def units.Unit, example string) float64 {
	return v.parsed(func(s string) (float64, error) { return units.ParseLengthLike(s, def, example) })
}

// thickness reads a length that is not negative and at most most mm.
func (v value) thickness(def units.Unit, most float64) float64 {
	before := len(v.r.errs)
	t := v.length(def, "2 mm or 1/16 in")
	if len(v.r.errs) == before && (t < 0 || t > most) {
		v.fail("found %s; write a length from 0 to %s", v.text(), units.Format(most, units.MM))
	}
	return t
}

// parsed reads a scalar with one of the parsers of package units.
func (v value) parsed(parse func(string) (float64, error)) float64 {
	s := v.text()
	if s == "" {
		return 0
	}
	n, err := parse(s)
	if err != nil {
		v.fail("%v", err)
	}
	return n
}

// within reads a plain number in a range.
func (v value) within(low, high float64, what string) float64 {
	before := len(v.r.errs)
	n := v.parsed(units.ParseNumber)
	if len(v.r.errs) == before && (n < low || n > high) {
		v.fail("found %s; write %s", v.text(), what)
	}
	return n
}

// yes reads true or false.
func (v value) yes() bool {
	return v.among([]string{"false", "true", "no", "yes"})%2 == 1
}

// format checks the file's format, which must be stated.
func (r *reader) format(found *value) {
	if found == nil {
		r.fail(1, "found no \"format\"; write \"format: 1\" at the top")
		return
	}
	before := len(r.errs)
	if s := found.text(); s != "1" && len(r.errs) == before {
		found.fail("found %q; this program reads format 1", s)
	}
}

// done is what was wrong with the file, or nil.
func (r *reader) done() error { return errors.Join(r.errs...) }
