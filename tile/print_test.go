package tile

import (
	"bytes"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/draw/pdf"
	"tasset/pattern"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

// squareOf finds the ring of the 100 mm square on the print check.
func squareOf(t *testing.T, p draw.Page) *draw.Path {
	t.Helper()
	for _, it := range p.Items {
		if path, ok := it.(*draw.Path); ok && path.Closed && len(path.Subpaths) == 1 && len(path.Subpaths[0]) == 4 {
			if s := path.Subpaths[0]; s[1].X-s[0].X > 50 {
				return path
			}
		}
	}
	t.Fatal("the print check has no square")
	return nil
}

// The square and the bars measure 100 mm on the paper, as painted by an
// independent renderer (source: poppler's pdftoppm).
func TestPages_printAtTrueSize(t *testing.T) {
	for _, paper := range []string{"A4", "Letter", "300 x 400 mm"} {
		pages := laid(t, synthetic(), paper).Pages()
		r := rasterised(t, written(t, pages), 1, pages[0].Height)
		at := squareOf(t, pages[0]).Subpaths[0][0]
		width := r.uprightLine(t, at.X+100, at.Y+60) - r.uprightLine(t, at.X, at.Y+60)
		height := r.levelLine(t, at.X+70, at.Y+100) - r.levelLine(t, at.X+70, at.Y)
		across := r.uprightLine(t, Margin+105, Margin+6.5) - r.uprightLine(t, Margin+5, Margin+4.2)
		up := r.levelLine(t, Margin+6.5, Margin+105) - r.levelLine(t, Margin+4.2, Margin+5)
		for what, v := range map[string]float64{"square, x": width, "square, y": height, "bar, x": across, "bar, y": up} {
			if math.Abs(v-100) > 0.1 {
				t.Errorf("%s: %s is %.3f mm, want 100.0 ± 0.1", paper, what, v)
			}
		}
	}
}

// A correction stretches what is printed by just that much.
func TestCorrected_stretchesThePrint(t *testing.T) {
	plan := laid(t, synthetic(), "A4")
	paper, err := plan.Paper.Corrected(99.2, 100.5)
	if err != nil {
		t.Fatal(err)
	}
	plain := plan.Pages()[0]
	plan.Paper = paper
	pages := plan.Pages()
	r := rasterised(t, written(t, pages), 1, pages[0].Height)
	at := squareOf(t, pages[0]).Subpaths[0][0]
	width := r.uprightLine(t, at.X+100/0.992, at.Y+60) - r.uprightLine(t, at.X, at.Y+60)
	height := r.levelLine(t, at.X+70, at.Y+100/1.005) - r.levelLine(t, at.X+70, at.Y)
	if math.Abs(width*0.992-100) > 0.1 || math.Abs(height*1.005-100) > 0.1 {
		t.Errorf("a printer that prints 0.992 and 1.005 of the length prints %.3f × %.3f mm", width*0.992, height*1.005)
	}
	if len(plain.Items) == 0 || !strings.Contains(says(pages[len(pages)-1]), "corrected for this printer") {
		t.Error("the last page does not say that it was corrected")
	}
}

func says(p draw.Page) string {
	var b strings.Builder
	for _, it := range p.Items {
		if text, ok := it.(*draw.Text); ok {
			b.WriteString(text.S + "\n")
		}
	}
	return b.String()
}

// Two pages laid together at their marks carry an edge of 400 mm (source: the
// panel's own size; painted by poppler's pdftoppm).
func TestGrid_pagesJoinedAtTheirMarksCarryALongEdge(t *testing.T) {
	set := &pattern.Set{Pieces: []pattern.Piece{{Name: "plate", Panels: []pattern.Panel{box("P1", "plate", 120, 400)}}}}
	plan := laid(t, set, "A4")
	if len(plan.Sheets) != 2 {
		t.Fatalf("400 mm on A4 take %d pages, want 2", len(plan.Sheets))
	}
	pages := plan.Pages()
	file := written(t, pages)
	upper, lower := plan.Sheets[0].Windows[0], plan.Sheets[1].Windows[0]
	if upper.Row != 1 || lower.Row != 0 {
		t.Fatalf("rows %d and %d, want the upper page first", upper.Row, lower.Row)
	}
	ends := func(w Window) (x, low, high float64) {
		ring := w.PageFromPanel.ApplyAll(plan.panel(w).Outline)
		x, low, high = ring[0].X, ring[0].Y, ring[0].Y
		for _, p := range ring {
			x, low, high = min(x, p.X), min(low, p.Y), max(high, p.Y)
		}
		return x, low, high
	}
	rl := rasterised(t, file, len(pages), pages[0].Height)
	ru := rasterised(t, file, len(pages)-1, pages[0].Height)
	xl, low, _ := ends(lower)
	xu, _, high := ends(upper)
	line, trim := lower.Clip.Max.Y-Strip, upper.Clip.Min.Y
	const in = 8.3 // mm from the edge, clear of notches and marks
	below := rl.levelLine(t, xl+in, line) - rl.levelLine(t, xl+in, low)
	above := ru.levelLine(t, xu+in, high) - ru.levelLine(t, xu+in, trim)
	if got := below + above; math.Abs(got-400) > 0.2 {
		t.Errorf("the edge is %.3f mm over the join, want 400 ± 0.2", got)
	}
	// The marks' own middle lines must put the long edge in one line.
	width := lower.Clip.Max.X - lower.Clip.Min.X
	for _, f := range leaf.MarkPlaces {
		markL := rl.uprightLine(t, lower.Clip.Min.X+f*width, line-2)
		markU := ru.uprightLine(t, upper.Clip.Min.X+f*width, trim+2)
		step := (rl.uprightLine(t, xl, line-30) - markL) - (ru.uprightLine(t, xu, trim+30) - markU)
		if math.Abs(step) > 0.2 {
			t.Errorf("the edge steps sideways by %.3f mm at the join", step)
		}
	}
}

// The file is sound by two independent readers (source: qpdf, pdfcpu), asks for
// no scaling, and its text can be found (source: poppler's pdftotext, pdfinfo).
func TestPages_readersAgree(t *testing.T) {
	pages := laid(t, synthetic(), "A4").Pages()
	file := written(t, pages)
	tool(t, "qpdf", "--check", file)
	api.DisableConfigDir()
	conf := model.NewDefaultConfiguration()
	conf.ValidationMode = model.ValidationStrict
	if err := api.ValidateFile(file, conf); err != nil {
		t.Errorf("strict validation: %v", err)
	}
	text := tool(t, "pdftotext", "-layout", file, "-")
	for _, want := range []string{"1 ▸ B2", "V1 outer side", "this side is the OUTSIDE", "cut 2, 1 flipped", "DRAFT – measure head girth", "bevel 22° inside", "fold 60°, grooved inside", "page 3 of", "100 %"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("the text %q is not found", want)
		}
	}
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(raw, []byte("/PrintScaling /None")) {
		t.Error("the document does not ask for printing without scaling")
	}
	if !strings.Contains(tool(t, "pdfinfo", file), "Pages:           "+strconv.Itoa(len(pages))) {
		t.Error("pdfinfo counts other pages")
	}
}

