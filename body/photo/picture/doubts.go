package picture

import (
	"fmt"
	"math"

	"tasset/internal/report"
)

// sameShape is how far two ratios of sides may differ by rounding to whole
// pixels when a picture is made smaller.
const sameShape = 0.01

// cut compares the picture with the size that the camera noted when it was
// taken. A picture that is only smaller sees as much as before, and its focal
// length holds; one that was cut sees less.
func (p *Picture) cut(n notes) []report.Finding {
	if n.width == 0 || n.height == 0 {
		return nil
	}
	long, short := max(n.width, n.height), min(n.width, n.height)
	w, h := float64(max(p.Width, p.Height)), float64(min(p.Width, p.Height))
	if w == long && h == short {
		return nil
	}
	was := fmt.Sprintf("The camera noted %.0f × %.0f pixels; the file has %.0f × %.0f", long, short, w, h)
	if onlyCut := p.F35 * math.Hypot(long, short) / math.Hypot(w, h); math.Abs(w/h/(long/short)-1) > sameShape {
		f := report.Finding{Level: report.Doubt, Subject: p.Name,
			Said:    was + ", which is another shape: something was cut off. The focal length that the file tells no longer holds, and the middle of the picture is no longer the lens's.",
			Perhaps: "Use the picture as it came from the camera."}
		if p.F35 > 0 {
			f.Said += fmt.Sprintf(" The %.0f mm are not used.", p.F35)
			f.Perhaps += fmt.Sprintf(" If it was only cut, evenly on all sides, and not made smaller too, write \"focal length: %.0f mm\" beside it.", onlyCut)
		}
		p.F35 = 0
		return []report.Finding{f}
	}
	f := report.Notef(p.Name, "%s, of the same shape: it is taken as made smaller, not cut, and sees as much as before.", was)
	if p.F35 > 0 {
		f = report.Notef(p.Name, "%s, of the same shape. It is taken as made smaller, which leaves the focal length at %.0f mm as it is.", was, p.F35)
		if onlyCut := p.F35 * long / w; onlyCut > p.F35 {
			f.Perhaps = fmt.Sprintf("If it was cut to that shape instead, the focal length is %.0f mm: write it beside the picture.", onlyCut)
		}
	}
	return []report.Finding{f}
}

// zoomed says what a digital zoom does. The EXIF standard does not say whether
// the focal length counts it in, and cameras differ.
func (p *Picture) zoomed(n notes) []report.Finding {
	if n.zoom <= 1.01 {
		return nil
	}
	f := report.Finding{Level: report.Doubt, Subject: p.Name,
		Said:    fmt.Sprintf("The camera notes a digital zoom of %.3g: it cut the middle out of what the lens saw.", n.zoom),
		Perhaps: "It matters where the camera stood nearer than about 1 m (simulated). Shoot without digital zoom, from 1.5 to 3 m, and let the head be small in the picture."}
	if p.F35 > 0 {
		f.Said += fmt.Sprintf(" Whether the %.0f mm of focal length count it in differs between cameras and cannot be seen from the file; it is taken as counted in. If not, it is %.0f mm.", p.F35, p.F35*n.zoom)
	}
	return []report.Finding{f}
}
