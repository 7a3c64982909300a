package photo

import (
	"context"

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
	out := &Solution{}
	f := newHead()
	if err := f.admit(shots); err != nil {
		return nil, nil, err
	}
	head, err := f.solve(ctx, shots, s.Head)
	if err != nil {
		return nil, nil, err
	}
	out.Head = head
	lengths, cov := head.lengths(headMeasures)
	out.Lengths, out.Seen = lengths, seen(lengths, cov)
	return out, nil, nil
}
