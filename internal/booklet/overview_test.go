package booklet

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/units"
	"tasset/pattern"
)

func textsOf(pages ...draw.Page) (texts []string, all string) {
	for _, p := range pages {
		for _, it := range p.Items {
			if t, ok := it.(*draw.Text); ok {
				texts = append(texts, t.S)
			}
		}
	}
	return texts, strings.Join(texts, " ")
}

func TestOverview_saysWhatThePieceIs(t *testing.T) {
	for name, size := range sizes {
		pages := Overview(tube(4), size[0], size[1], units.MM)
		if len(pages) != 1 {
			t.Fatalf("%s: %d pages, want 1", name, len(pages))
		}
		checkPage(t, pages[0])
		texts, all := textsOf(pages[0])
		for _, want := range []string{
			"left vambrace", "Draft: do not cut", "261 mm ± 14 mm, estimated", "172 mm ± 3.9 mm, tape",
			"6 mm thick", "3.4 mm at least", "of 3 mm asked", "up to 2.2 mm outside", "by 0.8 mm", "about 180 g, without paint",
			"12 mm, set by you", "11°", "side 2, cut 1", "V1 to V2, 150 mm, butt, bevel 12° inside",
			"V4 to V1, 150 mm, closure", "Opens at the seam inside the arm.",
		} {
			if !strings.Contains(all, want) {
				t.Errorf("%s: the page does not say %q", name, want)
			}
		}
		// From in front and from behind, every panel's outside is seen, and
		// three of four seams from each.
		for _, label := range []string{"V1", "V2", "V3", "V4"} {
			if n := count(texts, label); n < 2 { // once in the list
				t.Errorf("%s: %s is not marked in a drawing", name, label)
			}
		}
		for _, seam := range []string{"1", "2", "3", "4"} {
			if count(texts, seam) == 0 {
				t.Errorf("%s: seam %s is not marked in a drawing", name, seam)
			}
		}
	}
}

func count(texts []string, s string) (n int) {
	for _, t := range texts {
		if t == s {
			n++
		}
	}
	return n
}

// A piece of many panels goes on to further pages and loses nothing.
func TestOverview_longListsGoOn(t *testing.T) {
	p := tube(40)
	p.Draft = false
	pages := Overview(p, 210, 297, units.MM)
	if len(pages) < 2 {
		t.Fatalf("%d pages for 40 panels and 40 seams", len(pages))
	}
	for i := range pages {
		checkPage(t, pages[i])
	}
	texts, all := textsOf(pages...)
	for _, panel := range p.Panels {
		if !slices.Contains(texts, panel.Label) {
			t.Errorf("%s is on no page", panel.Label)
		}
	}
	if n := strings.Count(all, "150 mm"); n != 40 {
		t.Errorf("%d seams are listed, want 40", n)
	}
	if strings.Contains(all, "Draft") {
		t.Error("a piece that is ready is called a draft")
	}
}

func TestOverview_sameTwice(t *testing.T) {
	if a, b := Overview(tube(4), 210, 297, units.MM), Overview(tube(4), 210, 297, units.MM); !reflect.DeepEqual(a, b) {
		t.Error("two overviews of one piece differ")
	}
}

// Straps have no place in space; they are listed all the same.
func TestOverview_flatsAlone(t *testing.T) {
	p := tube(4)
	p.Seams, p.Panels = nil, []pattern.Panel{{Label: "S1", Name: "strap", Copies: 2}}
	pages := Overview(p, 210, 297, units.MM)
	checkPage(t, pages[0])
	if _, all := textsOf(pages...); !strings.Contains(all, "S1 strap, cut 2") {
		t.Error("the strap is not listed")
	}
}

// Closed corners first, closures last.
func TestJoining_growsFromOnePanel(t *testing.T) {
	seam := func(n int, k pattern.EdgeKind, a, b int) pattern.Seam {
		return pattern.Seam{Number: n, Kind: k, Spans: []pattern.Span{{Sides: [2]pattern.EdgeRef{{Panel: a}, {Panel: b}}}}}
	}
	p := &pattern.Piece{Seams: []pattern.Seam{
		seam(1, pattern.Closure, 0, 3), seam(2, pattern.Butt, 0, 1), seam(3, pattern.Butt, 2, 3), seam(4, pattern.Butt, 1, 2), seam(5, pattern.Butt, 0, 2),
	}}
	if got, want := joining(p), []int{1, 3, 4, 2, 0}; !slices.Equal(got, want) {
		t.Errorf("joined in order %v, want %v", got, want)
	}
}

// What is bought is listed once: on the costume's page, or with a piece that is alone.
func TestOverviews_listOnceWhatIsBought(t *testing.T) {
	one, two := *tube(4), *tube(4)
	two.Name = "right vambrace"
	for name, pieces := range map[string][]pattern.Piece{"a lone piece": {one}, "two pieces": {one, two}} {
		texts, all := textsOf(Overviews(&pattern.Set{Pieces: pieces}, figureOf(1700), 210, 297, units.MM)...)
		if count(texts, "To buy beside glue") != 1 || !strings.Contains(all, "foam, 6 mm") {
			t.Errorf("%s: what is bought is not listed once", name)
		}
	}
}

// Where the clearance that is asked for is not the same all round, the page says where
// it is which.
func TestOverview_saysWhereWhichClearanceIsAsked(t *testing.T) {
	for _, c := range []struct {
		askings []pattern.Asking
		want    string
	}{
		{nil, "of 3 mm asked (checked"},
		{[]pattern.Asking{{Ways: []string{"left", "right"}, Room: 6}, {Room: 12}}, "of 6 mm asked at the sides and 12 mm elsewhere, in between where the foam looks aslant (checked"},
		{[]pattern.Asking{{Ways: []string{"top"}, Room: 16}, {Ways: []string{"front", "back"}, Room: 22}, {Room: 14}}, "of 16 mm asked above, 22 mm in front and behind and 14 mm elsewhere, in between"},
	} {
		p := tube(4)
		p.Askings = c.askings
		if _, all := textsOf(Overview(p, 210, 297, units.MM)...); !strings.Contains(all, c.want) {
			t.Errorf("the page does not say %q", c.want)
		}
	}
}
