package svg

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

func page() draw.Page {
	return draw.Page{Width: 210, Height: 297, Title: "a < b", Items: []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{{{X: 10, Y: 10}, {X: 110, Y: 10}, {X: 110, Y: 110.00049}, {X: 10, Y: 110}}}, Closed: true, Stroke: draw.Style{Width: 0.2, Dash: []float64{4, 2}}, Layer: "cut", Clip: &draw.Rect{Max: r2.Vec{X: 200, Y: 200}}},
		&draw.Text{At: r2.Vec{X: 50, Y: 50}, Size: 4, Angle: 1, S: "3 ▸ V2 & more", Layer: "text"},
		&draw.Path{Subpaths: [][]r2.Vec{{{X: 0, Y: 0}, {X: 5, Y: 5}}}, Stroke: draw.Style{Width: 0.2}, Layer: "cut"},
	}}
}

func TestWrite_millimetresAndLayers(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, page()); err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(bytes.NewReader(b.Bytes())); ; {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, b.String())
		}
	}
	for _, want := range []string{`width="210mm" height="297mm" viewBox="0 0 210 297"`, `d="M10 287L110 287L110 187L10 187Z"`, "<title>a &lt; b</title>", "3 ▸ V2 &amp; more"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in\n%s", want, b.String())
		}
	}
	if n := strings.Count(b.String(), `<g id="cut"`); n != 1 {
		t.Errorf("%d groups for one layer", n)
	}
}

func TestWrite_embedsPictures(t *testing.T) {
	p := page()
	pic := draw.Placed([]byte("\xff\xd8\xffrest"), draw.Rect{Min: r2.Vec{X: 10, Y: 20}, Max: r2.Vec{X: 110, Y: 60}})
	pic.Layer, pic.Fade, pic.Clip = "picture", 0.25, &draw.Rect{Max: r2.Vec{X: 50, Y: 297}}
	p.Items = append(p.Items, pic)
	var b bytes.Buffer
	if err := Write(&b, p); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`<g id="picture"`, `<g clip-path="url(#clip2)"><image width="1" height="1"`, `matrix(100 0 0 40 10 237)" opacity="0.75"`, `href="data:image/jpeg;base64,/9j/cmVzdA=="`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("no %s in\n%s", want, b.String())
		}
	}
	pic.Encoded = []byte("no picture")
	if err := Write(&b, p); err == nil {
		t.Error("a picture that is none was written")
	}
}
