package photo

import "context"

// SolveBody solves whole-body shots alone; for tests of what comes of the body's
// figure.
func SolveBody(ctx context.Context, shots []Shot) (*Subject, []Length, *Stance, error) {
	s, err := newBody().solve(ctx, shots, nil)
	if err != nil {
		return nil, nil, nil, err
	}
	lengths, _ := s.lengths(bodyMeasures(s))
	return s, lengths, s.stance(), nil
}

// BodyDoubt is what is added to a size for clothes and stance.
func BodyDoubt(name string) float64 {
	for _, z := range bodySizes {
		if string(z.name) == name {
			return z.doubt
		}
	}
	return 0
}

// UsualStance is the deviation of a person's stance.
const UsualStance = usualStance
