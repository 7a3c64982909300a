package photo

import (
	"context"
	"errors"

	"tasset/body"
	"tasset/internal/report"
)

// Solution is what photographs tell.
type Solution struct {
	Head, Body *Subject // nil if no photograph shows it
	Lengths    []Length
	Seen       *body.Seen // those of Lengths that body knows, with their full covariance; nil if none
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
	if s == nil {
		s = &Solution{}
	}
	out, findings := &Solution{}, []report.Finding(nil)
	if len(shots) == 0 {
		return nil, nil, errors.New("there are no photographs to solve")
	}
	head, more, err := newHead().look(ctx, shots, s.Head)
	if err != nil {
		return nil, nil, err
	}
	out.Head, findings = head, append(findings, more...)
	lengths, cov := head.lengths(headMeasures)
	out.Lengths, out.Seen = lengths, seen(lengths, cov)
	return out, findings, nil
}

// look checks shots of one figure, solves them and doubts the result.
func (f *figure) look(ctx context.Context, shots []Shot, from *Subject) (*Subject, []report.Finding, error) {
	if err := f.admit(shots); err != nil {
		return nil, nil, err
	}
	kept, findings, err := f.screen(shots)
	if err != nil {
		return nil, nil, err
	}
	s, err := f.solve(ctx, kept, from)
	if err != nil {
		return nil, nil, err
	}
	return s, append(findings, s.doubts(ctx)...), nil
}
