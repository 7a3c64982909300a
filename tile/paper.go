// Package tile lays panels on pages at exactly their size and draws what stands
// on them. A panel that fits a page is never split; a larger one gets its own
// grid of pages that are glued at join marks.
//
// Pages always stand upright, whatever lies on them: panels are turned instead,
// so that the two axes of a page are always the same two axes of the printer.
package tile

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/draw/leaf"
	"tasset/internal/units"
)

// Paper is what pages are printed on, upright (Height ≥ Width unless it is a
// roll).
type Paper struct {
	Name          string
	Width, Height float64 // mm; a roll's Height is the longest page that is made
	Roll          bool
	Correct       Correction
}

// Correction stretches a page so that a printer that is a little off prints it
// true. Zero is no correction.
type Correction struct {
	X, Y float64 // by how much of its length an axis is stretched: 0.01 is 1 %
}

// What a page keeps free of panels, mm.
const (
	Margin     = leaf.Margin
	maxLength  = 5000 // of a page on a roll: readers stop at 5080
	minSide    = 148  // or the 100 mm bars and their corner do not fit
	maxCorrect = 0.015
)

const inch = 25.4

// sizes are upright, mm. Sources: ISO 216:2007 table 1; ASME Y14.1 sizes A and
// B; Legal is common practice, 8.5 × 14 in.
var sizes = []Paper{
	{Name: "A4", Width: 210, Height: 297},
	{Name: "A3", Width: 297, Height: 420},
	{Name: "A2", Width: 420, Height: 594},
	{Name: "A1", Width: 594, Height: 841},
	{Name: "A0", Width: 841, Height: 1189},
	{Name: "Letter", Width: 8.5 * inch, Height: 11 * inch},
	{Name: "Legal", Width: 8.5 * inch, Height: 14 * inch},
	{Name: "Tabloid", Width: 11 * inch, Height: 17 * inch},
}

// ParsePaper reads a paper as people write it: "A4", "Letter", "300 x 400 mm",
// "12 x 18 in", "roll 610 mm". Sizes turn upright.
func ParsePaper(s string) (Paper, error) {
	text := strings.Join(strings.Fields(s), " ")
	for _, p := range sizes {
		if strings.EqualFold(p.Name, text) {
			return p, nil
		}
	}
	if rest, ok := strings.CutPrefix(strings.ToLower(text), "roll "); ok {
		return parseRoll(s, rest)
	}
	w, h, ok := strings.Cut(strings.NewReplacer("×", "x", "X", "x").Replace(text), "x")
	if !ok {
		return Paper{}, fmt.Errorf("paper %q is not known; write a name (%s), a size (\"300 x 400 mm\") or a roll (\"roll 610 mm\")", s, names())
	}
	return parseSize(s, strings.TrimSpace(w), strings.TrimSpace(h))
}

func parseSize(s, w, h string) (Paper, error) {
	hasUnit := strings.ContainsFunc(w, func(r rune) bool { return r == 'm' || r == 'n' || r == '"' })
	if !hasUnit {
		w += " " + strings.TrimLeft(h, "0123456789./ ½¼¾⅛⅜⅝⅞") // the unit of the second stands for both
	}
	width, err := units.ParseLength(w, 0)
	if err != nil {
		return Paper{}, fmt.Errorf("paper %q, first side: %w", s, err)
	}
	height, err := units.ParseLength(h, 0)
	if err != nil {
		return Paper{}, fmt.Errorf("paper %q, second side: %w", s, err)
	}
	p := Paper{Name: fmt.Sprintf("%.4g × %.4g mm", min(width, height), max(width, height)), Width: min(width, height), Height: max(width, height)}
	return p, p.check(s)
}

func parseRoll(s, width string) (Paper, error) {
	w, err := units.ParseLength(width, 0)
	if err != nil {
		return Paper{}, fmt.Errorf("paper %q, width of the roll: %w", s, err)
	}
	p := Paper{Name: fmt.Sprintf("roll %.4g mm", w), Width: w, Height: maxLength, Roll: true}
	return p, p.check(s)
}

func (p Paper) check(s string) error {
	if !(p.Width >= minSide) || p.Height > maxLength || p.Width > maxLength {
		return fmt.Errorf("paper %q is %.4g × %.4g mm; each side must be from %d to %d mm, so that margins and the 100 mm bars fit and readers open it", s, p.Width, p.Height, minSide, maxLength)
	}
	if !p.Roll && p.Height < 180 {
		return fmt.Errorf("paper %q is %.4g mm high; the longer side must be at least 180 mm", s, p.Height)
	}
	return nil
}

func names() string {
	var out []string
	for _, p := range sizes {
		out = append(out, p.Name)
	}
	return strings.Join(out, ", ")
}

// Corrected is the paper for a printer on which the bars of 100 mm measured x
// and y mm. It is an error when either is off by more than 1.5 %: then it is
// not the printer, and the message says what it probably is.
func (p Paper) Corrected(x, y float64) (Paper, error) {
	for _, v := range []float64{x, y} {
		if !(v > 0) || math.Abs(100/v-1) > maxCorrect {
			return p, fmt.Errorf("the 100 mm bars measured %.4g and %.4g mm; only up to 1.5 %% can be corrected. %s", x, y, cause(x, y))
		}
	}
	p.Correct = Correction{X: 100/x - 1, Y: 100/y - 1}
	return p, nil
}

// cause guesses why a print is far off (common practice, no source).
func cause(x, y float64) string {
	switch {
	case !(x > 20 && y > 20 && x < 500 && y < 500):
		return "Measure the bars of 100 mm and give what you read in mm, such as 99.5."
	case math.Abs(x/y-1) > maxCorrect:
		return "The two axes differ, so something stretches the page: print on the paper that the pages were made for, and measure again."
	case x < 100:
		return "The print dialog probably shrinks to fit: choose \"Actual size\" or \"100 %\", and the paper that the pages were made for."
	default:
		return "The print dialog probably enlarges to fit: choose \"Actual size\" or \"100 %\", and the paper that the pages were made for."
	}
}

// Area is the part of a page on which panels may lie, page axes.
func (p Paper) Area() draw.Rect {
	return leaf.Area(p.Width, p.Height)
}
