package costume

import (
	"fmt"

	"tasset/body/photo"
	"tasset/body/photo/sheet"
	"tasset/internal/units"
)

// laidOver is what the costume's file lays and draws over a photograph, to be
// looked at; nil if it does not.
func (f *Folder) laidOver(p *Photos, on string) (*sheet.Over, error) {
	out := &sheet.Over{}
	for _, s := range f.Costume.Rulers {
		if s.On == on {
			out.Rulers = append(out.Rulers, f.readLine(p, s))
		}
	}
	for _, l := range f.Costume.Pictures {
		if l.On != on {
			continue
		}
		laid, err := f.laidPicture(p, l)
		if err != nil {
			return nil, err
		}
		out.Laid = append(out.Laid, *laid)
	}
	for _, d := range f.Costume.Drawn {
		if d.On == on {
			out.Curves = append(out.Curves, sheet.Curve{Says: fmt.Sprintf("%s: %s %s", d.Piece, d.Kind, d.Name), Points: d.Curve, Closed: d.Kind == "opening"})
		}
	}
	if len(out.Rulers)+len(out.Laid)+len(out.Curves) == 0 {
		return nil, nil
	}
	return out, nil
}

// readLine is a long ruler with what it reads, if the photograph was solved.
func (f *Folder) readLine(p *Photos, s Stretch) sheet.Line {
	line := sheet.Line{From: s.From, To: s.To, Says: s.Name + ": not solved"}
	if sight, _ := p.sight(s.On); sight != nil {
		if r, _, err := sight.Read(s.LongRuler); err == nil {
			line.Says = f.reads(s.Name, r)
		}
	}
	return line
}

func (f *Folder) reads(name string, r photo.Reading) string {
	return fmt.Sprintf("%s: %s ± %s", name, units.Format(r.Value, f.Units()), units.FormatDoubt(r.HalfWidth(), f.Units()))
}

// laidPicture is a picture that lies over a photograph, with what is read and
// traced on it.
func (f *Folder) laidPicture(p *Photos, l Laid) (*sheet.Laid, error) {
	pic, _, err := openPicture(f.Dir, l.Picture, l.Where, nil)
	if err != nil {
		return nil, err
	}
	l.Width, l.Height = pic.Width, pic.Height
	l.Over, _ = p.sight(l.On)
	out := &sheet.Laid{Overlay: l.Overlay, Picture: pic}
	laid, _, err := photo.Lay(l.Overlay)
	for _, s := range l.Rulers {
		line := sheet.Line{From: s.From, To: s.To, Says: s.Name + ": not solved"}
		if err == nil {
			if r, _, err := laid.Read(s.Name, s.From, s.To, s.Where); err == nil {
				line.Says = f.reads(s.Name, r)
			}
		}
		out.Rulers = append(out.Rulers, line)
	}
	if l.Outline != nil {
		out.Outline = &sheet.Curve{Says: l.Name + ": not solved", Points: l.Outline, Closed: true}
		if err == nil {
			if t, err := laid.Trace(l.Outline, l.OutlineAt); err == nil {
				out.Outline.Says = fmt.Sprintf("%s: %s wide, %s high, ± %.0f %%", l.Name, units.Format(t.Width, f.Units()), units.Format(t.Height, f.Units()), 100*t.Share)
			}
		}
	}
	return out, nil
}
