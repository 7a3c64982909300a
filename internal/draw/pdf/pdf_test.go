package pdf

import (
	"bytes"
	"compress/zlib"
	"io"
	"strings"
	"testing"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

func TestWrite_textThatTheFontCannotShow(t *testing.T) {
	p := draw.Page{Width: 100, Height: 100, Title: "bad \xff \U0001F600", Items: []draw.Item{
		&draw.Text{At: r2.Vec{X: 10, Y: 10}, Size: 4, S: "helmet \U0001F600 \xff\n漢 ½ → é"},
		&draw.Text{S: "\u200b"},
	}}
	if err := Write(&bytes.Buffer{}, []draw.Page{p}, Info{Title: "\U0001F600"}); err != nil {
		t.Error(err)
	}
}

func TestWrite_refusesPagesThatReadersRefuse(t *testing.T) {
	for _, p := range []draw.Page{{Width: 610, Height: 5081}, {Width: 0, Height: 100}} {
		if err := Write(&bytes.Buffer{}, []draw.Page{p}, Info{}); err == nil {
			t.Errorf("a page of %v × %v mm was written", p.Width, p.Height)
		}
	}
	if err := Write(&bytes.Buffer{}, nil, Info{}); err == nil {
		t.Error("a document without pages was written")
	}
}

// Coordinates stand in the file in mm to 0.001.
func TestWrite_coordinatesAreExact(t *testing.T) {
	p := draw.Page{Width: 210, Height: 297, Items: []draw.Item{
		&draw.Path{Subpaths: [][]r2.Vec{{{X: 12.3456, Y: 100}, {X: 112.3456, Y: -0.0001}}}, Stroke: draw.Style{Width: 0.2}},
	}}
	var b bytes.Buffer
	if err := Write(&b, []draw.Page{p}, Info{}); err != nil {
		t.Fatal(err)
	}
	if text := inflated(t, b.Bytes()); !strings.Contains(text, "12.346 100 m\n112.346 0 l\n") {
		t.Errorf("the line is not in the page's content:\n%s", text)
	}
}

func inflated(t *testing.T, pdf []byte) string {
	t.Helper()
	at := bytes.Index(pdf, []byte("stream\n"))
	r, err := zlib.NewReader(bytes.NewReader(pdf[at+len("stream\n"):]))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}
