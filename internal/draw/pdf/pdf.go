// Package pdf writes pages as a PDF document at exactly their size: searchable
// text, a bookmark a page, no scaling asked for, the same bytes every time.
package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"tasset/internal/draw"
	"tasset/internal/units"

	"github.com/jung-kurt/gofpdf"
	"gonum.org/v1/gonum/spatial/r2"
)

// Info is what the document says of itself.
type Info struct {
	Title   string
	Author  string
	Subject string
}

// MaxSide is the longest side of a page that readers accept: 14,400 units of
// 1/72 inch (source: ISO 32000-1:2008, Annex C, table C.1).
const MaxSide = 14400 * 25.4 / 72

const pointsPerMM = 72 / 25.4

// Write writes the pages as one document. It is an error when there is no page,
// or one is too small or too large for readers.
func Write(w io.Writer, pages []draw.Page, info Info) error {
	if len(pages) == 0 {
		return fmt.Errorf("a PDF needs at least one page; none was drawn")
	}
	doc := begin(info)
	lines := linesOf(pages)
	var seen pictures
	for i, p := range pages {
		if p.Width < 2 || p.Height < 2 || p.Width > MaxSide || p.Height > MaxSide {
			return fmt.Errorf("page %d is %.0f × %.0f mm; each side must be from 2 to %.0f mm", i+1, p.Width, p.Height, MaxSide)
		}
		if err := seen.page(doc, p, lines[i]); err != nil {
			return fmt.Errorf("page %d: %w", i+1, err)
		}
	}
	var raw bytes.Buffer
	if err := doc.Output(&raw); err != nil {
		return fmt.Errorf("the PDF could not be written: %w", err)
	}
	packed, err := compress(raw.Bytes(), len(pages))
	if err != nil {
		return err
	}
	out, err := addViewerPrefs(packed, "/PrintScaling /None /PickTrayByPDFSize true /Duplex /Simplex")
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}

func begin(info Info) *gofpdf.Fpdf {
	doc := gofpdf.New("P", "mm", "A4", "")
	doc.SetCompression(false) // but of pages, which are packed at the end, it packs all the same
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.SetCellMargin(0)
	doc.SetCatalogSort(true)
	fixed := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // no clock: same input, same bytes
	doc.SetCreationDate(fixed)
	doc.SetModificationDate(fixed)
	doc.SetProducer("tasset", true)
	doc.SetTitle(draw.Printable(info.Title), true)
	if info.Author != "" {
		doc.SetAuthor(draw.Printable(info.Author), true)
	}
	if info.Subject != "" {
		doc.SetSubject(draw.Printable(info.Subject), true)
	}
	doc.AddUTF8FontFromBytes("sans", "", draw.FontBytes(false))
	doc.AddUTF8FontFromBytes("sans", "B", draw.FontBytes(true))
	return doc
}

// linesOf writes the paths of all pages, one after the other for each page.
func linesOf(pages []draw.Page) [][]string {
	out := make([][]string, len(pages))
	beside(len(pages), func() func(int) {
		return func(i int) {
			for _, it := range pages[i].Items {
				if p, ok := it.(*draw.Path); ok {
					out[i] = append(out[i], string(path(p)))
				}
			}
		}
	})
	return out
}

// page writes a page, whose paths are written already.
func (ps *pictures) page(doc *gofpdf.Fpdf, p draw.Page, lines []string) error {
	doc.AddPageFormat("P", gofpdf.SizeType{Wd: p.Width, Ht: p.Height})
	if p.Title != "" {
		doc.Bookmark(draw.Printable(p.Title), 0, 0)
	}
	for _, it := range p.Items {
		switch it := it.(type) {
		case *draw.Path:
			doc.RawWriteStr(lines[0])
			lines = lines[1:]
		case *draw.Text:
			writeText(doc, p.Height, it)
		case *draw.Picture:
			if err := ps.write(doc, p.Height, it); err != nil {
				return err
			}
		}
	}
	return nil
}

func writeText(doc *gofpdf.Fpdf, height float64, t *draw.Text) {
	s := draw.Printable(t.S)
	if s == "" {
		return
	}
	style := ""
	if t.Bold {
		style = "B"
	}
	doc.SetFont("sans", style, t.Size*pointsPerMM)
	doc.SetTextColor(int(t.Color.R), int(t.Color.G), int(t.Color.B))
	at := t.Start()
	if t.Angle == 0 {
		doc.Text(at.X, height-at.Y, s)
		return
	}
	doc.TransformBegin()
	doc.TransformRotate(units.Deg(t.Angle), at.X, height-at.Y)
	doc.Text(at.X, height-at.Y, s)
	doc.TransformEnd()
}

// millimetres opens a space of millimetres; "Q" closes it.
const millimetres = "q 2.83464567 0 0 2.83464567 0 0 cm\n"

func clipTo(b []byte, r *draw.Rect) []byte {
	if r == nil {
		return b
	}
	size := r2.Sub(r.Max, r.Min)
	return append(num(b, r.Min.X, r.Min.Y, size.X, size.Y), "re W n\n"...)
}

// path writes a path in a space of millimetres with four decimals: gofpdf's own
// lines are rounded to 1/100 point, 0.0018 mm.
func path(p *draw.Path) []byte {
	verb := verbOf(p)
	if verb == "" {
		return nil
	}
	b := clipTo([]byte(millimetres), p.Clip)
	b = stroke(b, p.Stroke)
	if p.Fill != nil {
		b = append(color(b, *p.Fill), "rg\n"...)
	}
	for _, sub := range p.Subpaths {
		b = line(b, sub, p.Closed)
	}
	return append(b, verb+"\nQ"...)
}

func verbOf(p *draw.Path) string {
	switch {
	case p.Fill != nil && p.Stroke.Width > 0:
		return "B*"
	case p.Fill != nil:
		return "f*"
	case p.Stroke.Width > 0:
		return "S"
	}
	return ""
}

func stroke(b []byte, s draw.Style) []byte {
	if s.Width <= 0 {
		return b
	}
	b = append(num(b, s.Width), "w 1 j "...)
	b = append(color(b, s.Color), "RG\n"...)
	if len(s.Dash) > 0 {
		b = append(num(append(b, '['), s.Dash...), "] 0 d\n"...)
	}
	return b
}

func line(b []byte, pts []r2.Vec, closed bool) []byte {
	for i, p := range pts {
		op := "l\n"
		if i == 0 {
			op = "m\n"
		}
		b = append(num(b, p.X, p.Y), op...)
	}
	if closed && len(pts) > 0 {
		b = append(b, "h\n"...)
	}
	return b
}

func color(b []byte, c draw.Color) []byte {
	return num(b, float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
}

// num writes numbers to a thousandth, as they are rounded everywhere, without
// needless zeros.
func num(b []byte, vs ...float64) []byte {
	for _, v := range vs {
		n := int64(math.Round(units.Round(v) * 1000))
		if n < 0 {
			b, n = append(b, '-'), -n
		}
		b = strconv.AppendInt(b, n/1000, 10)
		if part := n % 1000; part > 0 {
			b = append(b, '.', byte('0'+part/100), byte('0'+part/10%10), byte('0'+part%10))
			for b[len(b)-1] == '0' {
				b = b[:len(b)-1]
			}
		}
		b = append(b, ' ')
	}
	return b
}
