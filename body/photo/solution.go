package photo

import (
	"context"
	"errors"
	"strings"

	"gonum.org/v1/gonum/mat"

	"tasset/body"
	"tasset/internal/report"
)

// Solution is what photographs tell.
type Solution struct {
	Head, Body *Subject // nil if no photograph shows it
	Lengths    []Length
	Seen       *body.Seen // those of Lengths that body knows, with their full covariance; nil if none
	Stance     *Stance    // how the trunk stands; nil if no side view of the body shows it
}

// Solve finds where cameras, landmarks, rulers and cards stood, of heads and
// bodies apart, from the marks and from nothing else, and reads lengths off
// them. The error says what cannot be understood, or why nothing can be solved;
// it names everything. Findings doubt marks, rulers and labels.
func Solve(ctx context.Context, shots []Shot) (*Solution, []report.Finding, error) {
	return (*Solution)(nil).Again(ctx, shots)
}

// Again is Solve for shots of which some marks were moved since: it starts from
// what this solution knows, and finds the same.
func (s *Solution) Again(ctx context.Context, shots []Shot) (*Solution, []report.Finding, error) {
	if len(shots) == 0 {
		return nil, nil, errors.New("there are no photographs to solve")
	}
	var of [2][]Shot // heads, bodies
	for _, q := range shots {
		if q.View.OfHead() {
			of[0] = append(of[0], q)
		} else {
			of[1] = append(of[1], q)
		}
	}
	before := [2]*Subject{}
	if s != nil {
		before = [2]*Subject{s.Head, s.Body}
	}
	head, findings, headErr := newHead().look(ctx, of[0], before[0])
	whole, more, bodyErr := newBody().look(ctx, of[1], before[1])
	if err := errors.Join(headErr, bodyErr); err != nil {
		return nil, nil, err
	}
	findings = append(findings, more...)
	if head == nil && whole == nil {
		return nil, nil, nothing(findings)
	}
	out := &Solution{Head: head, Body: whole}
	if head != nil {
		out.add(head.lengths(headMeasures))
	}
	if whole != nil {
		out.add(whole.lengths(bodyMeasures(whole)))
		out.Stance = whole.stance()
	}
	return out, findings, nil
}

// add takes a subject's lengths in. Those of head and body have no error in
// common.
func (s *Solution) add(lengths []Length, cov *mat.SymDense) {
	s.Lengths = append(s.Lengths, lengths...)
	more := seen(lengths, cov)
	if s.Seen == nil || more == nil {
		if more != nil {
			s.Seen = more
		}
		return
	}
	a, b := len(s.Seen.Names), len(more.Names)
	n := a + b
	joint := make([]float64, n*n)
	for i := range n {
		for j := range n {
			switch {
			case i < a && j < a:
				joint[i*n+j] = s.Seen.Covariance[i*a+j]
			case i >= a && j >= a:
				joint[i*n+j] = more.Covariance[(i-a)*b+j-a]
			}
		}
	}
	s.Seen = &body.Seen{Names: append(s.Seen.Names, more.Names...), Values: append(s.Seen.Values, more.Values...), Covariance: joint}
}

// nothing is the error of photographs of which none can be used, for the reasons
// found.
func nothing(findings []report.Finding) error {
	why := []string{"no photograph can be used:"}
	for _, g := range findings {
		why = append(why, g.String())
	}
	return errors.New(strings.Join(why, "\n"))
}

// look checks shots of one figure, solves them and doubts the result. The subject
// is nil if there are no shots, or none that can be used, with findings that say
// why. The error is of shots that cannot be understood.
func (f *figure) look(ctx context.Context, shots []Shot, from *Subject) (*Subject, []report.Finding, error) {
	if len(shots) == 0 {
		return nil, nil, nil
	}
	if err := f.admit(shots); err != nil {
		return nil, nil, err
	}
	kept, findings := f.screen(shots)
	if kept == nil {
		return nil, findings, nil
	}
	s, scales, err := f.agree(ctx, kept, from)
	if errors.Is(err, errSingular) {
		g := f.useless("The marks on the photographs of the %s do not determine where the cameras stood.", f.name)
		g.Perhaps = "Mark more landmarks, far apart from each other."
		return nil, append(findings, g), nil
	}
	if err == nil {
		err = s.findSlip(ctx)
	}
	if err != nil {
		return nil, nil, err
	}
	return s, append(findings, s.doubts(ctx, scales)...), nil
}