// Page boxes, in mm. Sources: ISO 216:2007 table 1; ASME Y14.1 (A: 8.5 × 11 in,
// B: 11 × 17 in); legal is common practice.
func TestPaper_pageBoxesAreTheStandards(t *testing.T) {
	size := regexp.MustCompile(`Page size:\s+([\d.]+) x ([\d.]+) pts`)
	for name, want := range map[string][2]float64{
		"A4": {210, 297}, "A3": {297, 420}, "A2": {420, 594}, "A1": {594, 841}, "A0": {841, 1189},
		"Letter": {215.9, 279.4}, "Legal": {215.9, 355.6}, "Tabloid": {279.4, 431.8},
	} {
		paper, err := ParsePaper(strings.ToLower(name))
		if err != nil {
			t.Fatal(err)
		}
		m := size.FindStringSubmatch(tool(t, "pdfinfo", written(t, []draw.Page{ScrapTest(paper)})))
		for axis := range 2 {
			points, err := strconv.ParseFloat(m[axis+1], 64)
			if err != nil || math.Abs(points*25.4/72-want[axis]) > 0.02 {
				t.Errorf("%s, side %d: %v points, want %v mm", name, axis+1, m[axis+1], want[axis])
			}
		}
	}
}

func TestPages_sameInputSameBytes(t *testing.T) {
	var first, second bytes.Buffer
	for _, b := range []*bytes.Buffer{&first, &second} {
		if err := pdf.Write(b, laid(t, synthetic(), "A4").Pages(), pdf.Info{Title: "x"}); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("two runs wrote different bytes")
	}
}
