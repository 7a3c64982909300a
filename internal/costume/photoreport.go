package costume

import (
	"context"
	"math"

	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/internal/units"
)

// PhotoReport is what the wearer's photographs told, for people and for
// scripts: lengths in mm, angles in degrees, ± as half-widths of the 95 %
// interval.
type PhotoReport struct {
	Photographs []PhotographReport `json:"photographs"`
	Sizes       []SizeReport       `json:"sizes"`
	Findings    []report.Finding   `json:"findings"`
}

// PhotographReport is one photograph: where its camera stood and how its marks
// agree with all others.
type PhotographReport struct {
	Picture     string       `json:"picture"`
	View        string       `json:"view"`
	Where       string       `json:"where"`
	Width       int          `json:"width"` // px
	Height      int          `json:"height"`
	FocalLength float64      `json:"focalLength,omitempty"` // as on 35 mm film; 0: not known
	Solved      bool         `json:"solved"`                // false: the others are not set
	Distance    float64      `json:"distance"`              // from the lens
	DistancePM  float64      `json:"distancePlusMinus"`
	Turn        float64      `json:"turn"`  // how far the camera stood to the wearer's left of where the view has it
	Above       float64      `json:"above"` // how far it looked down
	Lean        float64      `json:"lean"`  // how far it was turned about its own axis, clockwise
	Off         float64      `json:"off"`   // root mean square of the marks' misfits
	Marks       []MarkReport `json:"marks"`
}

// MarkReport is one mark of a photograph.
type MarkReport struct {
	Name    string      `json:"name"`
	At      photo.Pixel `json:"at"`
	Where   string      `json:"where"`
	Off     float64     `json:"off"`     // from where the other marks put it
	Fits    bool        `json:"fits"`    // false: the others do not expect it there
	Checked bool        `json:"checked"` // the others would show it if it were wrong
}

// SizeReport is a size that photographs gave.
type SizeReport struct {
	Name      string  `json:"name"`
	Value     float64 `json:"value"`
	PlusMinus float64 `json:"plusMinus"`
	Checked   bool    `json:"checked"` // other marks check those that it hangs on
	HowTo     string  `json:"howTo"`
	Shown     string  `json:"shown"` // in the maker's units
	ShownPM   string  `json:"shownPlusMinus"`
}

// PhotoReport says what the photographs told; its findings are those of the
// photographs alone.
func (f *Folder) PhotoReport(ctx context.Context) (PhotoReport, error) {
	p, findings, err := f.Photographs(ctx)
	out := PhotoReport{Findings: append([]report.Finding{}, findings...), Sizes: []SizeReport{}, Photographs: []PhotographReport{}}
	if err != nil || p == nil {
		return out, err
	}
	for _, s := range p.Shots {
		out.Photographs = append(out.Photographs, p.photograph(s))
	}
	for _, l := range p.Solution.Lengths {
		out.Sizes = append(out.Sizes, SizeReport{Name: l.Name, Value: units.Round(l.Value), PlusMinus: units.Round(l.HalfWidth()), Checked: l.Checked,
			HowTo: l.HowTo, Shown: units.Format(l.Value, f.Units()), ShownPM: units.Format(l.HalfWidth(), f.Units())})
	}
	return out, nil
}

// subject is whom a view shows, as it was solved; nil if it was not.
func (p *Photos) subject(v photo.View) *photo.Subject {
	if v.OfHead() {
		return p.Solution.Head
	}
	return p.Solution.Body
}

func (p *Photos) photograph(s photo.Shot) PhotographReport {
	out := PhotographReport{Picture: s.Name, View: s.View.String(), Where: s.Where, Width: s.Width, Height: s.Height, FocalLength: s.F35}
	sub, i := p.solved(s.Name, s.View)
	if sub == nil {
		return out
	}
	out.Solved = true
	d, sd := sub.Distance(i)
	out.Distance, out.DistancePM = units.Round(d), units.Round(1.96*sd)
	out.stand(sub.Cameras[i], s.View)
	var sum float64
	for _, fit := range sub.Fits {
		if fit.Shot != i {
			continue
		}
		m := sub.Shots[i].Marks[fit.Mark]
		out.Marks = append(out.Marks, MarkReport{Name: m.Name, At: m.At, Where: m.Where, Off: units.Round(fit.MM), Fits: fit.Fits(), Checked: fit.Checked()})
		sum += fit.MM * fit.MM
	}
	out.Off = units.Round(math.Sqrt(sum / float64(max(len(out.Marks), 1))))
	return out
}

// solved finds a photograph among those that were solved.
func (p *Photos) solved(name string, v photo.View) (*photo.Subject, int) {
	sub := p.subject(v)
	if sub == nil {
		return nil, 0
	}
	for i, q := range sub.Shots {
		if q.Name == name {
			return sub, i
		}
	}
	return nil, 0
}

// viewYaw is where a camera stands in a view: degrees from straight ahead to the
// wearer's left.
var viewYaw = map[photo.View]float64{photo.HeadLeft: 90, photo.BodyLeft: 90, photo.HeadRight: -90, photo.BodyRight: -90,
	photo.HeadLeftQuarter: 45, photo.HeadRightQuarter: -45}

// stand says how a camera stood in words' angles.
func (r *PhotographReport) stand(c photo.Camera, v photo.View) {
	z := c.Frame.Z
	turn := units.Deg(math.Atan2(-z.X, -z.Z)) - viewYaw[v]
	r.Turn = units.Round(math.Remainder(turn, 360))
	r.Above = units.Round(units.Deg(math.Asin(max(-1, min(1, -z.Y)))))
	r.Lean = units.Round(units.Deg(math.Atan2(-c.Frame.X.Y, -c.Frame.Y.Y)))
}
