package costume

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"
)

// readPosture reads how the maker says that the wearer stands. Shoulders of which
// nothing is said stand where the chest takes them.
func readPosture(v value, def units.Unit) body.Posture {
	before := len(v.r.errs)
	at := v.r.keyed(v, []string{"chest forward", "waist forward", "shoulders forward"})
	var p body.Posture
	if len(at) == 0 && len(v.r.errs) == before {
		v.fail("found nothing in it; write such as {chest forward: -1 cm}, or take it out: then the body stands as people do on average")
	}
	if e := at["chest forward"]; e != nil {
		p.ChestForward = e.forward(def)
	}
	if e := at["waist forward"]; e != nil {
		p.WaistForward = e.forward(def)
	}
	if e := at["shoulders forward"]; e != nil {
		p.ShouldersForward, p.ShouldersKnown = e.forward(def), true
	}
	if len(v.r.errs) == before {
		v.notBent(p, def)
	}
	return p
}

// forward reads how much farther forward than usual a place of the trunk stands, mm.
func (v value) forward(def units.Unit) float64 {
	before, like := len(v.r.errs), units.Format(12, def)
	d := v.length(def, like)
	if len(v.r.errs) == before && !(math.Abs(d) <= body.MostForward) {
		v.fail("found %s; write by how much farther forward over the hips than usual it stands, such as \"%s\", or \"-%s\" if farther back; no trunk stands more than %s off",
			v.asRead(d, def), like, like, units.Format(body.MostForward, def))
	}
	return d
}

// asRead is a length that cannot be, as it was typed, and if that was without a unit, what
// it was taken for and how millimetres are written.
func (v value) asRead(mm float64, def units.Unit) string {
	typed := v.text()
	if n, err := units.ParseNumber(typed); err == nil && def != units.None {
		said := fmt.Sprintf("%s, read as %s %s (units: %s)", typed, typed, def, def)
		if def != units.MM && math.Abs(n) <= body.MostForward {
			said += fmt.Sprintf("; %s mm is written \"%s mm\"", typed, typed)
		}
		return said
	}
	return typed
}

// notBent tells of a chest over the waist, or shoulders over the chest, as nobody has them.
func (v value) notBent(p body.Posture, def units.Unit) {
	told := func(upper, lower string, above, below float64) {
		if math.Abs(above-below) <= body.MostBent {
			return
		}
		way := "forward"
		if above < below {
			way = "back"
		}
		v.fail("found %s forward %s and %s forward %s: the %s would stand %s farther %s over the %s than usual, and no trunk bends by more than %s there. Look at the signs (a minus is farther back); what is left out is 0",
			upper, units.Format(above, def), lower, units.Format(below, def), upper, units.Format(math.Abs(above-below), def), way, lower, units.Format(body.MostBent, def))
	}
	told("chest", "waist", p.ChestForward, p.WaistForward)
	if p.ShouldersKnown {
		told("shoulders", "chest", p.ShouldersForward, p.ChestForward)
	}
}

// stance is how the trunk stands by a picture from the side; nil if none shows
// it.
func (p *Photos) stance() *photo.Stance {
	if p == nil {
		return nil
	}
	return p.Solution.Stance
}

// stands is how the body is to stand: as the maker says, else as a picture from the
// side shows, else as people do on average; known is false then.
func (f *Folder) stands(p *Photos) (posture body.Posture, known bool) {
	if f.Wearer.Stands {
		return f.Wearer.Posture, true
	}
	if s := p.stance(); s != nil && s.Posture.Possible() {
		return s.Posture, true
	}
	return body.Posture{}, false
}

// seenStanding says which posture was read off a picture.
func (f *Folder) seenStanding(p *Photos) []report.Finding {
	s := p.stance()
	if s == nil || f.Wearer.Stands {
		return nil
	}
	show := func(mm, sd float64) string {
		way := "forward"
		if mm < 0 {
			way = "back"
		}
		return fmt.Sprintf("%s (± %s, estimated) further %s", units.Format(math.Abs(mm), f.Units()), units.FormatDoubt(1.96*sd, f.Units()), way)
	}
	said := fmt.Sprintf("By the picture from the side the chest stands %s over the hips than usual, and the waist %s", show(s.Posture.ChestForward, s.ChestSD), show(s.Posture.WaistForward, s.WaistSD))
	if s.Posture.ShouldersKnown {
		said += ", and the shoulders " + show(s.Posture.ShouldersForward, s.ShouldersSD)
	}
	if s.Posture.Possible() {
		g := report.Notef("posture", "%s.", said)
		g.Perhaps = "If that is not how the costume will be worn, write \"posture\" into " + WearerFile + "."
		return []report.Finding{g}
	}
	g := report.Doubtf("posture", "%s. No trunk stands more than %s off, or bends by more than %s from waist to chest or from chest to shoulders, so the body is made to stand as usual.",
		said, units.Format(body.MostForward, f.Units()), units.Format(body.MostBent, f.Units()))
	g.Perhaps = "Look at the marks of chest, waist, hips, upper chest and upper back on that picture: \"tasset photo marks\" draws them."
	return []report.Finding{g}
}

// assumed says what is not known of how the trunk stands that pieces go round or pass.
// What that costs was measured on the two bodies of TestForm_againstTheSkinOfOtherBodies.
func (f *Folder) assumed(r *Result) []report.Finding {
	on, above := onTheTrunk(r.Set, r.Form)
	posture, known := f.stands(r.Photos)
	var g report.Finding
	switch mm := func(v float64) string { return units.Format(v, f.Units()) }; {
	case on && !known && r.Photos.stance() == nil: // one that cannot be is told already
		g = report.Notef("posture", "Nothing tells how the wearer stands, so the body stands as people do on average (the mean of two bodies). "+
			"The trunk of a man who stoops came out %s off that way, on average over it (measured on one body).", mm(14))
		g.Perhaps = "Mark a picture of the body from the side, or write \"posture\" into " + WearerFile + "; else try pieces of the trunk on in card."
	case above && known && !posture.ShouldersKnown:
		g = report.Notef("posture", "Nothing tells how the shoulders stand, so they stand where the chest takes them. Those of one of two bodies stood %s farther back (measured).", mm(15))
		g.Perhaps = "Mark \"upper chest\" and \"upper back\" on the picture from the side, or write \"shoulders forward\" under \"posture\" in " + WearerFile + "; else try what lies over the shoulders on in card."
	default:
		return nil
	}
	return []report.Finding{g}
}

// onTheTrunk tells whether pieces go round or pass the trunk, and whether above the
// chest.
func onTheTrunk(set *pattern.Set, form *body.Form) (on, above bool) {
	torso, _ := form.Part(body.Torso, body.Both)
	level, _ := torso.Station("chest")
	chest := torso.Frame.Point(torso.Centre(level)).Y
	for _, p := range set.Pieces {
		around, passed := p.Parts()
		if !slices.Contains(around, body.Torso) && !slices.Contains(passed, body.Torso) {
			continue
		}
		on = true
		for _, panel := range p.Panels {
			above = above || slices.ContainsFunc(panel.Surface.Bent, func(v r3.Vec) bool { return p.Frame.Point(v).Y > chest })
		}
	}
	return on, above
}
