package template

import (
	"fmt"
	"math"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
)

// Env gives the identifiers of formulas their values: mm, rad or plain
// numbers. It holds every measurement (as "wrist_girth"), the stations of the
// frame's segment, the settings and "thickness".
type Env map[string]float64

// Formula is arithmetic over measurements, stations and settings, checked when
// the template was read. The zero value is a formula that was left out.
type Formula program

// program is a compiled expression and where it stands.
type program struct {
	source string
	where  string
	uses   []string
	prog   *vm.Program
}

// Set tells whether the formula stands in the file.
func (f Formula) Set() bool { return f.prog != nil }

// Uses are the identifiers that the formula reads, sorted.
func (f Formula) Uses() []string { return f.uses }

// Where is the formula's place: "templates/helm.yaml:41:9".
func (f Formula) Where() string { return f.where }

// String is the formula as written.
func (f Formula) String() string { return f.source }

// Eval is the formula's value: mm, rad or a plain number. A formula that was
// left out is 0. The error says where the formula stands and why it has no
// value: a division by nothing, a root of a negative number, or an identifier
// that env lacks.
func (f Formula) Eval(env Env) (float64, error) {
	if !f.Set() {
		return 0, nil
	}
	out, err := program(f).run(env)
	if err != nil {
		return 0, err
	}
	v, ok := out.(float64)
	if !ok || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%s: %q has no value for this body and these settings (it divides by zero, or takes a root of a negative number)", f.where, f.source)
	}
	return v, nil
}

// Condition is a `when`: whether a part of the template is there at all. The
// zero value always holds.
type Condition program

// On tells whether the part is there.
func (c Condition) On(env Env) (bool, error) {
	if c.prog == nil {
		return true, nil
	}
	out, err := program(c).run(env)
	return out == true, err
}

// run evaluates with the values that the program needs.
func (p program) run(env Env) (any, error) {
	vars := make(map[string]any, len(p.uses))
	for _, u := range p.uses {
		v, ok := env[u]
		if !ok {
			return nil, fmt.Errorf("%s: %q needs %s, and its value is not known", p.where, p.source, u)
		}
		vars[u] = v
	}
	out, err := expr.Run(p.prog, vars)
	if err != nil {
		return nil, fmt.Errorf("%s: %q has no value: %w", p.where, p.source, err)
	}
	return out, nil
}
