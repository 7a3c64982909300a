package template

import (
	"fmt"
	"math"
	"sort"

	"tasset/body"

	"github.com/expr-lang/expr/ast"
)

// checker goes through an expression: only arithmetic is let in, every name is
// known, and lengths, angles and plain numbers are not mixed up.
type checker struct {
	scope   scope
	units   map[int]unit
	used    map[string]bool
	numbers map[int]float64 // value of each number and quoted word, by first character
	fault   *scanFault
}

func (k *checker) uses() []string {
	var names []string
	for u := range k.used {
		names = append(names, u)
	}
	sort.Strings(names)
	return names
}

// fail keeps the first fault.
func (k *checker) fail(n ast.Node, perhaps, said string, args ...any) dim {
	if k.fault == nil {
		k.fault = &scanFault{n.Location().From, fmt.Sprintf(said, args...), perhaps}
	}
	return zero
}

// dim is the dimension of a value.
func (k *checker) dim(n ast.Node) dim {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return k.number(n, float64(n.Value))
	case *ast.FloatNode:
		return k.number(n, n.Value)
	case *ast.IdentifierNode:
		return k.name(n)
	case *ast.UnaryNode:
		if n.Operator == "-" || n.Operator == "+" {
			return k.dim(n.Node)
		}
	case *ast.BinaryNode:
		return k.arithmetic(n)
	case *ast.CallNode:
		return k.call(n)
	}
	return k.fail(n, "write arithmetic with + - * / and the functions "+listed(functionNames), "this is more than arithmetic")
}

func (k *checker) number(n ast.Node, v float64) dim {
	// Whole numbers past 2⁵³ wrap round in the expression reader.
	if math.Abs(v) > 1e9 || math.IsNaN(v) {
		return k.fail(n, "", "the number is too large")
	}
	at := n.Location().From
	u, ok := k.units[at]
	if !ok {
		k.numbers[at] = v
		if v == 0 {
			return zero
		}
		return plain
	}
	k.numbers[at] = v * u.factor
	return u.dim
}

func (k *checker) name(n *ast.IdentifierNode) dim {
	d, ok := k.scope.dims[n.Value]
	if !ok {
		return k.fail(n, k.suggest(n.Value), "%q is not known here", short(n.Value))
	}
	k.used[n.Value] = true
	return d
}

// suggest names what was probably meant: something in scope, or the
// measurement that a maker calls so.
func (k *checker) suggest(word string) string {
	for _, s := range segments {
		if contains(stations[s], word) {
			return fmt.Sprintf("it is a station of the %s, and the piece does not stand there", s)
		}
	}
	advice := didYouMean(word, k.scope.names())
	if m := body.Suggest(word); m != "" && advice[:3] != "did" {
		return fmt.Sprintf("did you mean %s?", m.Ident())
	}
	if advice[:3] != "did" {
		return "formulas know the measurements, the stations of the segment, the settings, thickness, and chest_forward, waist_forward and shoulders_forward"
	}
	return advice
}

func (k *checker) arithmetic(n *ast.BinaryNode) dim {
	a, b := k.dim(n.Left), k.dim(n.Right)
	if k.fault != nil {
		return zero
	}
	switch n.Operator {
	case "+", "-":
		d, ok := joined(a, b)
		if !ok {
			return k.fail(n.Right, unlike(a, b), "%s and %s do not add up", a, b)
		}
		return d
	case "*":
		if b.any {
			return b
		}
		return times(a, b, 1)
	case "/":
		if b.any {
			return k.fail(n.Right, "", "this divides by zero")
		}
		return times(a, b, -1)
	}
	return k.fail(n, "write arithmetic with + - * /", "%q is not arithmetic", n.Operator)
}

// unlike advises on two values that do not go together: most likely the plain
// number lacks its unit.
func unlike(a, b dim) string {
	if a == plain {
		return b.example()
	}
	return a.example()
}

