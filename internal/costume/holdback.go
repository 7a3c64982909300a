package costume

import (
	"strings"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/pattern"
)

// holdBack makes drafts of the pieces that hang on photographs while a problem
// with the photographs of that part stands: a wrong ruler or a wrong view makes
// all that they tell doubtful, however sure it looks.
func (f *Folder) holdBack(r *Result) []report.Finding {
	var out []report.Finding
	for i := range r.Set.Pieces {
		p := &r.Set.Pieces[i]
		why := f.held(p, r)
		switch {
		case why == "":
		case p.Draft:
			p.DraftWhy += "; and " + why
		default:
			p.Draft, p.DraftWhy = true, why
			out = append(out, report.Finding{Level: report.Problem, Subject: p.Name, Where: f.placeOf(p.Name),
				Said:    "this piece is a draft, not fit to cut: it hangs on photographs that have a problem.",
				Perhaps: "To make it ready, " + why + "."})
		}
	}
	return out
}

// held says what to mend before a piece is cut that hangs on photographs with a
// problem, or what to tape instead; "" if none has one.
func (f *Folder) held(p *pattern.Piece, r *Result) string {
	if f.seen(r.Photos) == nil {
		return ""
	}
	for _, v := range f.drawnOver(p.Name) {
		if place, is := f.troubled(r, v); is {
			return "mend the photographs" + place + ", over which it is drawn"
		}
	}
	var names []string
	at := ""
	for _, g := range p.Governs {
		view := photo.BodyFront
		if d, _ := body.Describe(g.Name); d.Region == body.Head {
			view = photo.HeadFront
		}
		if place, is := f.troubled(r, view); is && g.Origin != body.Taped {
			names, at = append(names, string(g.Name)), place
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "mend the photographs" + at + ", or measure " + strings.Join(names, ", ") + " with a tape"
}

// drawnOver are the views of the photographs that a piece is drawn on, or whose
// scale it is traced at.
func (f *Folder) drawnOver(piece string) []photo.View {
	var on []string
	for _, d := range f.Costume.Drawn {
		if d.Piece == piece {
			on = append(on, d.On)
		}
	}
	for _, l := range f.Costume.Pictures {
		if l.Name == piece && l.Outline != nil && l.Known == nil {
			on = append(on, l.On)
		}
	}
	var out []photo.View
	for _, s := range f.Wearer.Photos {
		if contains(on, s.Name) {
			out = append(out, s.View)
		}
	}
	return out
}

// troubled tells whether a problem with photographs stands, of the head or of the
// body as the view, and where, in brackets. Of those that could not be used at all
// no size comes, and no piece hangs on them.
func (f *Folder) troubled(r *Result, of photo.View) (place string, is bool) {
	if r.Photos.subject(of) == nil {
		return "", false
	}
	for _, g := range r.Findings {
		if g.Level != report.Problem || !f.concerns(g, of) {
			continue
		}
		if g.Where != "" {
			place = " (" + g.Where + ")"
		}
		return place, true
	}
	return "", false
}

// concerns tells whether a finding is about a photograph of the head or of the
// body, as the view, or about all of them.
func (f *Folder) concerns(g report.Finding, of photo.View) bool {
	whole := "body photographs"
	if of.OfHead() {
		whole = "head photographs"
	}
	for _, s := range f.Wearer.Photos {
		if s.View.OfHead() == of.OfHead() && (g.Subject == whole || g.Subject == s.Name || strings.HasSuffix(g.Subject, " in "+s.Name)) {
			return true
		}
	}
	return false
}

// placeOf is where a piece stands in the costume's file.
func (f *Folder) placeOf(piece string) string {
	for _, o := range f.Costume.Orders {
		if o.Name == piece {
			return o.Where
		}
	}
	for _, l := range f.Costume.Pictures {
		if l.Name == piece {
			return l.Where
		}
	}
	return ""
}
