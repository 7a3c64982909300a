// Package svg writes a page as an SVG drawing in millimetres: a group a layer,
// coordinates rounded to 0.001 mm, the same bytes every time.
package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	"tasset/internal/draw"
	"tasset/internal/units"

	"gonum.org/v1/gonum/spatial/r2"
)

// Write writes one page. One user unit is one millimetre; the y axis is turned
// over, since SVG's runs down.
func Write(w io.Writer, p draw.Page) error {
	s := &writer{height: p.Height}
	width, height := n(p.Width), n(p.Height)
	s.printf(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n", width, height, width, height)
	if p.Title != "" {
		s.printf("<title>%s</title>\n", escape(p.Title))
	}
	for _, layer := range layers(p.Items) {
		s.printf("<g id=\"%s\" fill=\"none\" stroke-linejoin=\"round\">\n", escape(layer))
		for _, it := range p.Items {
			if layerOf(it) != layer {
				continue
			}
			if err := s.item(it); err != nil {
				return err
			}
		}
		s.printf("</g>\n")
	}
	s.printf("</svg>\n")
	_, err := w.Write(s.b.Bytes())
	return err
}

type writer struct {
	b      bytes.Buffer
	height float64
	clips  int
}

func (s *writer) printf(format string, a ...any) { fmt.Fprintf(&s.b, format, a...) }

func (s *writer) item(it draw.Item) error {
	switch it := it.(type) {
	case *draw.Path:
		s.path(it)
	case *draw.Text:
		s.text(it)
	case *draw.Picture:
		return s.picture(it)
	}
	return nil
}

func (s *writer) path(p *draw.Path) {
	if p.Fill == nil && p.Stroke.Width <= 0 {
		return
	}
	clip := s.clip(p.Clip)
	s.printf(`<path d="%s"%s%s%s/>`+"\n", s.data(p), fill(p.Fill), stroke(p.Stroke), clip)
}

// clip writes a rectangle to clip by and is the attribute that names it.
func (s *writer) clip(r *draw.Rect) string {
	if r == nil {
		return ""
	}
	s.clips++
	size := r2.Sub(r.Max, r.Min)
	s.printf(`<clipPath id="clip%d"><rect x="%s" y="%s" width="%s" height="%s"/></clipPath>`+"\n",
		s.clips, n(r.Min.X), n(s.height-r.Max.Y), n(size.X), n(size.Y))
	return fmt.Sprintf(` clip-path="url(#clip%d)"`, s.clips)
}

func (s *writer) data(p *draw.Path) string {
	var b strings.Builder
	for _, sub := range p.Subpaths {
		for i, v := range sub {
			b.WriteByte("ML"[min(i, 1)])
			b.WriteString(n(v.X) + " " + n(s.height-v.Y))
		}
		if p.Closed && len(sub) > 0 {
			b.WriteByte('Z')
		}
	}
	return b.String()
}

func (s *writer) text(t *draw.Text) {
	at := t.Start()
	x, y := n(at.X), n(s.height-at.Y)
	turn, weight := "", ""
	if t.Angle != 0 {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, n(-units.Deg(t.Angle)), x, y)
	}
	if t.Bold {
		weight = ` font-weight="bold"`
	}
	s.printf(`<text x="%s" y="%s" font-family="DejaVu Sans, sans-serif" font-size="%s" textLength="%s" lengthAdjust="spacingAndGlyphs"%s fill="%s"%s>%s</text>`+"\n",
		x, y, n(t.Size), n(t.Width()), weight, hex(t.Color), turn, escape(t.S))
}

// layers are the names of the layers, in the order in which they first appear.
func layers(items []draw.Item) []string {
	var names []string
	seen := map[string]bool{}
	for _, it := range items {
		if l := layerOf(it); !seen[l] {
			seen[l] = true
			names = append(names, l)
		}
	}
	return names
}

func layerOf(it draw.Item) string {
	name := ""
	switch it := it.(type) {
	case *draw.Path:
		name = it.Layer
	case *draw.Text:
		name = it.Layer
	case *draw.Picture:
		name = it.Layer
	}
	if name == "" {
		return "page"
	}
	return name
}

func fill(c *draw.Color) string {
	if c == nil {
		return ""
	}
	return ` fill="` + hex(*c) + `" fill-rule="evenodd"`
}

func stroke(s draw.Style) string {
	if s.Width <= 0 {
		return ""
	}
	out := fmt.Sprintf(` stroke="%s" stroke-width="%s"`, hex(s.Color), n(s.Width))
	if len(s.Dash) > 0 {
		lengths := make([]string, len(s.Dash))
		for i, d := range s.Dash {
			lengths[i] = n(d)
		}
		out += ` stroke-dasharray="` + strings.Join(lengths, " ") + `"`
	}
	return out
}

func hex(c draw.Color) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func n(v float64) string { return strconv.FormatFloat(units.Round(v), 'f', -1, 64) }

func escape(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(draw.Printable(s))) // a strings.Builder takes every write
	return b.String()
}
