package costume

import (
	"fmt"
	"path"

	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/pattern"
)

// Over is what was measured over pictures.
type Over struct {
	Readings []Read
	Traced   []Outline
}

// Outline is a traced outline, to be cut out as a flat piece.
type Outline struct {
	photo.Traced
	Picture   string
	Thickness float64 // mm; 0: the material's
}

// order is the flat piece.
func (o Outline) order() pattern.Order {
	return pattern.Order{Name: o.Name, Thickness: o.Thickness, Where: o.Where,
		Flat: &pattern.Flat{Points: o.Points, Corner: o.Corner, Share: o.Share, Known: o.Checked}}
}

// Read is a length that a long ruler read, and over which picture.
type Read struct {
	photo.Reading
	Picture string
}

// over measures what the costume's file lays over photographs. What lies over a
// photograph that cannot be used is left out, with a finding.
func (f *Folder) over(p *Photos) (*Over, []report.Finding, error) {
	out := &Over{}
	var findings []report.Finding
	for _, s := range f.Costume.Rulers {
		sight, why := p.sight(s.On)
		if sight == nil {
			findings = append(findings, report.Finding{Level: report.Problem, Subject: s.Name, Where: s.Where,
				Said: fmt.Sprintf("This ruler lies over %s, so that it measures nothing.", why)})
			continue
		}
		r, more, err := sight.Read(s.LongRuler)
		if err != nil {
			return nil, nil, err
		}
		out.Readings, findings = append(out.Readings, Read{r, s.On}), append(findings, more...)
	}
	for _, l := range f.Costume.Pictures {
		more, err := f.lay(l, p, out)
		if err != nil {
			return nil, nil, err
		}
		findings = append(findings, more...)
	}
	return out, findings, nil
}

// sight is a photograph to measure over; nil if there is none of that name, or
// if it could not be used: then why says it, behind "over" or "on".
func (p *Photos) sight(name string) (s *photo.Sight, why string) {
	if i := p.shot(name); i >= 0 {
		if sub, at := p.solved(name, p.Shots[i].View); sub != nil {
			s := sub.Sight(at)
			return &s, ""
		}
		return nil, name + ", which could not be used (\"tasset photo\" says why)"
	}
	var known []string
	if p != nil {
		for _, s := range p.Shots {
			known = append(known, s.Name)
		}
	}
	why = fmt.Sprintf("%s, which is not among the photographs of %s", name, WearerFile)
	if near := nearPicture(name, known); near != "" {
		why += fmt.Sprintf(" (was %s meant?)", near)
	}
	return nil, why
}

// nearPicture is the picture that a mistyped name means; "" if none is near: one in
// another folder, or a slip or two away, as names of pictures are long and alike.
func nearPicture(name string, known []string) string {
	for _, k := range known {
		if path.Base(k) == path.Base(name) {
			return k
		}
	}
	if near := report.Nearest(name, known); near != "" && report.Edits(name, near) <= 2 {
		return near
	}
	return ""
}

// lay measures a picture that is laid over a photograph. A known length on it
// gives its size without one.
func (f *Folder) lay(l Laid, p *Photos, out *Over) ([]report.Finding, error) {
	pic, _, err := openPicture(f.Dir, l.Picture, l.Where, nil) // no lens counts in it
	if err != nil {
		return nil, err
	}
	sight, why := p.sight(l.On)
	if sight == nil && l.Known == nil {
		return []report.Finding{{Level: report.Problem, Subject: l.Name, Where: l.Where,
			Said:    fmt.Sprintf("This picture lies over %s, so that it has no size and is not made.", why),
			Perhaps: "Mark that photograph there, or give a length on the thing itself that you know, as \"known\"."}}, nil
	}
	l.Width, l.Height, l.Over = pic.Width, pic.Height, sight
	laid, findings, err := photo.Lay(l.Overlay)
	if err != nil {
		return nil, err
	}
	for _, s := range l.Rulers {
		r, more, err := laid.Read(l.Name+", "+s.Name, s.From, s.To, s.Where)
		if err != nil {
			return nil, err
		}
		out.Readings, findings = append(out.Readings, Read{r, l.Picture}), append(findings, more...)
	}
	if l.Outline == nil {
		return findings, nil
	}
	traced, err := laid.Trace(l.Outline, l.OutlineAt)
	if err != nil {
		return nil, err
	}
	out.Traced = append(out.Traced, Outline{*traced, l.Picture, l.Thickness})
	return findings, nil
}
