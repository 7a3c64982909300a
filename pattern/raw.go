package pattern

import (
	"fmt"
	"math"

	"tasset/internal/flatten"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r3"
)

// rawPanel is a cell of the shell, laid flat but not yet trimmed by openings.
type rawPanel struct {
	name  string
	surf  Surface
	sides []side // the border, counter-clockwise
	folds []rawFold
	arcs  []int // arcs of the rings that it covers; nil for a plate
	band  int   // -1 for a plate
	lame  int   // which of a run, from 1; 0: none

	formed  *flatten.Formed // nil: it is bent
	creases [][]int         // vertices along the creases of a formed panel
	darted  bool            // its last seam of its own is a dart
	shrink  float64         // by which a formed panel is drawn larger
}

// side is a stretch of a raw panel's border along one seam, one rim, or across
// the groove of a fold.
type side struct {
	seam  int       // index, or one of the two below
	verts []int     // counter-clockwise
	at    []float64 // arc length along the seam's line at each vertex
	along bool      // runs in the seam's own direction
	gap   bool      // a free edge where the piece opens
	ring  string    // name of the ring that it is of; "" for none
}

const (
	atRim   = -1
	atHinge = -2
)

// rawFold is a rung of a panel along which it is folded.
type rawFold struct {
	left, right [2]int // its ends as vertices of the run before and of the run after
	kind        string
	angle       float64
}

// rawSeam is a line of the shell where two raw panels meet.
type rawSeam struct {
	kind EdgeKind
	line []r3.Vec // shell axes
}

// cutter divides a shell into raw panels.
type cutter struct {
	*shell
	hinge   func(kind string, angle float64) float64 // gap between the runs at a fold
	panels  []rawPanel
	seams   []rawSeam
	panelAt [][]int     // band, arc → panel
	upright [][]int     // band, key → seam
	crests  []int       // band → seam of its two sides on their crest
	around  [][]int     // ring, arc → seam or atRim
	aroundS [][]float64 // arc length along that seam where the arc begins
	strips  map[[3]int]flatten.Strip
	formed  map[int]formedPanel // by panel
	patches map[string]*flatten.Patch
}

func newCutter(s *shell, hinge func(kind string, angle float64) float64) *cutter {
	return &cutter{shell: s, hinge: hinge, strips: map[[3]int]flatten.Strip{}, formed: map[int]formedPanel{}, patches: map[string]*flatten.Patch{}}
}

