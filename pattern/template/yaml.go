package template

import (
	"bytes"
	"errors"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// Limits that keep a hostile file from costing time. The largest of our own
// templates has 6 kB and nests 6 deep; the YAML reader's time grows with the
// square of the number of keys (20,000 of them: 4 s).
const (
	maxBytes  = 64 << 10
	maxDepth  = 30
	maxIndent = 120
)

// parseYAML reads the one document of a file as a mapping. It reports and gives
// nil if the file is too large, nests too deep, or is not plain YAML.
func parseYAML(src []byte, c *faults) *ast.MappingNode {
	if !plainEnough(src, c) {
		return nil
	}
	file, err := parseSafely(src)
	if err != nil {
		c.at(placeOf(err), "", "%s", NotYAML(messageOf(err)))
		return nil
	}
	if len(file.Docs) > 1 {
		c.at(nodePlace(file.Docs[1].Body), "put each template into a file of its own", "a second document starts here")
		return nil
	}
	if len(file.Docs) == 0 || file.Docs[0].Body == nil {
		c.at(place{1, 1}, "start with the line format: 1", "the file is empty")
		return nil
	}
	refused := false
	ast.Walk(visitor(func(n ast.Node) {
		if what := beyondPlain(n); what != "" && !refused {
			refused = true
			c.at(nodePlace(n), "write the value out", "%s is not part of this language", what)
		}
	}), file.Docs[0].Body)
	if refused {
		return nil
	}
	return asMapping(file.Docs[0].Body, c)
}

func asMapping(n ast.Node, c *faults) *ast.MappingNode {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n
	case *ast.MappingValueNode: // a mapping with one key, in older trees
		return ast.Mapping(n.GetToken(), false, n)
	}
	c.at(nodePlace(n), "write keys with values, such as format: 1", "a mapping should stand here, not %s", kindOf(n))
	return nil
}

// plainEnough refuses what would cost the YAML reader much time, before it.
func plainEnough(src []byte, c *faults) bool {
	switch {
	case len(src) > maxBytes:
		c.at(place{1, 1}, "a template has at most 64 kB", "the file has %d kB", len(src)>>10)
		return false
	case !utf8.Valid(src):
		c.at(place{1, 1}, "save it as UTF-8 text", "the file is not UTF-8 text")
		return false
	}
	depth := 0
	for i, line := range bytes.Split(src, []byte("\n")) {
		deepest := depth
		for _, b := range line {
			switch b {
			case '[', '{':
				depth++
			case ']', '}':
				depth = max(0, depth-1)
			}
			deepest = max(deepest, depth)
		}
		head := len(line) - len(bytes.TrimLeft(line, " -?:"))
		dashes := bytes.Count(line[:head], []byte("-")) + bytes.Count(line[:head], []byte("?"))
		switch {
		case bytes.IndexFunc(line, control) >= 0:
			c.at(place{i + 1, 1}, "indent with spaces", "the line has a tab or another control character")
			return false
		case head > maxIndent || (dashes > maxDepth && strings.Trim(string(line), "- \r") != ""):
			c.at(place{i + 1, 1}, "", "the line is indented too deeply")
			return false
		case deepest > maxDepth:
			c.at(place{i + 1, 1}, "", "lists and mappings nest too deeply")
			return false
		}
	}
	return true
}

// control are characters that no text needs; a carriage return is one of them
// only inside a line, which is left to the YAML reader.
func control(r rune) bool { return r < ' ' && r != '\r' || r == 0x7f || r == 0xfeff }

// parseSafely turns a panic of the YAML reader into an error: the input is a
// stranger's, and the fault is then its being unreadable.
func parseSafely(src []byte) (file *ast.File, err error) {
	defer func() {
		if recover() != nil {
			file, err = nil, errors.New("the reader cannot make sense of it")
		}
	}()
	return parser.ParseBytes(src, 0)
}

// NotYAML says in a maker's words what the YAML reader found that is no YAML.
func NotYAML(message string) string {
	if strings.Contains(message, `'\t'`) || strings.Contains(message, "'\t'") {
		return "a tab stands here; indent with spaces"
	}
	if m := definedTwice.FindStringSubmatch(message); m != nil {
		return m[1] + " stands here twice (first in line " + m[2] + "); keep one of them"
	}
	for _, m := range plainYAML {
		if strings.Contains(message, m.theirs) {
			return m.ours
		}
	}
	return "this is not well-formed YAML: " + message
}

var definedTwice = regexp.MustCompile(`mapping key "(.*)" already defined at \[(\d+):`)

// plainYAML are the reader's commonest words and what a maker can do about them.
var plainYAML = []struct{ theirs, ours string }{
	{"',' or '}' must be specified", "a { that was opened is not closed before here, or a comma is missing"},
	{"',' or ']' must be specified", "a [ that was opened is not closed before here, or a comma is missing"},
	{"could not find flow map", "a { that was opened is not closed before here"},
	{"sequence end token ']' not found", "a [ that was opened is not closed before here"},
	{"could not find end character of", "a quotation mark that was opened is not closed"},
	{"non-map value is specified", "a colon is missing here or in the line before; write key: value"},
	{"unexpected key name", "a colon is missing here or in the line before, or this line is indented otherwise than its neighbours"},
	{"value is not allowed in this context", "this does not fit here: the line is indented otherwise than its neighbours, or it holds more than one value"},
}

type visitor func(ast.Node)

func (v visitor) Visit(n ast.Node) ast.Visitor { v(n); return v }

// beyondPlain names YAML features that can hide what a file says.
func beyondPlain(n ast.Node) string {
	switch n.(type) {
	case *ast.AliasNode, *ast.AnchorNode:
		return "an anchor or alias (& or *)"
	case *ast.TagNode:
		return "a tag (!)"
	case *ast.MergeKeyNode:
		return "a merge key (<<)"
	case *ast.MappingKeyNode:
		return "a complex key (?)"
	case *ast.DirectiveNode:
		return "a directive (%)"
	}
	return ""
}

func nodePlace(n ast.Node) place {
	if n == nil {
		return place{1, 1}
	}
	if m, ok := n.(*ast.MappingNode); ok && !m.IsFlowStyle && len(m.Values) > 0 {
		n = m.Values[0].Key
	}
	if m, ok := n.(*ast.MappingValueNode); ok {
		n = m.Key
	}
	t := n.GetToken()
	if t == nil || t.Position == nil {
		return place{1, 1}
	}
	return place{t.Position.Line, t.Position.Column}
}

func placeOf(err error) place {
	var ye yaml.Error
	if errors.As(err, &ye) {
		if t := ye.GetToken(); t != nil && t.Position != nil {
			return place{t.Position.Line, t.Position.Column}
		}
	}
	return place{1, 1}
}

func messageOf(err error) string {
	var ye yaml.Error
	if errors.As(err, &ye) {
		return short(strings.ReplaceAll(ye.GetMessage(), "\n", " "))
	}
	return short(strings.ReplaceAll(err.Error(), "\n", " "))
}

func kindOf(n ast.Node) string {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "a mapping"
	case *ast.SequenceNode:
		return "a list"
	case *ast.NullNode, nil:
		return "nothing"
	}
	return "a single value"
}
