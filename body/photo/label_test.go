package photo

import (
	"math/rand/v2"
	"testing"
)

// A right label is hardly ever doubted, however few marks there are and however
// hastily they were placed.
func TestRightLabels(t *testing.T) {
	chance := rand.New(rand.NewPCG(12, 9))
	f := newHead()
	wrong, n := map[View]int{}, 0
	for range 100 {
		h := newTestHead(chance)
		for _, s := range testShots(chance, h, testSetup{distance: 800, f35: 26, clicks: 2, views: []View{HeadFront, HeadLeft, HeadRight, HeadLeftQuarter, HeadRightQuarter}}) {
			chance.Shuffle(len(s.Marks), func(i, j int) { s.Marks[i], s.Marks[j] = s.Marks[j], s.Marks[i] })
			s.Marks = s.Marks[:min(len(s.Marks), fewMarks+chance.IntN(6))]
			n++
			if g := f.mislabelled(&s); g != nil {
				t.Log(len(s.Marks), g)
				wrong[s.View]++
			}
		}
	}
	total := 0
	for _, w := range wrong {
		total += w
	}
	if total*50 > n {
		t.Errorf("%d of %d right labels are taken for wrong: %v", total, n, wrong)
	}
}
