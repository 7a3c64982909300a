package template

import (
	"errors"
	"fmt"
	"regexp"
	"sort"
	"strings"
	"sync"

	"tasset/body"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	exprchecker "github.com/expr-lang/expr/checker"
	exprcompiler "github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/vm"
)

// scope is what formulas of a template may name.
type scope struct {
	dims    map[string]dim
	choices map[string][]string // of settings that are chosen by word
}

func (s scope) names() []string {
	names := make([]string, 0, len(s.dims))
	for n := range s.dims {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}

// compiler turns the formulas of one file into programs.
type compiler struct {
	*faults
	scope scope
}

// The three kinds of formula by what they come to.
func (c compiler) mm(t lengthF) Formula     { return c.formula(t.text, length) }
func (c compiler) rad(t angleF) Formula     { return c.formula(t.text, angle) }
func (c compiler) number(t numberF) Formula { return c.formula(t.text, plain) }

// formula compiles a formula that must come to want. A formula that was left
// out, or is wrong, gives the zero Formula.
func (c compiler) formula(t text, want dim) Formula {
	if !t.set() {
		return Formula{}
	}
	p, ok := c.program(t, want, false)
	if !ok {
		return Formula{}
	}
	return Formula(p)
}

// condition compiles a when.
func (c compiler) condition(w whenF) Condition {
	if !w.set() {
		return Condition{}
	}
	p, _ := c.program(w.text, plain, true)
	return Condition(p)
}

func (c compiler) program(t text, want dim, condition bool) (program, bool) {
	at := func(char int) place { return place{t.at.line, t.at.col + char} }
	what := "formula"
	if condition {
		what = "condition"
	}
	if strings.ContainsAny(t.s, "\n\r\t") {
		c.at(t.at, "write it on one line", "the %s runs over several lines", what)
		return program{}, false
	}
	s, fault := scan(t.s)
	if fault != nil {
		c.at(at(fault.at), fault.perhaps, "in %q %s", short(t.s), fault.said)
		return program{}, false
	}
	tree, err := parse(s.source)
	if err != nil {
		char, message := exprFault(err)
		c.at(at(char), misspelt(t.s, condition), "%q is not a %s: %s", short(t.s), what, message)
		return program{}, false
	}
	k := checker{scope: c.scope, units: s.units, used: map[string]bool{}, numbers: map[int]float64{}}
	if condition {
		k.truth(tree.Node)
	} else if d := k.dim(tree.Node); k.fault == nil && !d.fits(want) {
		c.at(t.at, want.example(), "%q is %s, and %s is needed", short(t.s), d, want)
		return program{}, false
	}
	if k.fault != nil {
		c.at(at(k.fault.at), k.fault.perhaps, "in %q %s", short(t.s), k.fault.said)
		return program{}, false
	}
	prog, err := k.build(tree, condition)
	if err != nil {
		char, message := exprFault(err)
		c.at(at(char), "", "%q is not a %s: %s", short(t.s), what, message)
		return program{}, false
	}
	return program{source: t.s, where: fmt.Sprintf("%s:%d:%d", c.file, t.at.line, t.at.col), uses: k.uses(), prog: prog}, true
}

// misspelt is what probably keeps a text from being a formula; "" if nothing is known.
func misspelt(s string, condition bool) string {
	switch {
	case strings.Count(s, "(") != strings.Count(s, ")"):
		return "close its parentheses, and inside [ ] or { } quote a formula that has a comma in it"
	case condition && loneEquals.MatchString(s):
		return "write == to compare"
	case decimalComma.MatchString(s):
		return "write a decimal point, not a comma"
	}
	for _, d := range body.Catalogue() {
		if id := d.Name.Ident(); id != string(d.Name) && strings.Contains(s, string(d.Name)) {
			return "write the measurement as " + id
		}
	}
	return ""
}

var decimalComma = regexp.MustCompile(`^[^(]*[0-9],[0-9]`)

// loneEquals is one = where two are meant.
var loneEquals = regexp.MustCompile(`[^=!<>]=[^=]`)

// parse reads an expression; a panic of the reader is the input's fault.
func parse(source string) (tree *parser.Tree, err error) {
	defer func() {
		if recover() != nil {
			tree, err = nil, errors.New("it cannot be read")
		}
	}()
	return parser.ParseWithConfig(source, plainConfig())
}

// The library's configurations, made once: for reading, and with the functions
// of formulas for compiling. Neither is changed afterwards.
var (
	plainConfig    = sync.OnceValue(func() *conf.Config { return configure(expr.MaxNodes(maxFormula)) })
	functionConfig = sync.OnceValue(func() *conf.Config { return configure(functionOptions()...) })
)

// configure is the library's configuration without any function of its own.
func configure(opts ...expr.Option) *conf.Config {
	config := conf.CreateNew()
	for _, o := range append(opts, expr.DisableAllBuiltins()) {
		o(config)
	}
	for name := range config.Disabled {
		delete(config.Builtins, name)
	}
	return config
}

func exprFault(err error) (char int, message string) {
	var fe *file.Error
	if errors.As(err, &fe) {
		return fe.Column, short(plainly(fe.Message))
	}
	return 0, short(strings.ReplaceAll(err.Error(), "\n", " "))
}

// plainly says in a maker's words what the library says in its own.
func plainly(message string) string {
	if message == "unexpected token EOF" {
		return "it ends too early"
	}
	if m := unexpected.FindStringSubmatch(message); m != nil {
		return m[1] + " does not belong there"
	}
	return message
}

var unexpected = regexp.MustCompile(`^unexpected token \w+\("(.*)"\)$`)

// build compiles a checked tree. Its numbers are put in here, before the
// library looks at the tree: the library would move whole numbers about.
func (k *checker) build(tree *parser.Tree, condition bool) (*vm.Program, error) {
	ast.Walk(&tree.Node, k)
	env := map[string]any{}
	for u := range k.used {
		env[u] = 0.0
	}
	result := expr.AsFloat64()
	if condition {
		result = expr.AsBool()
	}
	config := *functionConfig()
	expr.Env(env)(&config)
	result(&config)
	config.Check()
	if _, err := exprchecker.Check(tree, &config); err != nil {
		return nil, err
	}
	return exprcompiler.Compile(tree, &config)
}

// Visit puts the values of numbers and words into the tree, as floats.
func (k *checker) Visit(n *ast.Node) {
	switch (*n).(type) {
	case *ast.IntegerNode, *ast.FloatNode, *ast.StringNode:
		ast.Patch(n, &ast.FloatNode{Value: k.numbers[(*n).Location().From]})
	}
}
