package fit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/body"
	"tasset/internal/report"
	"tasset/internal/units"
	"tasset/pattern"

	"gonum.org/v1/gonum/spatial/r3"
)

// told are the findings on pieces that meet their neighbours before a joint has
// turned as far as it should. A piece that passes freely is not spoken of.
func told(met []contact, atRest []clash, form *body.Form) []report.Finding {
	var out []report.Finding
	for _, c := range gathered(met) {
		if c.obstacle.flesh == nil && inEachOther(atRest, c.piece.piece, c.obstacle.other.piece) {
			continue // that was said
		}
		out = append(out, c.finding(form))
	}
	return out
}

// gathered leaves one contact of each piece with the flesh at each joint and one
// of each two pieces, left and right turns taken together: the first, and what is
// to be taken off for all of them.
func gathered(all []contact) []contact {
	var out []contact
	for _, c := range all {
		if c.slight() {
			continue
		}
		same := slices.IndexFunc(out, func(d contact) bool { return c.like(&d) })
		if same < 0 {
			out = append(out, c)
			continue
		}
		out[same] = out[same].with(c)
	}
	return out
}

// like tells whether two contacts are told as one.
func (c *contact) like(d *contact) bool {
	if c.hinge.either() != d.hinge.either() || (c.obstacle.flesh == nil) != (d.obstacle.flesh == nil) {
		return false
	}
	if c.obstacle.flesh != nil {
		return c.piece.piece == d.piece.piece
	}
	a, b, e, f := c.piece.piece, c.obstacle.other.piece, d.piece.piece, d.obstacle.other.piece
	return a == e && b == f || a == f && b == e
}

// with is the earlier of two contacts, and what both ask for.
func (c contact) with(d contact) contact {
	if d.angle < c.angle {
		c, d = d, c
	}
	if d.piece.piece != c.piece.piece {
		return c
	}
	if d.met() == c.met() {
		c.depth = max(c.depth, d.depth)
	}
	c.both = c.both || d.both || c.hinge.doing != d.hinge.doing
	c.off, c.whole = max(c.off, d.off), c.whole || d.whole
	return c
}

// either is what the joint does, to the left or to the right.
func (t *turn) either() string {
	if t.joint == "neck" && !t.across {
		return "the head turns"
	}
	return t.doing
}

// slight tells whether a contact is not worth a word: flesh and foam give way by
// 5 mm (judgement), and flesh by the rest where as much is free as makers leave.
func (c *contact) slight() bool {
	const about = 5 // mm
	if c.obstacle.flesh == nil {
		return c.depth < about && c.off < 2*about
	}
	return c.depth < about || c.tooMuch() && c.free() > mostFree-about
}

// What makers leave free from the hollow of the knee or the crook of the elbow
// on, mm (common practice, no source).
const leastFree, mostFree = 40.0, 80.0

// free is how far the place of contact stands from the joint, along the limb.
func (c *contact) free() float64 {
	return math.Abs(r3.Dot(r3.Sub(c.at, c.hinge.centre), c.hinge.down))
}

// folding tells whether the contact is with the flesh of a limb that folds.
func (c *contact) folding() bool {
	return c.obstacle.flesh != nil && (c.hinge.joint == "knee" || c.hinge.joint == "elbow")
}

// tooMuch tells whether rigid flesh asks for more room than makers leave.
func (c *contact) tooMuch() bool { return c.folding() && c.free()+c.off > mostFree }

// level is a note where as much is free as makers find enough, else a doubt.
func (c *contact) level() report.Level {
	if c.folding() && c.free() >= leastFree {
		return report.Note
	}
	return report.Doubt
}

// grazes (detail): foam that would go less deep than this, mm, only touches.
const grazes = 1.0

func (c *contact) finding(form *body.Form) report.Finding {
	p := c.piece.piece
	doing := c.hinge.doing
	if c.both {
		doing = c.hinge.either()
	}
	press := "press it %s in"
	if c.obstacle.flesh == nil {
		press = "carry it %s past"
	}
	press = fmt.Sprintf(press, units.Format(c.depth, p.Units))
	if c.depth < grazes {
		press = "just graze it"
	}
	begins := fmt.Sprintf("at about %.0f°", units.Deg(c.angle))
	if c.angle == 0 {
		begins = "already at rest"
	}
	kept, free := c.uses()
	said := fmt.Sprintf("when %s, the %s meets %s %s; %s and would %s%s. %s",
		doing, c.place(), c.met(), begins, kept, press, free, c.taken())
	return report.Finding{Level: c.level(), Subject: p.Name, Said: said, Perhaps: c.remedy(form)}
}

// taken says how the parts were taken to move.
func (c *contact) taken() string {
	s := "Foam is taken as rigid."
	if c.obstacle.flesh != nil {
		s = "Foam and flesh are taken as rigid."
	}
	parts := []*carried{c.piece}
	if c.obstacle.flesh == nil {
		parts = append(parts, c.obstacle.other)
	}
	for _, w := range parts {
		switch {
		case w.most > 0:
			s += fmt.Sprintf(" The lames of the %s bend with the joint by up to %.0f°.", w.piece.Name, units.Deg(w.most))
		case w.share == 0.5:
			s += fmt.Sprintf(" The %s floats over the joint, so that it is taken to turn by half the angle.", w.piece.Name)
		}
	}
	return s
}

