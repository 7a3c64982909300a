package photo

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/internal/geom"
	"tasset/internal/report"
)

// onSkin are the head's landmarks that lie on a form's skin; ears, nose and eyes
// stand on it or in it.
var onSkin = []string{"brow middle", "nose root", "chin", "crown", "back of the head", "left side of the head", "right side of the head"}

// misfitMM is by how much a form may leave the photographed head before it is
// doubted: about what a form's sections miss real heads by. Judgement.
const misfitMM = 10

// On stands a solved head on a form: the middle of the tragions on the form's,
// level by ear and eye, not scaled. The frame is bodyFromSubject. What then
// still differs is a finding, in mm.
func (s *Subject) On(form *body.Form) (geom.Frame, []report.Finding) {
	head, _ := form.Part(body.Head, body.Both)
	eyes := form.Eyes()
	stand := head.Frame
	at := s.model.landmark(s.best.x)
	f := s.model.fig
	own := geom.Lerp(at(f.must("left pupil")), at(f.must("right pupil")), .5)
	its := head.Frame.Local(geom.Lerp(eyes[0], eyes[1], .5))
	// turned about x until eye and ear are at the form's angle
	turn := math.Atan2(own.Y, own.Z) - math.Atan2(its.Y, its.Z)
	sin, cos := math.Sincos(turn)
	stand.Y, stand.Z = head.Frame.Dir(r3.Vec{Y: cos, Z: sin}), head.Frame.Dir(r3.Vec{Y: -sin, Z: cos})
	return stand, s.misfit(head, stand)
}

// gap is how far a landmark stands out of a form's skin, mm.
type gap struct {
	name string
	out  float64
}

// misfit says by how much the form's head leaves the photographed one.
func (s *Subject) misfit(head *body.Part, stand geom.Frame) []report.Finding {
	skin := geom.NewLocator(head.Mesh())
	var gaps []gap
	var sum float64
	for _, n := range onSkin {
		p, ok := s.Point(n)
		if !ok {
			continue
		}
		d, _ := skin.Distance(head.Frame.Local(stand.Point(p.At)))
		gaps = append(gaps, gap{n, d})
		sum += d * d
	}
	if len(gaps) == 0 {
		return nil
	}
	sort.SliceStable(gaps, func(i, j int) bool { return math.Abs(gaps[i].out) > math.Abs(gaps[j].out) })
	var words []string
	for _, g := range gaps[:min(4, len(gaps))] {
		side := "outside"
		if g.out < 0 {
			side = "inside"
		}
		words = append(words, fmt.Sprintf("%s %.0f mm %s", g.name, math.Abs(g.out), side))
	}
	rms := math.Sqrt(sum / float64(len(gaps)))
	g := report.Notef("head form", "Stood on the form by ears and eyes, the photographed head differs from it by %.0f mm (root mean square): %s the form.", rms, strings.Join(words, ", "))
	if math.Abs(gaps[0].out) > misfitMM {
		g.Level = report.Doubt
		g.Perhaps = "Hair that was not pressed flat, a mark that is off, or a head that the form cannot follow; add padding or ease there."
	}
	return []report.Finding{g}
}
