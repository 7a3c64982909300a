package template

import (
	"reflect"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// decoder fills the types of file.go from a syntax tree by reflection, and
// reports every unknown key, wrong kind and missing key with its place. The
// struct tags that it reads are those that the JSON Schema is made from.
type decoder struct{ *faults }

// decodable fills itself from a node.
type decodable interface {
	decode(d decoder, n ast.Node, key string)
}

// maxItems is the most entries that a list or mapping may have.
const maxItems = 500

func (d decoder) value(n ast.Node, v reflect.Value, key string) {
	if x, ok := v.Addr().Interface().(decodable); ok {
		x.decode(d, n, key)
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		d.value(n, v.Elem(), key)
	case reflect.Slice:
		d.list(n, v, key)
	case reflect.Struct:
		d.mapping(n, v, key)
	}
}

func (d decoder) list(n ast.Node, v reflect.Value, key string) {
	s, ok := n.(*ast.SequenceNode)
	if !ok {
		d.at(nodePlace(n), "start each entry with a dash", "%s should be a list, not %s", key, kindOf(n))
		return
	}
	if len(s.Values) > maxItems {
		d.at(nodePlace(n), "", "%s has %d entries; %d is the most", key, len(s.Values), maxItems)
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(s.Values), len(s.Values)))
	for i, item := range s.Values {
		d.value(item, v.Index(i), "an entry of "+key)
	}
}

// field is one key that a mapping may have.
type field struct {
	key      string
	required bool
	enum     []string
	index    []int
}

// fieldsOf lists the keys of a file type, those of embedded structs included.
func fieldsOf(t reflect.Type) []field {
	var fs []field
	for _, f := range reflect.VisibleFields(t) {
		key, ok := f.Tag.Lookup("yaml")
		if !ok || key == "-" || key == ",inline" {
			continue
		}
		x := field{key: strings.Split(key, ",")[0], index: f.Index}
		for _, opt := range strings.Split(f.Tag.Get("jsonschema"), ",") {
			if opt == "required" {
				x.required = true
			} else if e, ok := strings.CutPrefix(opt, "enum="); ok {
				x.enum = append(x.enum, e)
			}
		}
		fs = append(fs, x)
	}
	return fs
}

func (d decoder) mapping(n ast.Node, v reflect.Value, key string) {
	m := d.asMapping(n, key)
	if m == nil {
		return
	}
	here := nodePlace(n)
	if pos := v.FieldByName("Pos"); pos.IsValid() {
		pos.Set(reflect.ValueOf(here))
	}
	fields := fieldsOf(v.Type())
	seen := map[string]bool{}
	for _, kv := range m.Values {
		k := keyText(kv)
		f, ok := fieldNamed(fields, k)
		switch {
		case !ok && kindOf(kv.Value) == "nothing" && strings.Contains(k, " "):
			d.at(nodePlace(kv), "put quotes round a text that has a comma in it", "%s has no key %q", key, short(k))
		case !ok:
			d.at(nodePlace(kv), didYouMean(k, keysOf(fields)), "%s has no key %q", key, short(k))
		case seen[k]:
			d.at(nodePlace(kv), "keep one of them", "%s has the key %s twice", key, k)
		case kindOf(kv.Value) == "nothing":
			d.at(nodePlace(kv), "write a value or leave the key out", "%s has no value", k)
		default:
			d.value(kv.Value, v.FieldByIndex(f.index), k)
			d.checkEnum(v.FieldByIndex(f.index), f)
		}
		seen[k] = true
	}
	for _, f := range fields {
		if f.required && !seen[f.key] {
			d.at(here, "", "%s needs the key %s", key, f.key)
		}
	}
}

func (d decoder) asMapping(n ast.Node, key string) *ast.MappingNode {
	switch n := n.(type) {
	case *ast.MappingNode:
		if len(n.Values) <= maxItems {
			return n
		}
		d.at(nodePlace(n), "", "%s has %d entries; %d is the most", key, len(n.Values), maxItems)
		return nil
	case *ast.MappingValueNode:
		return ast.Mapping(n.GetToken(), false, n)
	}
	d.at(nodePlace(n), "write keys with values under it", "%s should be a mapping, not %s", key, kindOf(n))
	return nil
}

func (d decoder) checkEnum(v reflect.Value, f field) {
	if len(f.enum) == 0 {
		return
	}
	words, ok := v.Interface().([]text)
	if one, single := v.Interface().(text); single {
		words, ok = []text{one}, true
	}
	for _, s := range words {
		if ok && s.set() && !slices.Contains(f.enum, s.s) {
			d.at(s.at, didYouMean(s.s, f.enum), "%s cannot be %q", f.key, short(s.s))
		}
	}
}

func fieldNamed(fs []field, key string) (field, bool) {
	for _, f := range fs {
		if f.key == key {
			return f, true
		}
	}
	return field{}, false
}

func keysOf(fs []field) []string {
	keys := make([]string, len(fs))
	for i, f := range fs {
		keys[i] = f.key
	}
	return keys
}

func keyText(kv *ast.MappingValueNode) string {
	if s, ok := kv.Key.(*ast.StringNode); ok {
		return s.Value
	}
	if t := kv.Key.GetToken(); t != nil {
		return t.Value
	}
	return ""
}

// text is any single value, as written.
type text struct {
	s  string
	at place
}

func (t text) set() bool { return t.at.line > 0 }

func (t *text) decode(d decoder, n ast.Node, key string) {
	p := nodePlace(n)
	switch n := n.(type) {
	case *ast.StringNode:
		*t = text{n.Value, p}
		if tok := n.GetToken(); tok != nil && (tok.Origin != "" && strings.ContainsAny(strings.TrimSpace(tok.Origin)[:1], `"'`)) {
			t.at.col++ // the text starts after the quote
		}
	case *ast.LiteralNode:
		*t = text{strings.TrimSpace(n.Value.Value), p}
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		*t = text{n.GetToken().Value, p}
	default:
		d.at(p, "", "%s should be a single value, not %s", key, kindOf(n))
	}
}

// yesNo is true or false.
type yesNo struct{ on bool }

func (y *yesNo) decode(d decoder, n ast.Node, key string) {
	b, ok := n.(*ast.BoolNode)
	if !ok {
		d.at(nodePlace(n), "", "%s should be true or false", key)
		return
	}
	y.on = b.Value
}

// named is a mapping whose keys are the maker's own names, in file order.
type named[T any] []entry[T]

type entry[T any] struct {
	name text
	is   T
}

func (m *named[T]) decode(d decoder, n ast.Node, key string) {
	node := d.asMapping(n, key)
	if node == nil {
		return
	}
	seen := map[string]bool{}
	for _, kv := range node.Values {
		e := entry[T]{name: text{keyText(kv), nodePlace(kv)}}
		if seen[e.name.s] {
			d.at(e.name.at, "keep one of them", "%s has %q twice", key, short(e.name.s))
		}
		seen[e.name.s] = true
		d.value(kv.Value, reflect.ValueOf(&e.is).Elem(), short(e.name.s))
		*m = append(*m, e)
	}
}

// mappingOf fills a struct that decodes itself in other cases.
func (d decoder) mappingOf(n ast.Node, into any, key string) {
	d.mapping(n, reflect.ValueOf(into).Elem(), key)
}
