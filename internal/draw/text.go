package draw

import (
	"math"
	"strings"
	"sync"
	"unicode"

	"github.com/go-fonts/dejavu/dejavusans"
	"github.com/go-fonts/dejavu/dejavusansbold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"
	"gonum.org/v1/gonum/spatial/r2"
)

// How high and deep the letters of the font are, for a size of 1: capitals,
// and what hangs below the baseline (read from the DejaVu Sans tables).
const (
	CapHeight = 0.729
	Descent   = 0.24
)

// FontBytes is the TrueType file that all writers use.
func FontBytes(bold bool) []byte {
	if bold {
		return dejavusansbold.TTF
	}
	return dejavusans.TTF
}

// face is a font with the widths of the letters that most texts are made of.
type face struct {
	*sfnt.Font
	latin [latin]fixed.Int26_6 // advances in units of the font; -1: has none
}

// latin is below which number a letter is Latin or a sign in its block. None of
// them joins another when a text is composed.
const latin = 0x250

var faces = [2]func() *face{loaded(false), loaded(true)}

func loaded(bold bool) func() *face {
	return sync.OnceValue(func() *face {
		parsed, err := sfnt.Parse(FontBytes(bold))
		if err != nil {
			panic("the built-in font cannot be read: " + err.Error())
		}
		f := &face{Font: parsed}
		var buf sfnt.Buffer
		for r := range rune(latin) {
			f.latin[r] = -1
			if g, err := f.GlyphIndex(&buf, r); err != nil || g == 0 || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) {
				continue
			}
			if a, ok := f.read(&buf, r); ok {
				f.latin[r] = a
			}
		}
		return f
	})
}

func faceOf(bold bool) *face {
	if bold {
		return faces[1]()
	}
	return faces[0]()
}

// advance is how wide a letter is, in units of the font.
func (f *face) advance(r rune) (a fixed.Int26_6, ok bool) {
	if r < latin && f.latin[r] >= 0 {
		return f.latin[r], true
	}
	return f.read(new(sfnt.Buffer), r) // which is large, and few letters need one
}

func (f *face) read(buf *sfnt.Buffer, r rune) (a fixed.Int26_6, ok bool) {
	g, err := f.GlyphIndex(buf, r)
	if err != nil {
		return 0, false
	}
	a, err = f.GlyphAdvance(buf, g, fixed.I(int(f.UnitsPerEm())), font.HintingNone)
	return a, err == nil
}

// plain tells whether a text is made of letters in the Latin blocks alone, which
// are printed as they are.
func (f *face) plain(s string) bool {
	for _, r := range s {
		if r >= latin || f.latin[r] < 0 {
			return false
		}
	}
	return true
}

// TextWidth is the length in mm of a line of text in a font of the given size.
func TextWidth(s string, size float64, bold bool) float64 {
	f := faceOf(bold)
	var sum fixed.Int26_6
	for _, r := range Printable(s) {
		if a, ok := f.advance(r); ok {
			sum += a
		}
	}
	return float64(sum) / float64(fixed.I(int(f.UnitsPerEm()))) * size
}

// Printable is s as the font can show it: composed, on one line, without
// control characters, and with "?" for what it has no glyph for.
func Printable(s string) string {
	f := faceOf(false)
	if f.plain(s) {
		return s
	}
	var buf sfnt.Buffer
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r):
			return -1
		case r > 0xFFFF || r == unicode.ReplacementChar:
			return '?'
		}
		if g, err := f.GlyphIndex(&buf, r); err != nil || g == 0 {
			return '?'
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(s, "?")))
}

// Width is the length of the text, mm.
func (t *Text) Width() float64 { return TextWidth(t.S, t.Size, t.Bold) }

// Start is where the text's baseline begins.
func (t *Text) Start() r2.Vec {
	back := [...]float64{0, 0.5, 1}[t.Align] * t.Width()
	return r2.Sub(t.At, r2.Scale(back, r2.Vec{X: math.Cos(t.Angle), Y: math.Sin(t.Angle)}))
}

// Corners are those of the rectangle that holds the letters, from descent to
// capital height, counter-clockwise from the start of the baseline.
func (t *Text) Corners() [4]r2.Vec {
	along := r2.Vec{X: math.Cos(t.Angle), Y: math.Sin(t.Angle)}
	up := r2.Vec{X: -along.Y, Y: along.X}
	a := r2.Add(t.Start(), r2.Scale(-Descent*t.Size, up))
	b := r2.Add(a, r2.Scale(t.Width(), along))
	rise := r2.Scale((Descent+CapHeight)*t.Size, up)
	return [4]r2.Vec{a, b, r2.Add(b, rise), r2.Add(a, rise)}
}
