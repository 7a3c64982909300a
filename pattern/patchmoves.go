package pattern

import (
	"cmp"
	"iter"
	"math"
	"slices"
	"sync"

	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
)

// How far a patch is moved at most off what is fastened there already, and in steps of
// what, mm (judgement).
const (
	farthestPatch = 60.0
	patchStep     = 2.0
)

// frame are the unit vectors of a patch's own way: of a pair, towards the other.
func frame(ts []patch) (u, v r2.Vec) {
	u = r2.Vec{X: 1}
	if len(ts) == 2 {
		if d := r2.Sub(ts[1].at, ts[0].at); r2.Norm(d) > geom.Detail {
			u = r2.Unit(d)
		}
	}
	return u, quarterTurn(u)
}

// offset is how far patch i was moved in the frame of those that were asked for:
// towards its fellow, and across.
func offset(asked, moved []patch, i int) r2.Vec {
	u, v := frame(asked)
	d := r2.Sub(moved[i].at, asked[i].at)
	along := r2.Dot(d, u)
	if i == 1 {
		along = -along
	}
	return r2.Vec{X: along, Y: r2.Dot(d, v)}
}

// shifted moves patches by an offset, both of a pair alike.
func shifted(ts []patch, by r2.Vec) []patch {
	u, v := frame(ts)
	out := slices.Clone(ts)
	for i := range out {
		out[i].at = r2.Add(out[i].at, r2.Add(r2.Scale(by.X, u), r2.Scale(by.Y, v)))
		by.X = -by.X
	}
	return out
}

// patchMoves are moves in steps up to the farthest, the least first.
var patchMoves = sync.OnceValue(func() (out []r2.Vec) {
	for i := -patchSteps; i <= patchSteps; i++ {
		for j := -patchSteps; j <= patchSteps; j++ {
			if m := (r2.Vec{X: patchStep * float64(i), Y: patchStep * float64(j)}); r2.Norm(m) <= farthestPatch {
				out = append(out, m)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b r2.Vec) int { return cmp.Compare(r2.Norm2(a), r2.Norm2(b)) })
	return out
})

const patchSteps = int(farthestPatch / patchStep) // to either side

// clearMoves are patches moved no farther than so many mm to where they lie off what is
// taken and off each other, the least moved first.
func clearMoves(ts []patch, taken [][]r2.Vec, most float64) iter.Seq[[]patch] {
	return func(yield func([]patch) bool) {
		var passed passedMoves
		others := boxedAll(taken)
		for _, m := range patchMoves() {
			if r2.Norm2(m) > most*most {
				return
			}
			if passed.has(m) {
				continue
			}
			c := shifted(ts, m)
			if short := tooDeep(c, others.meeting(c)); short > 0 {
				passed.around(m, short)
			} else if !yield(c) {
				return
			}
		}
	}
}

// passedMoves are moves that need not be tried: where patches lie too deep by some mm,
// so they do after any further move that is shorter.
type passedMoves [2*patchSteps + 1][2*patchSteps + 1]bool

func (p *passedMoves) has(m r2.Vec) bool {
	return p[patchSteps+int(math.Round(m.X/patchStep))][patchSteps+int(math.Round(m.Y/patchStep))]
}

// around passes the moves that are nearer to m than short, mm.
func (p *passedMoves) around(m r2.Vec, short float64) {
	x, y := patchSteps+int(math.Round(m.X/patchStep)), patchSteps+int(math.Round(m.Y/patchStep))
	far := short/patchStep - geom.Detail // in steps
	n := int(far)
	for i := max(-n, -x); i <= min(n, 2*patchSteps-x); i++ {
		for j := max(-n, -y); j <= min(n, 2*patchSteps-y); j++ {
			if float64(i*i+j*j) < far*far {
				p[x+i][y+j] = true
			}
		}
	}
}
