package photo

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/internal/report"
)

// Limits beyond which a finding is made. Judgement, but for what the reference's
// simulation tells of false alarms.
const (
	unlikely   = 3.0                // deviations of a chin
	wrongRuler = 2.7                // deviations of a ruler: doubts 94 of 100 rulers of 300 mm that are called 330, and 2 or 3 of 100 right ones
	surelyOff  = 4.0                // above this it is a problem, not a doubt: 65 and 0 of 100
	worseMarks = 1.5                // spread of marks: a note
	wrongMarks = 3.0                // spread: a name or a view must be wrong
	tiltMost   = 12 * math.Pi / 180 // of a ruler
	cardMost   = 25 * math.Pi / 180 // of a card, whose slant is seen
	turnMost   = 20 * math.Pi / 180 // of a subject from its view
)

// doubts are the findings about a solved subject, in words. Where scales
// contradict each other, what may follow from that alone is not doubted.
func (s *Subject) doubts(ctx context.Context, scales verdict) []report.Finding {
	out := s.doubtSearch()
	var chin []report.Finding
	var of Fit
	if s.model.fig.skull != nil && !scales.open { // a body's chin tells no size
		chin, of = s.doubtChin()
	}
	out = append(append(out, s.doubtMarks(ctx, of)...), chin...)
	out = append(out, scales.said...)
	if !scales.open {
		out = append(out, s.doubtTilts(scales.blamed)...)
	}
	for i := range s.Shots {
		out = append(out, s.doubtShot(i, !scales.open)...)
	}
	if own := s.model.fig.own; own != nil {
		out = append(out, own(s)...)
	}
	return append(out, s.doubtUnchecked()...)
}

func (s *Subject) doubtSearch() []report.Finding {
	var out []report.Finding
	if !s.Settled {
		g := report.Doubtf(s.model.fig.name+" photographs", "The marks contradict each other so much that the search for the cameras did not come to rest; sizes may be off by more than they say.")
		if f, ok := s.worst(); ok {
			g.Perhaps = fmt.Sprintf("Look first at %s in %s, which fits worst.", f.Name, s.Shots[f.Shot].Name)
			g.Where = s.Shots[f.Shot].Marks[f.Mark].Where
		}
		out = append(out, g)
	}
	switch {
	case s.Spread > wrongMarks:
		g := report.Problemf(s.model.fig.name+" photographs", "The marks miss each other %.1f times as far as careful marks do. Sizes are not to be trusted, though their deviations were widened as much.", s.Spread)
		g.Perhaps = "A view, or the names in a picture, are wrong: look at the picture with the most marks that do not fit."
		out = append(out, g)
	case s.Spread > worseMarks:
		g := report.Doubtf(s.model.fig.name+" photographs", "The marks miss each other %.1f times as far as careful marks do, about %.0f mm instead of %.0f; the deviations of all sizes were widened as much.", s.Spread, s.Spread*s.usualClick(), s.usualClick())
		g.Perhaps = "Mark again at a larger scale, or check that face and head were still between the pictures."
		out = append(out, g)
	}
	return out
}

// worst is the mark that is furthest from what the others expect.
func (s *Subject) worst() (worst Fit, ok bool) {
	for _, f := range s.Fits {
		if !ok || f.Surprise > worst.Surprise {
			worst, ok = f, true
		}
	}
	return worst, ok
}

// usualClick is the root mean square of the deviations that were expected, mm.
func (s *Subject) usualClick() float64 {
	var sum, n float64
	for i, v := range s.model.views {
		scale := s.Cameras[i].Focal / math.Exp(s.best.x[v.at+3])
		for _, g := range v.sights {
			k := min(g.su, g.sv) / scale
			sum, n = sum+k*k, n+1
		}
	}
	return max(math.Sqrt(sum/n), .5)
}

// doubtMarks names the marks that do not fit, the worst first, but for one that
// is told of already.
func (s *Subject) doubtMarks(ctx context.Context, told Fit) []report.Finding {
	worst := append([]Fit(nil), s.Fits...)
	sort.SliceStable(worst, func(i, j int) bool { return worst[i].Surprise > worst[j].Surprise })
	var out []report.Finding
	for _, f := range worst {
		if f.Surprise <= surprising {
			break
		}
		if f == told {
			continue
		}
		shot := s.Shots[f.Shot]
		m := shot.Marks[f.Mark]
		g := report.Doubtf(fmt.Sprintf("%s in %s", f.Name, shot.Name), "It stands %.0f mm from where all other marks expect it.", s.missBy(f))
		g.Where = m.Where
		var rivals []string
		if len(out) < tried { // each is a search of its own
			rivals = s.rivals(ctx, f)
		}
		g.Perhaps = s.lookAgain(f, rivals)
		if len(rivals) > 0 && s.missBy(f) > shot.View.rivalsMost() {
			g.Level = report.Problem
			g.Said += " Nothing tells which of these marks is wrong, so sizes may be off by more than their ±."
		}
		out = append(out, g)
	}
	return out
}

// rivalsMost is from how many mm on two marks that contradict each other are a
// problem if either may be wrong, as sizes may follow the wrong one. Judgement:
// clean marks of heads never did so in 300 sets, those of bodies reached 23 mm,
// twice in 400.
func (v View) rivalsMost() float64 {
	if v.OfHead() {
		return 8
	}
	return farOnBody
}

