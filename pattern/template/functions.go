package template

import (
	"fmt"
	"math"
	"sort"

	"github.com/expr-lang/expr"
)

// function is one that formulas may call.
type function struct {
	least, most int // arguments
	of          func(x []float64) float64
	dim         func(args []dim) (dim, error)
}

// most for functions of any number of arguments.
const many = 8

var functions = map[string]function{
	"min":   {2, many, func(x []float64) float64 { return fold(math.Min, x) }, alike},
	"max":   {2, many, func(x []float64) float64 { return fold(math.Max, x) }, alike},
	"hypot": {2, 2, func(x []float64) float64 { return math.Hypot(x[0], x[1]) }, alike},
	"abs":   {1, 1, one(math.Abs), alike},
	"round": {1, 1, one(math.Round), alike},
	"floor": {1, 1, one(math.Floor), alike},
	"ceil":  {1, 1, one(math.Ceil), alike},
	"sqrt":  {1, 1, one(math.Sqrt), root},
	"sin":   {1, 1, one(math.Sin), from(angle, plain)},
	"cos":   {1, 1, one(math.Cos), from(angle, plain)},
	"tan":   {1, 1, one(math.Tan), from(angle, plain)},
	"asin":  {1, 1, one(math.Asin), from(plain, angle)},
	"acos":  {1, 1, one(math.Acos), from(plain, angle)},
	"atan":  {1, 1, one(math.Atan), from(plain, angle)},
}

func one(f func(float64) float64) func([]float64) float64 {
	return func(x []float64) float64 { return f(x[0]) }
}

func fold(f func(a, b float64) float64, x []float64) float64 {
	v := x[0]
	for _, w := range x[1:] {
		v = f(v, w)
	}
	return v
}

func alike(args []dim) (dim, error) {
	d := args[0]
	for _, a := range args[1:] {
		j, ok := joined(d, a)
		if !ok {
			return dim{}, fmt.Errorf("its values are %s and %s", d, a)
		}
		d = j
	}
	return d, nil
}

func root(args []dim) (dim, error) {
	d := args[0]
	if d.mm%2 != 0 || d.rad%2 != 0 {
		return dim{}, fmt.Errorf("%s has no root that measures anything", d)
	}
	return dim{mm: d.mm / 2, rad: d.rad / 2, any: d.any}, nil
}

func from(want, gives dim) func([]dim) (dim, error) {
	return func(args []dim) (dim, error) {
		if !args[0].fits(want) {
			return dim{}, fmt.Errorf("it needs %s, not %s", want, args[0])
		}
		return gives, nil
	}
}

var functionNames = func() []string {
	var names []string
	for n := range functions {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}()

// functionOptions hand the functions to the expression library.
func functionOptions() []expr.Option {
	var opts []expr.Option
	for _, name := range functionNames {
		f := functions[name]
		opts = append(opts, expr.Function(name, func(params ...any) (any, error) {
			x := make([]float64, len(params))
			for i, p := range params {
				v, ok := p.(float64)
				if !ok {
					return nil, fmt.Errorf("%s was given something that is not a number", name)
				}
				x[i] = v
			}
			return f.of(x), nil
		}, new(func(...float64) float64)))
	}
	return opts
}
