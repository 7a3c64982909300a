package costume

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/internal/report"
)

// sameLens is how far two focal lengths of one lens are apart at most, as a share:
// data sheets round to whole millimetres, and zooms breathe (judgement).
const sameLens = 0.05

// otherLens is how far apart they are, as a share, when one of them must be wrong:
// no rounding makes as much (judgement).
const otherLens = 0.10

// focalLength takes the focal length that the maker wrote, else the file's, and
// gives the findings that then still count.
func focalLength(s *photo.Shot, pic *picture.Picture, findings []report.Finding) []report.Finding {
	if s.F35 == 0 {
		s.F35 = pic.F35
		return findings
	}
	findings = slices.DeleteFunc(findings, picture.OfFocalLength)
	if pic.F35 == 0 {
		return findings
	}
	if off := math.Abs(s.F35/pic.F35 - 1); off > sameLens {
		g := report.Notef(s.Name, "The file says that its focal length is %.0f mm; you wrote %.0f mm, which is used.", pic.F35, s.F35)
		g.Where, g.Perhaps = s.Where, "Leave \"focal length\" out, unless you know that the file is wrong."
		if off > otherLens {
			g.Level = report.Doubt
		}
		findings = append(findings, g)
	}
	return findings
}

// toldAlready leaves out that a focal length is not known where the picture's own
// finding says why, and what to do.
func (p *Photos) toldAlready(findings []report.Finding) []report.Finding {
	return slices.DeleteFunc(findings, func(g report.Finding) bool {
		i := p.shot(g.Subject)
		return i >= 0 && p.Pictures[i].Cut && strings.HasPrefix(g.Said, "Its focal length is not known")
	})
}

// strays is how many places of one picture lie outside it at least if they were
// counted in another copy of it: fewer are slips of their own.
const strays = 3

// counted refuses a picture whose places were counted in a larger copy of it.
func counted(s photo.Shot, pic *picture.Picture) error {
	places := s.Places()
	outside := 0
	for _, p := range places {
		if p.X > float64(pic.Width) || p.Y > float64(pic.Height) {
			outside++
		}
	}
	if outside < strays {
		return nil
	}
	said := fmt.Sprintf("%s: %s has %d × %d pixels (across and down), and %d of its %d places lie outside it", s.Where, s.Name, pic.Width, pic.Height, outside, len(places))
	if pic.Resized > 0 && pic.Resized < 1 {
		return fmt.Errorf("%s; the camera took it with more, so they were probably counted in the original: use that, or multiply all places by %.3g", said, pic.Resized)
	}
	return fmt.Errorf("%s; they were probably counted in a larger copy of it: use that copy, or count them again", said)
}