// lookAgain tells where a mark that does not fit is expected. Rivals are the
// pictures whose mark of the landmark may be the wrong one as well.
func (s *Subject) lookAgain(f Fit, rivals []string) string {
	l := s.model.fig.landmarks[s.model.fig.must(f.Name)]
	at := fmt.Sprintf("near [%.0f, %.0f]", f.Expected.X, f.Expected.Y)
	switch l.rim {
	case uAxis:
		at = fmt.Sprintf("near x = %.0f (how high it is marked does not count)", f.Expected.X)
	case vAxis:
		at = fmt.Sprintf("near y = %.0f (how far to the side it is marked does not count)", f.Expected.Y)
	}
	look := "Look at it again"
	if len(rivals) > 0 {
		look = fmt.Sprintf("Look at it again, and at the one in %s: one of them is wrong", strings.Join(rivals, " and in "))
	}
	return fmt.Sprintf("%s; the others expect it %s. %s", look, at, l.HowTo)
}

// missBy is how far a mark is from where the others expect it, mm.
func (s *Subject) missBy(f Fit) float64 {
	m := s.Shots[f.Shot].Marks[f.Mark]
	d, _ := s.Distance(f.Shot)
	u, v := f.Expected.X-m.At.X, f.Expected.Y-m.At.Y
	switch s.model.fig.landmarks[s.model.fig.must(f.Name)].rim {
	case uAxis:
		v = 0
	case vAxis:
		u = 0
	}
	return math.Hypot(u, v) * d / s.Cameras[f.Shot].Focal
}

// doubtUnchecked lists the points that nothing checks.
func (s *Subject) doubtUnchecked() []report.Finding {
	var names []string
	for _, p := range s.Points {
		if !p.Checked {
			names = append(names, p.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	g := report.Notef(s.model.fig.name+" photographs", "Nothing checks these points, so a slip there would not show: %s.", strings.Join(names, ", "))
	g.Perhaps = "Place them twice, or mark them in one more picture, from the other side for instance."
	if 2*len(names) > len(s.Points) {
		few := fmt.Sprintf("%d of the %d", len(names), len(s.Points))
		if len(names) == len(s.Points) {
			few = fmt.Sprintf("All %d", len(names))
		}
		g.Said = fmt.Sprintf("%s points are seen in too few pictures for others to check them: a slip there would not show, even one of centimetres.", few)
		g.Perhaps = "Look at the marks drawn on the pictures once more, or mark them in one more picture."
	}
	return []report.Finding{g}
}

// doubtChin tells whether the chin stood lower or higher in one picture: a mouth
// that was open. It gives the mark that this explains.
func (s *Subject) doubtChin() (out []report.Finding, of Fit) {
	most := unlikely
	for _, f := range s.Fits {
		v := s.model.views[f.Shot]
		k := slices.IndexFunc(v.sights, func(g sight) bool { return g.mark == f.Mark })
		if f.Name != "chin" {
			continue
		}
		down, sd, left := s.shift(v, k, r3.Vec{Y: -1})
		if math.Abs(down)/sd <= most || left > surprising/2 {
			continue
		}
		most, of = math.Abs(down)/sd, f
		word, why := "lower", "The mouth was probably open there"
		if down < 0 {
			word, why = "higher", "The mouth was probably open in the others"
		}
		g := report.Doubtf("chin in "+s.Shots[f.Shot].Name, "The chin stands %.0f mm %s than the other pictures show it (± %.0f); face length and chin to crown suffer.", math.Abs(down), word, 1.96*sd)
		g.Where = s.Shots[f.Shot].Marks[f.Mark].Where
		g.Perhaps = why + ": take the pictures with teeth closed, or leave that chin out."
		out = []report.Finding{g}
	}
	return out, of
}

// doubtShot looks at one camera; at its distance only if that is sure.
func (s *Subject) doubtShot(i int, sure bool) []report.Finding {
	var out []report.Finding
	shot, v := s.Shots[i], s.model.views[i]
	d, _ := s.Distance(i)
	if shot.F35 == 0 {
		g := shot.doubt("Its focal length is not known. The ruler still gives the scale, but how near the camera stood, and so how large things in front of the ruler look, is less sure; the deviations hold that.")
		if shot.Distance > 0 || s.model.fig.skull != nil && d > s.model.fig.near { // bodies are marked in too few pictures
			g.Level = report.Note
		}
		g.Perhaps = `Give it as on 35 mm film: "focal length: 26 mm"; the camera's data sheet or the original file tells it.`
		out = append(out, g)
	} else if sure && d < s.model.fig.near {
		g := shot.doubt("It was taken from %.2f m. From so near everything in front of the ruler looks large, and %s.", d/1000, s.model.fig.nearCosts)
		g.Perhaps = s.model.fig.stand
		out = append(out, g)
	}
	turn := math.Remainder(s.best.x[v.at]-shot.View.yaw(), 2*math.Pi)
	if math.Abs(turn) > turnMost {
		g := shot.doubt("It is labelled %s, but is turned %.0f° away from that.", shot.View, math.Abs(turn)*180/math.Pi)
		if near := shot.View.nearest(s.best.x[v.at]); near != shot.View {
			g.Perhaps = fmt.Sprintf("It may be a %s picture.", near)
		}
		out = append(out, g)
	}
	return out
}

// nearest is the view of the same subject that is turned most like a yaw.
func (v View) nearest(yaw float64) View {
	best := v
	for _, w := range Views() {
		if w.OfHead() == v.OfHead() && math.Abs(math.Remainder(yaw-w.yaw(), 2*math.Pi)) < math.Abs(math.Remainder(yaw-best.yaw(), 2*math.Pi)) {
			best = w
		}
	}
	return best
}
