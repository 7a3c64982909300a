package picture

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"strings"

	"tasset/internal/report"

	"github.com/bep/imagemeta"
)

// notes are what the camera wrote into the file.
type notes struct {
	turn          turn
	f35           float64 // mm; 0: not known
	zoom          float64 // digital; 0: not used or not known
	width, height float64 // px, as the camera stored them; 0: not known
	camera        [3]string
}

// note takes up the camera's notes and says what is doubtful about them.
func (p *Picture) note(stored image.Config) []report.Finding {
	n, err := readNotes(p.src, p.format)
	p.turn, p.F35, p.Lens = n.turn, n.f35, n.lens()
	size := p.turn.size(image.Point{X: stored.Width, Y: stored.Height})
	p.Width, p.Height = size.X, size.Y
	var findings []report.Finding
	if err != nil {
		findings = append(findings, report.Doubtf(p.Name, "What the camera noted in the file (EXIF) is damaged and could be read in part at most (%v).", err))
	}
	findings = append(findings, p.resized(n)...)
	findings = append(findings, p.turned(n)...)
	findings = append(findings, p.zoomed(n)...)
	if wide := float64(max(size.X, size.Y)) / float64(min(size.X, size.Y)); wide > widest {
		findings = append(findings, report.Finding{Level: report.Doubt, Subject: p.Name,
			Said:    fmt.Sprintf("The picture is %.1f times as long as it is wide, like a panorama. A panorama is put together of many pictures and cannot be measured by; that this is one is a guess by its shape.", wide),
			Perhaps: "If it is one, shoot an ordinary photograph."})
	}
	return findings
}

// widest is longer than any camera's ordinary picture: 21 : 9 is 2.33 (rule of
// thumb).
const widest = 2.4

func readNotes(src []byte, f format) (notes, error) {
	var n notes
	wanted := map[string]func(v any){
		"Orientation":             func(v any) { n.turn = turn(inRange(v, 1, 8)) },
		"FocalLengthIn35mmFormat": func(v any) { n.f35 = inRange(v, 4, 3000) },
		"DigitalZoomRatio":        func(v any) { n.zoom = inRange(v, 1, 1000) },
		"ExifImageWidth":          func(v any) { n.width = inRange(v, 1, 1e6) },
		"ExifImageHeight":         func(v any) { n.height = inRange(v, 1, 1e6) },
		"Make":                    func(v any) { n.camera[0] = words(v) },
		"Model":                   func(v any) { n.camera[1] = words(v) },
		"LensModel":               func(v any) { n.camera[2] = words(v) },
	}
	seen := map[string]bool{}
	_, err := imagemeta.Decode(imagemeta.Options{
		R:           bytes.NewReader(src),
		ImageFormat: [...]imagemeta.ImageFormat{imagemeta.JPEG, imagemeta.PNG, imagemeta.WebP}[f],
		Sources:     imagemeta.EXIF,
		ShouldHandleTag: func(t imagemeta.TagInfo) bool {
			return wanted[t.Tag] != nil && !strings.Contains(t.Namespace, "IFD1") // IFD1 is the thumbnail's
		},
		HandleTag: func(t imagemeta.TagInfo) error {
			if !seen[t.Tag] {
				seen[t.Tag] = true
				wanted[t.Tag](t.Value)
			}
			return nil
		},
	})
	return n, err
}

// inRange is a number among the camera's notes, 0 if it is none or out of what
// can be.
func inRange(v any, low, high float64) float64 {
	var x float64
	switch v := v.(type) {
	case uint8:
		x = float64(v)
	case uint16:
		x = float64(v)
	case uint32:
		x = float64(v)
	case float64:
		x = v
	case interface{ Float64() float64 }:
		x = v.Float64()
	}
	if !(x >= low && x <= high) || math.IsInf(x, 0) {
		return 0
	}
	return x
}

// words are a camera's text on one line, cut off where no name is so long.
func words(v any) string {
	s, _ := v.(string)
	s = strings.Join(strings.Fields(strings.ToValidUTF8(s, "")), " ")
	if r := []rune(s); len(r) > 80 {
		s = string(r[:80])
	}
	return s
}

// lens is camera and lens on one line.
func (n notes) lens() string {
	var out []string
	for i, s := range n.camera {
		if s != "" && !(i == 0 && strings.HasPrefix(n.camera[1], s)) {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ")
}
