package body_test

import (
	"math"
	"testing"

	"tasset/body"
)

// vambrace is what governs a forearm shell.
var vambrace = []body.Sensitivity{
	{Subject: "elbow edge", PerMM: map[body.Name]float64{"forearm girth flexed": 1}},
	{Subject: "wrist edge", PerMM: map[body.Name]float64{"wrist girth": 1}},
	{Subject: "length", PerMM: map[body.Name]float64{"forearm length": .8}},
}

func TestNext_advisesWhatGoverns(t *testing.T) {
	m, _ := estimate(t, man(), nil)
	advice := body.Next(m, vambrace)
	if len(advice) < 3 || advice[0].Name != "forearm girth flexed" {
		t.Fatalf("advice: %v", advice)
	}
	left, gain := math.Inf(1), 0.0
	for _, a := range advice {
		if a.Left > left || a.Gain <= 0 || a.HowTo == "" {
			t.Errorf("advice %+v after %.2f mm", a, left)
		}
		left, gain = a.Left, gain+a.Gain
	}
	if gain > 1 {
		t.Errorf("gains sum to %.3f of the variance", gain)
	}
}

// What Next says is left is about what an estimate with that entry leaves.
func TestNext_keepsItsWord(t *testing.T) {
	m, _ := estimate(t, man(), nil)
	first := body.Next(m, vambrace)[0]
	x := get(t, m, first.Name, body.Both)
	after, _ := estimate(t, man(body.Entry{Name: first.Name, Value: x.Value}), nil)
	sum := 0.0
	for _, s := range vambrace {
		for n, k := range s.PerMM {
			sum += k * k * after.Cov(n, n)
		}
	}
	near(t, "deviation left", first.Left, math.Sqrt(sum/3), .03*math.Sqrt(sum/3))
	for _, a := range body.Next(after, vambrace) {
		if a.Name == first.Name {
			t.Errorf("%s is advised though it was taped", a.Name)
		}
	}
}

// The joint covariance has no direction of negative variance.
func TestCov_isACovariance(t *testing.T) {
	m, _ := estimate(t, man(body.Entry{Name: "wrist girth", Value: 176}, body.Entry{Name: "underbust girth", Value: 950}), nil)
	for _, a := range m.All() {
		near(t, "variance of "+string(a.Name), m.Cov(a.Name, a.Name), a.SD*a.SD, 1e-9*a.SD*a.SD)
		for _, b := range m.All() {
			if c := m.Cov(a.Name, b.Name); math.Abs(c) > a.SD*b.SD*(1+1e-9) || c != m.Cov(b.Name, a.Name) {
				t.Errorf("Cov(%s, %s) = %g with deviations %g and %g", a.Name, b.Name, c, a.SD, b.SD)
			}
		}
	}
}
