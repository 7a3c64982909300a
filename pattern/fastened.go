package pattern

import (
	"fmt"
	"strings"

	"tasset/body"
	"tasset/internal/report"
	"tasset/pattern/template"

	"gonum.org/v1/gonum/spatial/r3"
)

// fastened is a fastening with its formulas evaluated.
type fastened struct {
	kind, name    string
	number        int
	width, length float64 // of a strap or strip, mm; a strap is as long as its path asks for
	girth         float64 // of what a strap goes round behind the piece, mm; 0: not said
	w, h          float64 // of the mark; of a strap's, across and along the strap
	mirror        bool    // also on the other side
	face          string  // that this part is on
	there         string  // and the other one
	part          string  // flat part of this piece that the other one is on; "": none
	by            *r3.Vec // place on the body by way of which a strap goes, body axes; nil: none
}

func (e *evaluator) fastened(f template.Fastening, number int) fastened {
	out := fastened{kind: f.Kind, name: f.Name, number: number, width: e.size(f.Width, "width of the "+f.Kind), length: e.size(f.Length, "length of the "+f.Kind), girth: e.girth(f.Girth), mirror: f.Mirror}
	if out.name == "" {
		out.name = f.Kind
	}
	out.face, out.there = faces(f)
	out.part = f.Part
	switch {
	case out.strapped():
		if out.width == 0 {
			out.width = strapWidth
		}
		out.w, out.h = out.width, out.width+patchMargin
	case f.Diameter.Set():
		out.w = max(e.size(f.Diameter, "diameter of the "+f.Kind), leastMark)
		out.h = out.w
	case f.Kind == "magnet pair" || f.Kind == "snap" || f.Kind == "pivot":
		out.w, out.h = buttonSize, buttonSize
	default:
		out.w, out.h = max(out.width, leastMark), max(out.length, leastMark)
	}
	return out
}

// faces are those that the two parts of a fastening are on. Hook-and-loop that is
// placed holds one thing on another: it is outside on the one that lies under.
func faces(f template.Fastening) (here, there string) {
	here = f.Face
	if here == "" {
		here = "inside"
		if f.Kind == "hook-and-loop" {
			here = "outside"
		}
	}
	switch {
	case f.Kind != "hook-and-loop":
		return here, here
	case here == "inside":
		return here, "outside"
	}
	return here, "inside"
}

// mostGirth is the girth of the largest thing that a strap goes round, mm: more is
// a slip.
const mostGirth = 2000.0

func (e *evaluator) girth(f template.Formula) float64 {
	v := e.num(f)
	if e.err == nil && !(v >= 0 && v <= mostGirth) {
		e.err = wrong(f, "what the strap goes round is %.4g mm round; it can be from 0 to %g mm", v, mostGirth)
	}
	return v
}

// strapped tells whether it is a band between two anchors.
func (f *fastened) strapped() bool {
	return f.kind == "strap and buckle" || f.kind == pullStrap || f.kind == "elastic"
}

// pullStrap is a strap that opens by a pull: one end is fixed, the other one holds by
// hook-and-loop.
const pullStrap = "strap with hook-and-loop"

// ends are what the marks of its two parts say. A magnet's faces are turned so
// that the two parts draw each other.
func (f *fastened) ends() (one, other string) {
	said := fmt.Sprintf("%s %d", f.name, f.number)
	switch f.kind {
	case "magnet pair":
		return said + ", + out", said + ", - out"
	case "snap":
		return said + ", stud", said + ", socket"
	case "strap and buckle":
		return said + ", strap, " + f.face, said + ", buckle, " + f.there
	case pullStrap:
		return said + ", strap, " + f.face, said + ", loops for the hooks at its end, " + f.there
	case "elastic":
		return said + ", " + f.face, said + ", " + f.there
	case "hook-and-loop":
		return said + ", hooks, " + f.face, said + ", loops, " + f.there
	}
	return said, said
}

// onBothCopies is what the mark of both parts says that is cut twice, once turned over.
func (f *fastened) onBothCopies() string {
	one, other := f.ends()
	if one == other {
		return one
	}
	return one + "; on the copy turned over: " + strings.TrimPrefix(other, fmt.Sprintf("%s %d, ", f.name, f.number))
}

// pullsOpen holds what goes round a neck to fastenings that open by a pull
// (common practice, no source).
func (b *builder) pullsOpen(e *evaluator) {
	if s := b.stand.segment; s != body.Head && s != body.Neck {
		return
	}
	for _, f := range b.template.Fastenings {
		if (f.Kind == "strap and buckle" || f.Kind == "lacing") && e.on(f.When) {
			b.findings = append(b.findings, report.Finding{Level: report.Doubt, Subject: b.order.Name, Where: b.order.Where,
				Said:    fmt.Sprintf("it is closed by %s; whatever goes round the neck must open by a pull.", f.Kind),
				Perhaps: fmt.Sprintf("Use hook-and-loop, snaps, a magnet pair or elastic instead, in %s:%d.", b.template.File, f.Line)})
		}
	}
}
