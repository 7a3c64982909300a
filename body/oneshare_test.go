package body_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"tasset/body"
	"tasset/internal/report"
)

var headSizes = []body.Name{"head length", "head breadth", "ear to crown", "face length", "face breadth", "pupil distance"}

// photographedHead is what pictures with rulers tell of a surveyed head: marks of
// usual care, and the lengths of all rulers wrong by a factor.
func photographedHead(p body.Tape, factor float64, chance *rand.Rand) *body.Seen {
	const off = 2.5 // mm
	out := &body.Seen{}
	for _, e := range p.Entries {
		out.Names, out.Values = append(out.Names, e.Name), append(out.Values, factor*(e.Value+off*chance.NormFloat64()))
	}
	n := len(out.Names)
	out.Covariance = make([]float64, n*n)
	for i := range n {
		out.Covariance[i*n+i] = off * off
	}
	return out
}

func sharesDoubted(f []report.Finding, least report.Level) bool {
	return slices.ContainsFunc(f, func(g report.Finding) bool {
		return g.Level >= least && g.Subject == "head photographs" && strings.Contains(g.Perhaps, "Every ruler's length")
	})
}

func TestOneShare(t *testing.T) {
	chance := rand.New(rand.NewPCG(5, 6))
	mean, _ := estimate(t, man(), nil)
	var tape body.Tape
	for _, n := range headSizes {
		if m, ok := mean.Get(n, body.Both); ok {
			tape.Entries = append(tape.Entries, body.Entry{Name: n, Value: m.Value})
		}
	}
	if _, f := estimate(t, man(), photographedHead(tape, 1, chance)); sharesDoubted(f, report.Doubt) {
		t.Errorf("a usual head is doubted: %v", f)
	}
	child := man()
	child.Age = 9
	if _, f := estimate(t, child, photographedHead(tape, .85, chance)); sharesDoubted(f, report.Doubt) {
		t.Errorf("a child's head is doubted: %v", f)
	}
	_, f := estimate(t, man(), photographedHead(tape, 254./300, chance))
	if !sharesDoubted(f, report.Doubt) {
		t.Errorf("a head seen by rulers of 300 mm that are said to have 254: %v", f)
	}
}

// Heads of surveyed people with rulers that are right, and that are not. Source of
// the heads: the 2012 US Army survey; the errors of the pictures are made up.
func TestOneShare_onSurveyedHeads(t *testing.T) {
	chance := rand.New(rand.NewPCG(7, 8))
	all := people(t)
	for _, c := range []struct {
		factor, low, high float64 // least and most of the people that may be doubted
		sureLow, sureHigh float64 // and called wrong
	}{{1, 0, .005, 0, .001}, {254. / 300, .9, 1, .85, 1}, {330. / 300, .5, 1, .2, 1}} {
		doubted, sure := 0, 0
		for _, p := range all {
			_, f, err := body.Estimate(body.LoadSurvey(), p.Tape("stature", "weight"), photographedHead(p.Tape(headSizes...), c.factor, chance))
			if err != nil {
				t.Fatal(err)
			}
			if sharesDoubted(f, report.Doubt) {
				doubted++
			}
			if sharesDoubted(f, report.Problem) {
				sure++
			}
		}
		rate, surely := float64(doubted)/float64(len(all)), float64(sure)/float64(len(all))
		t.Logf("rulers %.3f of what they are: %.2f %% doubted, %.2f %% a problem", c.factor, 100*rate, 100*surely)
		if rate < c.low || rate > c.high {
			t.Errorf("rulers %.3f of what they are: %.2f %% doubted, want %.1f to %.1f", c.factor, 100*rate, 100*c.low, 100*c.high)
		}
		if surely < c.sureLow || surely > c.sureHigh {
			t.Errorf("rulers %.3f of what they are: %.2f %% called wrong, want %.1f to %.1f", c.factor, 100*surely, 100*c.sureLow, 100*c.sureHigh)
		}
	}
}
