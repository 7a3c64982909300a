package synth_test

import (
	"math/rand/v2"
	"testing"

	"tasset/body/photo"
	"tasset/internal/synth"
)

// Marks of usual care must seldom be asked to be looked at again.
func TestUsualMarksNeedNoSecondLook(t *testing.T) {
	t.Parallel()
	again, heads := 0, people()[:100]
	usual.run(t, heads, func(_ *synth.Head, s *photo.Solution, _ *rand.Rand) { again += min(1, len(s.Head.Again())) })
	rate := float64(again) / float64(len(heads))
	t.Logf("%.1f %% of heads have a mark to be looked at again", 100*rate)
	if rate > .02 {
		t.Errorf("%.1f %% of heads with marks of usual care are asked to look again", 100*rate)
	}
}
