package synth_test

import (
	"math"
	"testing"
)

// tally gathers errors and coverage by length.
type tally map[string]*errors

type errors struct{ sum, square, covered, n float64 }

func (t tally) add(name string, off, half float64) {
	e := t[name]
	if e == nil {
		e = &errors{}
		t[name] = e
	}
	e.sum += off
	e.square += off * off
	e.n++
	if math.Abs(off) <= half {
		e.covered++
	}
}

func (e *errors) rms() float64   { return math.Sqrt(e.square / e.n) }
func (e *errors) bias() float64  { return e.sum / e.n }
func (e *errors) cover() float64 { return e.covered / e.n }

// lengths in the order they are reported.
var lengths = []string{"head length", "head breadth", "face length", "ear to ear", "chin to crown", "pupil distance", "ear to crown", "eye to crown", "face breadth", "head girth"}

func (t tally) log(tb testing.TB) {
	tb.Helper()
	for _, n := range lengths {
		if e := t[n]; e != nil {
			tb.Logf("%-15s RMS %.2f, bias %+.2f mm, 95 %% intervals cover %.0f %%", n, e.rms(), e.bias(), 100*e.cover())
		}
	}
}

// hold fails where an error is larger than its bound.
func (t tally) hold(tb testing.TB, most map[string]float64) {
	tb.Helper()
	for n, m := range most {
		if e := t[n]; e.rms() > m {
			tb.Errorf("%s: RMS %.2f mm; it should be at most %.1f", n, e.rms(), m)
		}
	}
}

// cover fails where 95 % intervals hold the truth too seldom or too often.
func (t tally) cover(tb testing.TB) {
	tb.Helper()
	for n, e := range t {
		if c := e.cover(); c < .88 || c > .99 {
			tb.Errorf("%s: the 95 %% intervals cover %.0f %%; it should be 88 to 99", n, 100*c)
		}
	}
}