func (s *shell) cut(hinge func(kind string, angle float64) float64) (*cutter, error) {
	c := newCutter(s, hinge)
	if err := c.divide(); err != nil {
		return nil, err
	}
	c.uprightSeams()
	c.ringSeams()
	for i := range c.panels {
		if err := c.lay(i); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// divide finds which arcs of which band make up each panel.
func (c *cutter) divide() error {
	for bi, b := range c.bands {
		at := make([]int, c.arcs())
		starts := c.panelStarts(b)
		if len(starts) == 0 {
			return fmt.Errorf("band %q goes all the way round without a seam; give it at least one", b.name)
		}
		for n, k := range starts {
			p := rawPanel{band: bi, name: c.panelName(b, k, n, len(starts))}
			for a := k; len(p.arcs) < c.arcs(); a = (a + 1) % len(c.keys) {
				if len(p.arcs) > 0 && (b.seamAt[a] || c.keys[a].edge == endsHere) {
					break
				}
				p.arcs = append(p.arcs, a)
				at[a] = len(c.panels)
			}
			c.panels = append(c.panels, p)
		}
		c.panelAt = append(c.panelAt, at)
	}
	if c.plan.capped == "plate" {
		c.panels = append(c.panels, rawPanel{band: -1, name: c.plan.names[0]})
	}
	if c.plan.base {
		c.panels = append(c.panels, rawPanel{band: -1, name: c.plan.names[1]})
	}
	return nil
}

// panelStarts are the keys at which a panel begins.
func (c *cutter) panelStarts(b band) []int {
	var out []int
	for k := range c.keys {
		if c.open() && k == len(c.keys)-1 {
			break
		}
		if b.seamAt[k] || c.keys[k].edge == startsHere {
			out = append(out, k)
		}
	}
	return out
}

// panelName is the template's name for the panel that begins at key k: names
// stand in the order of the template's seams. Without one, the band's name and
// a number.
func (c *cutter) panelName(b band, k, n, of int) string {
	if c.open() && of == len(b.panels) && of > len(b.seams) { // the first begins at the shell's edge
		return b.panels[n]
	}
	for i, a := range b.seams {
		if math.Abs(turn(a)-c.keys[k].angle) < sameAngle && i < len(b.panels) && b.panels[i] != "" {
			return b.panels[i]
		}
	}
	if of == len(b.panels) { // between the edges of a gap or span
		return b.panels[n]
	}
	if of == 1 {
		return b.name
	}
	return fmt.Sprintf("%s %d", b.name, n+1)
}

// plates gives the indices of the plates, -1 where there is none.
func (c *cutter) plates() (top, base int) {
	top, base = -1, -1
	n := len(c.panels)
	if c.plan.base {
		n--
		base = n
	}
	if c.plan.capped == "plate" {
		top = n - 1
	}
	return top, base
}

func (c *cutter) uprightSeams() {
	for _, b := range c.bands {
		row := make([]int, len(c.keys))
		for k := range c.keys {
			row[k] = atRim
			if !b.seamAt[k] || c.keys[k].edge != bothSides {
				continue
			}
			kind := Butt
			if g := c.plan.gap; g != nil && math.Abs(turn(g.at)-c.keys[k].angle) < sameAngle {
				kind = Closure
			}
			row[k] = len(c.seams)
			c.seams = append(c.seams, rawSeam{kind: kind, line: c.upline(b, k)})
		}
		c.upright = append(c.upright, row)
		c.crests = append(c.crests, c.crestSeam(b))
	}
}

// upline is the line of a band at a key, from its lower ring to its upper one.
func (c *cutter) upline(b band, k int) []r3.Vec {
	if b.rails != nil {
		return b.rails[k]
	}
	if b.crest != nil {
		return c.crestUpline(b, k)
	}
	if b.pointed {
		return []r3.Vec{c.ringPoint(b.from, k), c.apex}
	}
	return []r3.Vec{c.ringPoint(b.from, k), c.ringPoint(b.to, k)}
}

func (s *shell) ringPoint(r, k int) r3.Vec {
	arcs := s.rings[r].arcs
	if k == len(arcs) {
		last := arcs[k-1]
		return s.rings[r].point(last[len(last)-1])
	}
	return s.rings[r].point(arcs[k][0])
}

// meets gives the panels below and above an arc of a ring, -1 for none.
func (c *cutter) meets(r, a int) (below, above int) {
	below, above = -1, -1
	for bi, b := range c.bands {
		if b.liesBelow(r) {
			below = c.panelAt[bi][a]
		}
		if b.liesAbove(r) {
			above = c.panelAt[bi][a]
		}
	}
	top, base := c.plates()
	if r == len(c.rings)-1 && top >= 0 {
		above = top
	}
	if r == 0 && base >= 0 {
		below = base
	}
	return below, above
}

// ringSeams makes one seam of each stretch of a ring where the same two panels
// meet.
func (c *cutter) ringSeams() {
	for r := range c.rings {
		n := c.arcs()
		seams, starts := make([]int, n), make([]float64, n)
		type pair struct{ below, above int }
		pairs := make([]pair, n)
		for a := range n {
			pairs[a].below, pairs[a].above = c.meets(r, a)
		}
		first := 0
		for a := 0; a < n && !c.open(); a++ { // begin where the pair changes
			if pairs[a] != pairs[(a+n-1)%n] {
				first = a
				break
			}
			if p := pairs[a].below; p >= 0 && c.panels[p].band >= 0 && c.panels[p].arcs[0] == a { // or else where a panel does
				first = a
			}
		}
		for i := range n {
			a := (first + i) % n
			if pairs[a].below < 0 || pairs[a].above < 0 {
				seams[a] = atRim
				continue
			}
			before := (a + n - 1) % n
			if i == 0 || pairs[before] != pairs[a] {
				c.seams = append(c.seams, rawSeam{kind: Butt, line: []r3.Vec{c.rings[r].point(c.rings[r].arcs[a][0])}})
			}
			seam := &c.seams[len(c.seams)-1]
			seams[a], starts[a] = len(c.seams)-1, geom.Length(seam.line)
			for _, p := range c.rings[r].arcs[a][1:] {
				seam.line = append(seam.line, c.rings[r].point(p))
			}
		}
		c.around, c.aroundS = append(c.around, seams), append(c.aroundS, starts)
	}
}

// addSide puts a stretch on a panel's border.
func (c *cutter) addSide(pi int, s side) { c.panels[pi].sides = append(c.panels[pi].sides, s) }

// cumulative arc lengths along a line, turned round for a side that runs
// against its seam.
func lengthsOf(line []r3.Vec, along bool) []float64 {
	at := geom.Lengths(line)
	if along {
		return at
	}
	out := make([]float64, len(at))
	for i := range at {
		out[i] = at[len(at)-1] - at[i]
	}
	return out
}

func (c *cutter) lay(pi int) error {
	p := &c.panels[pi]
	var err error
	switch {
	case p.band < 0:
		err = c.layPlate(pi)
	case c.bands[p.band].formed:
		if err := c.layFormed(pi); err != nil {
			return c.notFormed(p, err)
		}
	case c.bands[p.band].along:
		err = c.layGore(pi)
	default:
		err = c.layWrap(pi)
	}
	if _, ok := err.(unmet); ok {
		return fmt.Errorf("panel %q: %w", p.name, err)
	}
	if err != nil {
		return fmt.Errorf("panel %q: its rings cannot be joined by foam that only bends; bring their sizes nearer together, or put a ring or a seam between (%w)", p.name, err)
	}
	return nil
}

// arcLengths are arc lengths along the ring's seam at the points of an arc.
func (c *cutter) arcLengths(r, a int) []float64 {
	at := geom.Lengths(c.rings[r].arcs[a])
	for i := range at {
		at[i] += c.aroundS[r][a]
	}
	return at
}

func (s side) reversed() side {
	out := side{seam: s.seam, along: !s.along, gap: s.gap, ring: s.ring}
	for i := len(s.verts) - 1; i >= 0; i-- {
		out.verts = append(out.verts, s.verts[i])
		if s.at != nil {
			out.at = append(out.at, s.at[i])
		}
	}
	return out
}

// beginsAnew tells whether a side begins where the ring's seam does, one turn
// after the side before it ends.
func (s side) beginsAnew(before *side) bool {
	return s.at != nil && s.at[0] < before.at[len(before.at)-1]-geom.Coincident
}

// mergeSides joins neighbours on the same seam, or on the rim, that share a
// vertex.
func mergeSides(in []side) []side {
	var out []side
	for _, s := range in {
		if n := len(out); n > 0 && out[n-1].seam == s.seam && s.seam != atHinge {
			last := &out[n-1]
			if last.verts[len(last.verts)-1] == s.verts[0] && !s.beginsAnew(last) {
				last.verts = append(last.verts, s.verts[1:]...)
				if s.at != nil {
					last.at = append(last.at, s.at[1:]...)
				}
				continue
			}
		}
		out = append(out, s)
	}
	return out
}
