package synth

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"tasset/body"
	"tasset/body/photo"
	"tasset/internal/geom"
)

// How people differ beyond their sizes, as standard deviations in mm.
// Judgement.
const (
	featureSD   = 3.0 // where a feature stands, up and forward, alike on both sides
	asymmetrySD = 1.0 // each landmark of its own
	skewSD      = 1.5 // the back of the skull pushed forward on one side
)

// Below its hindmost place a head runs forward to the nape by napeRun·depthᵖ:
// 7 mm 35 mm lower, 19 mm 65 mm lower. Source: male-average.obj, with
// female-average.obj within a fifth. The body form's own head stands straight
// up there, by a millimetre or two, as no tape goes round it.
const (
	napeRun, napeSD = .016, .003
	napePower       = 1.7
)

// A bare skull is broadest behind the ears: 17, 17, 19 and 20 mm on the four
// meshes. A form's is broadest over them, so its sides are moved back, mm.
const sidesBack, sidesSD = 10, 3

// shape is how one person's skull differs from a form's.
type shape struct {
	skew, run, sides     float64
	hindmost, brow, back float64 // level of the brow and the hindmost place; how far before and behind the ears they stand
}

// at is where a place of a form's skull lies on this person's.
func (s shape) at(p r3.Vec) r3.Vec {
	if along := (p.Z - s.back) / (s.brow - s.back); along > 0 && along < 1 {
		above := math.Min(1, math.Max(0, (p.Y-10)/20)) // not the face, nor the ears' foot
		p.Z -= above * s.sides * 4 * along * (1 - along)
	}
	if p.Z >= 0 {
		return p
	}
	back := math.Min(1, -p.Z/60)
	if p.Y < s.hindmost {
		p.Z += back * s.run * math.Pow(math.Min(70, s.hindmost-p.Y), napePower)
	}
	p.Z += back * s.skew * p.X / 75
	return p
}

func (s shape) of(m geom.Mesh) geom.Mesh {
	out := geom.Mesh{V: make([]r3.Vec, len(m.V)), T: m.T}
	for i, v := range m.V {
		out.V[i] = s.at(v)
	}
	return out
}

// A bare skull's girth over that of the ellipse of its length and breadth.
// Source: sections 70 to 90 mm under the crowns of male-average, female-average,
// check-man and check-woman.obj have 1.009 to 1.026. The survey's tapes, which
// went over hair, have 1.037 in the mean: a form of those girths has a skull
// that is too square.
const bareRatio, bareSD = 1.0175, .005

// RandomHead makes up a person of the survey and gives their head, with features
// and a skull that are their own. What a tape reads round it is the survey's,
// over hair.
func RandomHead(chance *rand.Rand) (*Head, error) {
	tape := drawn(chance)
	girth, long, broad := entry(tape, "head girth"), entry(tape, "head length"), entry(tape, "head breadth")
	over := girth.Value
	girth.Value = (bareRatio + bareSD*chance.NormFloat64()) * ellipse(long.Value/2, broad.Value/2)
	h, err := headOf(tape)
	if err != nil {
		return nil, err
	}
	h = h.varied(chance)
	h.Tape = over
	return h, nil
}

// RandomFormHead makes up a person of the survey and gives the body form's head
// for them, as it is: symmetric, its skull square enough for a tape over hair,
// its back straight.
func RandomFormHead(chance *rand.Rand) (*Head, error) { return headOf(drawn(chance)) }

func drawn(chance *rand.Rand) body.Tape {
	return body.LoadSurvey().Draw([]body.Sex{body.Woman, body.Man}[chance.IntN(2)], chance)
}

func entry(t body.Tape, n body.Name) *body.Entry {
	for i := range t.Entries {
		if t.Entries[i].Name == n {
			return &t.Entries[i]
		}
	}
	panic("synth: the survey draws no " + string(n))
}

// headOf is the form's head for sizes.
func headOf(tape body.Tape) (*Head, error) {
	m, _, err := body.Estimate(body.LoadSurvey(), tape, nil)
	if err != nil {
		return nil, err
	}
	f, _, err := body.NewForm(m, nil, body.Posture{})
	if err != nil {
		return nil, err
	}
	h := FormHead(f)
	h.Sex = tape.Sex
	girth, _ := m.Get("head girth", body.Both)
	h.Tape = girth.Value
	return h, nil
}

// ellipse is the girth of an ellipse by its half axes, to 1e-9 of itself at a
// head's shape. Source: Ramanujan, "Modular equations and approximations to π",
// 1914.
func ellipse(a, b float64) float64 {
	h := (a - b) / (a + b) * (a - b) / (a + b)
	return math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
}

// varied moves landmarks and shapes the skull.
func (h *Head) varied(chance *rand.Rand) *Head {
	brow := h.Points["brow middle"]
	own := shape{skewSD * chance.NormFloat64(), napeRun + napeSD*chance.NormFloat64(), sidesBack + sidesSD*chance.NormFloat64(),
		brow.Y, brow.Z, h.Points["back of the head"].Z}
	out := &Head{Skull: own.of(h.Skull), Solid: own.of(h.Solid), Points: map[string]r3.Vec{}, Place: h.Place, Up: h.Up, Sex: h.Sex, Tape: h.Tape}
	shared := map[string]r3.Vec{}
	for _, l := range photo.HeadLandmarks() {
		p, ok := h.Points[l.Name]
		if !ok || l.Rim() {
			continue
		}
		move := r3.Vec{Y: featureSD * chance.NormFloat64(), Z: featureSD * chance.NormFloat64()}
		if same, ok := shared[l.Pair]; ok {
			move = same
		}
		shared[l.Name] = move
		alone := r3.Scale(asymmetrySD, r3.Vec{X: chance.NormFloat64(), Y: chance.NormFloat64(), Z: chance.NormFloat64()})
		if l.Name == "brow middle" { // it lies on the skull: it can only move along it
			move, alone.Z = r3.Vec{Y: move.Y}, 0
		}
		out.Points[l.Name] = r3.Add(own.at(p), r3.Add(move, alone))
	}
	return out.levelled()
}

// flat is a loop in a frame's plane: X is its x, Y its z.
func flat(loop []r3.Vec, f geom.Frame) []r2.Vec {
	out := make([]r2.Vec, len(loop))
	for i, p := range loop {
		l := f.Local(p)
		out[i] = r2.Vec{X: l.X, Y: l.Z}
	}
	return out
}
