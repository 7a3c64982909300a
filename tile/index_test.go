package tile

import (
	"slices"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/pattern"
)

// Of the maps of up to twelve sheets, which find room below half a page of text, none
// stand on a page of their own; and the maps of all of them are there, in turn.
func TestMaps_noneAlone(t *testing.T) {
	paper, err := ParsePaper("A4")
	if err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= 12; n++ {
		ix := &indexer{plan: &Plan{Set: &pattern.Set{}, Paper: paper, Sheets: slices.Repeat([]Sheet{{Height: paper.Height}}, n)}, first: 5, of: 20}
		ix.need(10)
		ix.c = &leaf.Column{Page: ix.c.Page, X: ix.c.X, Y: 0.5 * paper.Height, Width: ix.c.Width}
		ix.maps()
		var maps int
		for _, page := range ix.pages {
			for _, it := range page.Items {
				if s, ok := it.(*draw.Text); ok && strings.HasPrefix(s.S, "page ") {
					maps++
				}
			}
		}
		if len(ix.pages) != 1 || maps != n {
			t.Errorf("%d sheets: %d maps on %d pages", n, maps, len(ix.pages))
		}
	}
}

// What is carried is not put on.
func TestWorn_leavesOutWhatIsCarried(t *testing.T) {
	set := &pattern.Set{Dressing: []string{"belt", "staff", "helm"}, Pieces: []pattern.Piece{{Name: "belt"}, {Name: "staff", Free: true}, {Name: "helm"}}}
	if got := worn(set); !slices.Equal(got, []string{"belt", "helm"}) {
		t.Errorf("put on %q; want the belt and the helm", got)
	}
}
