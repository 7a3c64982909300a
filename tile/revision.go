package tile

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strconv"

	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r2"
)

// Revision is a short hash of all that a page shows of a panel. It does not
// depend on where the panel lies or on the page's number.
func Revision(piece *pattern.Piece, panel *pattern.Panel) string {
	h := sha256.New()
	fmt.Fprintf(h, "%s|%s|%s|%s|%d|%d|%g|%t|%s\n", piece.Name, piece.Title, panel.Label, panel.Name, panel.Copies, panel.Flipped, piece.Foam(panel), piece.Draft, piece.DraftWhy)
	points(h, panel.Outline)
	for _, hole := range panel.Holes {
		points(h, hole)
	}
	for _, e := range panel.Edges {
		fmt.Fprintf(h, "%v|%d|%d|%s|%.3f|%.4f|%.4f|%t\n", e.Kind, e.Seam, e.Span, e.Partner, e.Allowance, e.Bevel.Min, e.Bevel.Max, e.Bevel.Undercut)
		points(h, e.Line)
		for _, n := range e.Notches {
			fmt.Fprintf(h, "%d ", n.Rank)
			points(h, []r2.Vec{n.P, n.In})
		}
	}
	for _, f := range panel.Folds {
		fmt.Fprintf(h, "%s|%s|%.4f\n", f.Kind, f.Name, f.Angle)
		points(h, f.Line)
	}
	for _, m := range panel.Marks {
		fmt.Fprintf(h, "%s|%s|%t\n", m.Kind, m.Text, m.Close)
		points(h, m.Line)
	}
	points(h, []r2.Vec{panel.Up})
	fmt.Fprintln(h, panel.Notes)
	return hex.EncodeToString(h.Sum(nil))[:6]
}

func points(w io.Writer, pts []r2.Vec) {
	var b []byte
	for _, p := range pts {
		b = append(strconv.AppendFloat(b, units.Round(p.X), 'g', -1, 64), ',')
		b = append(strconv.AppendFloat(b, units.Round(p.Y), 'g', -1, 64), ' ')
	}
	w.Write(append(b, '\n'))
}

// key tells a panel apart from all others, and from itself once it has changed.
func (p *Plan) key(w Window) string {
	return p.piece(w).Name + "|" + p.panel(w).Label + "|" + w.rev
}

// Revision is a hash of what panels show on a sheet, not of the sheet's number.
func (p *Plan) Revision(sheet int) string {
	h := sha256.New()
	for _, w := range p.Sheets[sheet].Windows {
		fmt.Fprintln(h, p.key(w), w.Row, w.Col, w.Grid != nil)
	}
	return hex.EncodeToString(h.Sum(nil))[:6]
}