// uses are what the joint is kept from, and what is still free.
func (c *contact) uses() (kept, free string) {
	var k, f []string
	for _, u := range c.hinge.turn.uses {
		if units.Rad(u.far) > c.angle {
			k = append(k, fmt.Sprintf("%s takes about %.0f°", u.what, u.far))
		} else {
			f = append(f, fmt.Sprintf("; %s (%.0f°) is free", u.what, u.far))
		}
	}
	return strings.Join(k, " and "), strings.Join(f, "")
}

// place names where on the piece the contact begins.
func (c *contact) place() string {
	if !c.rim {
		return "foam at its " + c.side() + c.ofLame()
	}
	return c.side() + " of its " + c.edge() + c.ofLame()
}

func (c *contact) ofLame() string {
	if c.piece.lame == 0 {
		return ""
	}
	return fmt.Sprintf(" (lame %d from below)", c.piece.lame)
}

// edge names the edge by where it lies on its part: on a limb, at which joint.
func (c *contact) edge() string {
	above := c.at.Y > c.piece.middle().Y
	if limb := c.piece.side != body.Both; limb && c.piece.piece.Joint == "" && c.nextTo() && above == (c.hinge.centre.Y > c.piece.middle().Y) {
		return "edge at the " + c.hinge.joint
	}
	if above {
		return "upper edge"
	}
	return "lower edge"
}

// nextTo tells whether the piece is on a segment that meets the joint.
func (c *contact) nextTo() bool {
	seg := c.piece.piece.Segment
	return seg == beyond[c.hinge.joint][0] || slices.Contains(remaining[c.hinge.joint].segments, seg)
}

// met names what the piece meets.
func (c *contact) met() string {
	o := c.obstacle
	if o.flesh != nil {
		switch {
		case o.flesh.Segment == body.UpperArm && c.hinge.joint == "neck":
			return "the shoulder"
		case o.flesh.Segment == body.Torso:
			return "the trunk"
		}
		return "the " + string(o.flesh.Segment)
	}
	switch other := o.other; {
	case other.piece == c.piece.piece:
		return "the one on the other side"
	case other.side != body.Both && c.piece.side != body.Both && other.side != c.piece.side:
		return "the " + other.piece.Name + " of the other side"
	default:
		return "the " + other.piece.Name
	}
}

// side tells where on the piece the contact begins.
func (c *contact) side() string {
	q := r3.Sub(c.at, c.piece.middle())
	if c.piece.side == body.Right {
		q.X = -q.X
	}
	switch {
	case math.Abs(q.Z) >= math.Abs(q.X) && q.Z > 0:
		return "front"
	case math.Abs(q.Z) >= math.Abs(q.X):
		return "back"
	case c.piece.side == body.Both:
		return "side"
	case q.X > 0:
		return "outer side"
	}
	return "inner side"
}

// remedy tells what to take off, and by which setting.
func (c *contact) remedy(form *body.Form) string {
	u := c.piece.piece.Units
	if c.off == 0 {
		return "Its edges are free there: let it lie nearer to the body, or the other stand off further."
	}
	if c.whole && !c.tooMuch() {
		return fmt.Sprintf("More than %s would have to come off that edge; let the piece stand off further there, or divide it.", units.Format(c.off, u))
	}
	capped := c.tooMuch()
	if capped {
		c.off = mostFree - c.free()
	}
	say := fmt.Sprintf("Take up to %s off there", units.Format(c.off, u))
	if c.obstacle.flesh == nil {
		say += ", however far it is carried, as only foam that near to the edge is in the way; or share it between the two pieces"
	}
	if s := c.setting(form); s != "" {
		say += ", or " + s
	}
	if capped {
		return say + fmt.Sprintf(": then %s are free from the middle of the joint on, the most that makers leave (a rule of thumb), and flesh gives way for the rest.", units.Format(mostFree, u))
	}
	return say + ". Try it in a mock-up first: flesh and foam give way a little."
}

// setting is the setting that moves the rim, and what to set it to.
func (c *contact) setting(form *body.Form) string {
	p := c.piece.piece
	for _, s := range p.Settings {
		switch {
		case s.Name == c.hinge.joint+" gap":
			return setTo(s, s.Value+c.off, p.Units)
		case c.hinge.joint == "neck" && (s.Name == "rim drop" || s.Name == "chin drop"):
			return setTo(s, s.Value-c.off, p.Units)
		case c.hinge.joint == "elbow" && s.Name == "reach":
			if long := reachOf(p, form); long > 0 {
				return setTo(s, math.Floor(100*(s.Value-c.off/long))/100, p.Units)
			}
		}
	}
	if p.Segment == body.Head {
		return fmt.Sprintf("shorten it with \"adjust: {length: -%s}\"", units.Format(c.off, p.Units))
	}
	return ""
}

// reachOf is the length that "reach" is a share of.
func reachOf(p *pattern.Piece, form *body.Form) float64 {
	side := p.Side
	if side == body.Both {
		side = body.Left
	}
	part, ok := form.Part(p.Segment, side)
	if !ok {
		return 0
	}
	wrist, _ := part.Station("wrist")
	elbow, _ := part.Station("elbow")
	return elbow - wrist
}

func setTo(s pattern.Setting, v float64, u units.Unit) string {
	within := min(max(v, s.Least), s.Most)
	shown := units.Format(within, u)
	if s.Unit == "%" {
		shown = fmt.Sprintf("%.0f %%", 100*within)
	}
	if within != v {
		return fmt.Sprintf("set \"%s\" to %s, which is as far as it goes, and take off the rest", s.Name, shown)
	}
	return fmt.Sprintf("set \"%s\" to %s", s.Name, shown)
}
