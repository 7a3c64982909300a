package booklet

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"tasset/internal/units"
	"tasset/pattern"
)

// onShaft is the tube on a shaft so high, of four panels more.
func onShaft(height float64) *pattern.Piece {
	p := tube(4)
	for k := range 4 {
		shaft := p.Panels[k]
		shaft.Number, shaft.Label = k+5, fmt.Sprintf("V%d", k+5)
		shaft.Surface.Bent = slices.Clone(shaft.Surface.Bent)
		for i := range shaft.Surface.Bent {
			shaft.Surface.Bent[i].Y *= -height / tubeHeight
		}
		shaft.Edges = slices.Clone(shaft.Edges)
		for i := range shaft.Edges { // with no seams of its own
			shaft.Edges[i].Kind, shaft.Edges[i].Seam = pattern.Rim, 0
		}
		p.Panels = append(p.Panels, shaft)
	}
	return p
}

// What is small on a long piece and has many seams is drawn by itself too, and its seams
// are numbered there only; what is not, is not.
func TestOverview_drawsTheHeadOfAShaftLarger(t *testing.T) {
	for _, c := range []struct {
		height float64
		heaps  [][]int
	}{
		{3000, [][]int{{0, 1, 2, 3}}},
		{500, nil}, // the tube is nearly a quarter of the whole
		{200, nil}, // no long piece
	} {
		p := onShaft(c.height)
		var found [][]int
		for _, h := range heaps(p) {
			found = append(found, h.panels)
		}
		if !reflect.DeepEqual(found, c.heaps) {
			t.Errorf("on a shaft of %g mm: heaps %v, want %v", c.height, found, c.heaps)
		}
		pages := Overview(p, 210, 297, units.MM)
		checkPage(t, pages[0])
		_, all := textsOf(pages...)
		if strings.Contains(all, "V1 to V4, larger") != (c.heaps != nil) {
			t.Errorf("on a shaft of %g mm the page says %q", c.height, all)
		}
	}
	p := onShaft(3000)
	if n := seamsIn(without(heaps(p), pieceScene(p).labels)); n != 0 {
		t.Errorf("%d seams of the tube are numbered on the small drawing too", n)
	}
}