func (k *checker) call(n *ast.CallNode) dim {
	callee, ok := n.Callee.(*ast.IdentifierNode)
	if !ok {
		return k.fail(n, "", "this cannot be called")
	}
	f, ok := functions[callee.Value]
	if !ok {
		return k.fail(callee, didYouMean(callee.Value, functionNames), "there is no function %q", short(callee.Value))
	}
	if len(n.Arguments) < f.least || len(n.Arguments) > f.most {
		return k.fail(callee, fmt.Sprintf("give it %s", counted(f.least, f.most)), "%s has %d values", callee.Value, len(n.Arguments))
	}
	args := make([]dim, len(n.Arguments))
	for i, a := range n.Arguments {
		args[i] = k.dim(a)
	}
	if k.fault != nil {
		return zero
	}
	d, err := f.dim(args)
	if err != nil {
		return k.fail(callee, "", "%s cannot be taken: %s", callee.Value, err)
	}
	return d
}

func counted(least, most int) string {
	if least == most {
		return fmt.Sprint(least)
	}
	return fmt.Sprintf("%d to %d", least, most)
}

var comparisons = map[string]bool{"==": true, "!=": true, "<": true, "<=": true, ">": true, ">=": true}

// truth checks a condition.
func (k *checker) truth(n ast.Node) {
	switch n := n.(type) {
	case *ast.UnaryNode:
		if n.Operator == "not" || n.Operator == "!" {
			k.truth(n.Node)
			return
		}
	case *ast.BinaryNode:
		switch {
		case n.Operator == "and" || n.Operator == "or" || n.Operator == "&&" || n.Operator == "||":
			k.truth(n.Left)
			k.truth(n.Right)
			return
		case comparisons[n.Operator]:
			k.comparison(n)
			return
		}
	}
	k.fail(n, `write a comparison such as holes > 0 or layout == "strips"`, "this is not a condition")
}

func (k *checker) comparison(n *ast.BinaryNode) {
	if w, ok := n.Right.(*ast.StringNode); ok {
		k.choice(n, n.Left, w)
		return
	}
	if w, ok := n.Left.(*ast.StringNode); ok {
		k.choice(n, n.Right, w)
		return
	}
	k.unquoted(n.Left, n.Right)
	k.unquoted(n.Right, n.Left)
	a, b := k.dim(n.Left), k.dim(n.Right)
	if _, ok := joined(a, b); !ok && k.fault == nil {
		k.fail(n.Right, unlike(a, b), "%s and %s cannot be compared", a, b)
	}
}

// unquoted finds a word that a setting is compared with and that lacks its quotes.
func (k *checker) unquoted(setting, word ast.Node) {
	id, ok := setting.(*ast.IdentifierNode)
	w, isName := word.(*ast.IdentifierNode)
	if ok && isName && contains(k.scope.choices[id.Value], w.Value) {
		k.fail(word, fmt.Sprintf("write it in quotes: %q", w.Value), "%q is a choice of %s, which is a word", w.Value, id.Value)
	}
}

// choice checks that a setting is compared with one of its words, which stands
// for its index.
func (k *checker) choice(n *ast.BinaryNode, setting ast.Node, word *ast.StringNode) {
	id, ok := setting.(*ast.IdentifierNode)
	if !ok {
		k.fail(setting, "", "only a setting can be compared with a word")
		return
	}
	k.name(id)
	if k.fault != nil {
		return
	}
	choices, ok := k.scope.choices[id.Value]
	switch {
	case !ok:
		k.fail(id, "only a setting of unit choice is", "%s is not chosen by word", id.Value)
		return
	case n.Operator != "==" && n.Operator != "!=":
		k.fail(n, "write == or !=", "words have no order")
		return
	}
	for i, c := range choices {
		if c == word.Value {
			k.numbers[word.Location().From] = float64(i)
			return
		}
	}
	k.fail(word, didYouMean(word.Value, choices), "%q is not a choice of %s", short(word.Value), id.Value)
}
