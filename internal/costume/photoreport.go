package costume

import (
	"context"
	"math"
	"slices"
	"strings"

	"tasset/body"
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
	Readings    []ReadingReport    `json:"readings"` // of rulers laid over pictures
	Traced      []TracedReport     `json:"traced"`   // outlines that become flat pieces
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
	Name    string     `json:"name"`
	At      [2]float64 `json:"at"` // px
	Where   string     `json:"where"`
	Off     float64    `json:"off"`     // from where the other marks put it
	Fits    bool       `json:"fits"`    // false: the others do not expect it there
	Checked bool       `json:"checked"` // the others would show it if it were wrong
}

// SizeReport is a size that photographs gave.
type SizeReport struct {
	Name      string  `json:"name"`
	Over      string  `json:"over,omitempty"` // what it was photographed over; not taken off here
	Value     float64 `json:"value"`
	PlusMinus float64 `json:"plusMinus"`
	Checked   bool    `json:"checked"` // other marks check those that it hangs on
	HowTo     string  `json:"howTo"`
	Shown     string  `json:"shown"` // in the maker's units
	ShownPM   string  `json:"shownPlusMinus"`
}

// ReadingReport is a length that a ruler laid over a picture read.
type ReadingReport struct {
	Name      string  `json:"name"`
	Picture   string  `json:"picture"`
	Where     string  `json:"where"`
	Value     float64 `json:"value"`
	PlusMinus float64 `json:"plusMinus"`
	Checked   bool    `json:"checked"` // a known length on the same picture gives its scale
	Shown     string  `json:"shown"`
	ShownPM   string  `json:"shownPlusMinus"`
}

// TracedReport is the outline of a flat piece.
type TracedReport struct {
	Name    string  `json:"name"`
	Picture string  `json:"picture"`
	Where   string  `json:"where"`
	Width   float64 `json:"width"`
	Height  float64 `json:"height"`
	Share   float64 `json:"share"`   // half-width of the 95 % interval of its size, as a share of it
	Checked bool    `json:"checked"` // a known length on the picture gives its scale
	Shown   string  `json:"shown"`
}

// PhotoReport says what the photographs told: of them, and of what lies over
// them. Its findings leave out those that concern the tape alone. Beside an error
// it has those that were made before it.
func (f *Folder) PhotoReport(ctx context.Context) (PhotoReport, error) {
	out := PhotoReport{Photographs: []PhotographReport{}, Sizes: []SizeReport{}, Readings: []ReadingReport{}, Traced: []TracedReport{}, Findings: []report.Finding{}}
	r, err := f.Estimate(ctx)
	if err != nil {
		if r != nil {
			out.Findings = r.Findings
		}
		return out, err
	}
	if r.Photos != nil {
		for _, s := range r.Photos.Shots {
			out.Photographs = append(out.Photographs, r.Photos.photograph(s))
		}
		out.Sizes = f.sizes(r.Photos)
		if err := f.form(r, nil); err != nil {
			r.PhotoNotes = append(r.PhotoNotes, report.Notef("head form", "The head could not be stood on a body form: %v.", err))
		}
	}
	for _, o := range r.Over.Readings {
		out.Readings = append(out.Readings, ReadingReport{Name: o.Name, Picture: o.Picture, Where: o.Where, Value: units.Round(o.Value), PlusMinus: units.Round(o.HalfWidth()), Checked: o.Checked,
			Shown: units.Format(o.Value, f.Units()), ShownPM: units.FormatDoubt(o.HalfWidth(), f.Units())})
	}
	for _, t := range r.Over.Traced {
		out.Traced = append(out.Traced, f.traced(t))
	}
	for _, g := range r.Findings {
		if f.ofPhotographs(r, g) {
			out.Findings = append(out.Findings, g)
		}
	}
	out.Findings = append(out.Findings, r.PhotoNotes...)
	return out, nil
}

// sizes are what the photographs measured, as it goes into the estimate.
func (f *Folder) sizes(p *Photos) []SizeReport {
	var out []SizeReport
	seen := f.seen(p)
	for _, l := range p.Solution.Lengths {
		over := ""
		if seen != nil {
			if i := slices.Index(seen.Names, body.Name(l.Name)); i >= 0 {
				l.Value, l.SD = seen.Values[i], math.Sqrt(seen.Covariance[i*len(seen.Names)+i])
				if seen.Over != nil {
					over = seen.Over[i]
				}
			}
		}
		out = append(out, SizeReport{Name: l.Name, Over: over, Value: units.Round(l.Value), PlusMinus: units.Round(l.HalfWidth()), Checked: l.Checked,
			HowTo: l.HowTo, Shown: units.Format(l.Value, f.Units()), ShownPM: units.FormatDoubt(l.HalfWidth(), f.Units())})
	}
	return out
}

// ofPhotographs tells whether a finding concerns photographs: not one on a size
// that only the tape took.
func (f *Folder) ofPhotographs(r *Result, g report.Finding) bool {
	for _, m := range r.Measurements.All() {
		if strings.HasPrefix(g.Subject, string(m.Name)) {
			seen := f.seen(r.Photos)
			return seen != nil && slices.Contains(seen.Names, m.Name)
		}
	}
	return true
}

// traced says how large a traced outline is.
func (f *Folder) traced(o Outline) TracedReport {
	return TracedReport{Name: o.Name, Picture: o.Picture, Where: o.Where, Width: units.Round(o.Width), Height: units.Round(o.Height), Share: units.Round(o.Share), Checked: o.Checked,
		Shown: units.Format(o.Width, f.Units()) + " wide, " + units.Format(o.Height, f.Units()) + " high"}
}

// subject is whom a view shows, as it was solved; nil if it was not.
func (p *Photos) subject(v photo.View) *photo.Subject {
	switch {
	case p.Solution == nil:
		return nil
	case v.OfHead():
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
		out.Marks = append(out.Marks, MarkReport{Name: m.Name, At: [2]float64{m.At.X, m.At.Y}, Where: m.Where, Off: units.Round(fit.MM), Fits: fit.Fits(), Checked: fit.Checked()})
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
