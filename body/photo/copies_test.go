package photo

import (
	"context"
	"strings"
	"testing"
)

// Marks that were entered for two pictures are refused, whatever the second one's
// label; a mark placed anew, or a few alike, are not.
func TestSolve_refusesCopies(t *testing.T) {
	copied := func(n int, change func(s *Shot)) error {
		_, _, err := Solve(context.Background(), taken(4, func(s []Shot) {
			s[1].View, s[1].Marks = s[0].View, append([]Mark(nil), s[0].Marks[:n]...)
			if change != nil {
				change(&s[1])
			}
		}))
		return err
	}
	all := len(taken(4, nil)[0].Marks)
	for name, err := range map[string]error{
		"all marks":      copied(all, nil),
		"five of them":   copied(5, nil),
		"in other order": copied(all, func(s *Shot) { s.Marks[0], s.Marks[7] = s.Marks[7], s.Marks[0] }),
		"a side label":   copied(all, func(s *Shot) { s.View = HeadLeft }),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
			continue
		}
		for _, w := range []string{"head left side: its marks stand at the same pixels", "of head front,", "a copy checks nothing"} {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: the error does not say %q: %v", name, w, err)
			}
		}
	}
	for name, err := range map[string]error{
		"four marks":      copied(4, nil),
		"one placed anew": copied(all, func(s *Shot) { s.Marks[3].At.X++ }),
	} {
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
