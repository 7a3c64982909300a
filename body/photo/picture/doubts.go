package picture

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/report"
)

// sameShape is how far two ratios of sides may differ by rounding to whole
// pixels when a picture is made smaller or larger.
const sameShape = 0.01

// ofFocalLength begins the subject of what counts no longer once the maker has
// written a focal length.
const ofFocalLength = "focal length of "

// OfFocalLength tells whether a finding counts no longer once the maker has
// written the picture's focal length.
func OfFocalLength(g report.Finding) bool { return strings.HasPrefix(g.Subject, ofFocalLength) }

// resized compares the picture with the size that the camera noted when it was
// taken. A picture that is only smaller or larger sees as much as before, and its
// focal length holds; one that was cut sees less.
func (p *Picture) resized(n notes) []report.Finding {
	if n.width == 0 || n.height == 0 {
		return nil
	}
	was := n.upright(p)
	if was.same(p) {
		return nil
	}
	said := fmt.Sprintf("The camera noted %.0f × %.0f pixels; the file has %d × %d", was.w, was.h, p.Width, p.Height)
	long, short := max(was.w, was.h), min(was.w, was.h)
	w, h := float64(max(p.Width, p.Height)), float64(min(p.Width, p.Height))
	if math.Abs(w/h/(long/short)-1) > sameShape {
		return []report.Finding{p.cut(said, math.Hypot(long, short)/math.Hypot(w, h))}
	}
	factor := w / long
	p.Resized = factor
	how := "made smaller, not cut, and sees as much as before"
	if factor > 1 {
		how = "made larger after it was taken, which adds pixels and shows nothing more"
	}
	f := report.Notef(p.Name, "%s, of the same shape. It is taken as %s", said, how)
	if p.F35 > 0 {
		f.Said += fmt.Sprintf("; the focal length stays %.0f mm", p.F35)
	}
	f.Said += "."
	f.Perhaps = fmt.Sprintf("Pixels are counted in the file as it is: marks that were counted in the original must be multiplied by %.3g.", factor)
	if factor > 1 {
		f.Level, f.Perhaps = report.Doubt, "Use the picture as it came from the camera. "+f.Perhaps
	} else if p.F35 > 0 {
		f.Perhaps += fmt.Sprintf(" If it was cut to that shape instead, the focal length is %.0f mm: write it beside the picture.", p.F35/factor)
	}
	return []report.Finding{f}
}

// cut says that something was cut off, which would make the focal length longer
// by a factor if it was cut evenly, and lets the focal length go.
func (p *Picture) cut(said string, longer float64) report.Finding {
	f := report.Finding{Level: report.Doubt, Subject: ofFocalLength + p.Name,
		Said:    said + ", which is another shape: something was cut off. The focal length that the file tells no longer holds, and the middle of the picture is no longer the lens's.",
		Perhaps: "Use the picture as it came from the camera."}
	if p.F35 > 0 {
		f.Said += fmt.Sprintf(" The %.0f mm are not used.", p.F35)
		f.Perhaps += fmt.Sprintf(" If it was only cut, evenly on all sides, and not made smaller too, write \"focal length: %.0f mm\" beside it.", p.F35*longer)
	}
	p.F35, p.Cut = 0, true
	return f
}

// size is one of a picture, px.
type size struct{ w, h float64 }

// upright is the size that the camera noted, in the way that the picture stands
// now.
func (n notes) upright(p *Picture) size {
	s := size{n.width, n.height}
	if (s.w > s.h) != (p.Width > p.Height) {
		s.w, s.h = s.h, s.w
	}
	return s
}

func (s size) same(p *Picture) bool { return s.w == float64(p.Width) && s.h == float64(p.Height) }

// turned says that a picture does not stand as it was stored. Cameras store what
// their sensor saw, mostly lying, and note how to turn it; programs that turn the
// pixels leave the size that was noted as it is. So only a picture that was
// stored upright and lies now is doubtful.
func (p *Picture) turned(n notes) []report.Finding {
	stood, lies := n.height > n.width && n.width > 0, p.Width > p.Height
	switch {
	case stood && lies && p.turn.sideways():
		return []report.Finding{{Level: report.Doubt, Subject: p.Name,
			Said:    "The picture was stored upright, and yet the file says to turn it by 90°: it may lie on its side.",
			Perhaps: "Look at it in the sheets of \"tasset photo marks\"; if it lies, turn it in a picture viewer and save it, then count its marks anew."}}
	case stood && lies:
		return []report.Finding{{Level: report.Doubt, Subject: p.Name,
			Said:    fmt.Sprintf("The camera noted an upright picture, %.0f × %.0f pixels; the file lies, %d × %d: it was turned by 90°.", n.width, n.height, p.Width, p.Height),
			Perhaps: "Use the picture as it came from the camera, or turn it back and save it; then count its marks anew."}}
	}
	return nil
}

// zoomed says what a digital zoom does. The EXIF standard does not say whether
// the focal length counts it in, and cameras differ.
func (p *Picture) zoomed(n notes) []report.Finding {
	if n.zoom <= 1.01 {
		return nil
	}
	f := report.Finding{Level: report.Doubt, Subject: ofFocalLength + p.Name,
		Said:    fmt.Sprintf("The camera notes a digital zoom of %.3g: it cut the middle out of what the lens saw.", n.zoom),
		Perhaps: "It matters where the camera stood nearer than about 1 m (simulated). Shoot without digital zoom, from 1.5 to 3 m, and let the head be small in the picture."}
	if p.F35 > 0 {
		f.Said += fmt.Sprintf(" Whether the %.0f mm of focal length count it in differs between cameras and cannot be seen from the file; it is taken as counted in. If not, it is %.0f mm.", p.F35, p.F35*n.zoom)
	}
	return []report.Finding{f}
}
