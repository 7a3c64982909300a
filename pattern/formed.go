package pattern

import (
	"fmt"
	"math"
	"slices"

	"tasset/internal/flatten"
	"tasset/internal/geom"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// formedGrid is a formed panel in space: vertices row by row, from the lower
// ring up, left to right as seen from the show face.
type formedGrid struct {
	rows    flatten.Rows
	v       []r3.Vec
	creases []int // columns along which the shell is creased; then all rows are divided alike
	dart    []int // vertices from the border to the tip; their twins come after the rows' vertices
	twins   []int // the vertex on the other leg, for each of the dart's but the tip
}

// formedPanel is a formed panel that has been laid flat.
type formedPanel struct {
	grid  formedGrid
	t     [][3]int
	flat  []r2.Vec
	shape *flatten.Formed
}

// sameShape (rounding): panels whose edges differ by no more, mm, are alike.
const sameShape = 1e-9

// layFormed lays a panel that follows its surface both ways: every edge of its
// border keeps its length in space.
func (c *cutter) layFormed(pi int) error {
	p := &c.panels[pi]
	grid := c.gridOf(p)
	f, ok := c.imageOf(pi, grid)
	if !ok {
		var err error
		if f, err = c.flattened(grid); err != nil {
			return err
		}
	}
	grid = f.grid
	c.formed[pi] = f
	p.formed = f.shape
	p.surf = Surface{Flat: slices.Clone(f.flat), Bent: slices.Clone(grid.v), T: f.t}
	c.formedSides(pi)
	c.creasesOf(p, grid)
	return nil
}

// gridOf gathers a panel's rows. Towards a point they get fewer vertices.
func (c *cutter) gridOf(p *rawPanel) formedGrid {
	b := c.bands[p.band]
	g := formedGrid{}
	at := 0
	for i, a := range p.arcs {
		if k := c.keys[a]; i > 0 && (k.corner >= 0 || k.crease >= 0) {
			g.creases = append(g.creases, at)
		}
		at += len(c.rings[b.from].arcs[a]) - 1
	}
	var widest float64
	for i, r := range b.rows {
		line := r.over(p.arcs)
		if b.pointed {
			if i == len(b.rows)-1 {
				line = line[:1]
			} else if l := geom.Length(line); i == 0 {
				widest = l
			} else if len(g.creases) == 0 {
				n := int(math.Round(l / widest * float64(len(line)-1)))
				line = geom.Resample(line, max(min(n, g.rows[i-1]-1), 1)+1)
			}
		}
		g.rows = append(g.rows, len(line))
		g.v = append(g.v, line...)
	}
	return g
}

// over is the row over some arcs.
func (r *row) over(arcs []int) []r3.Vec {
	var out []r3.Vec
	for i, a := range arcs {
		pts := r.arcs[a]
		if i > 0 {
			pts = pts[1:]
		}
		out = append(out, pts...)
	}
	return out
}

// imageOf is a panel that is flat already and the same as this one, or its
// mirror image.
func (c *cutter) imageOf(pi int, g formedGrid) (formedPanel, bool) {
	p := &c.panels[pi]
	for qi := range pi {
		f, ok := c.formed[qi]
		if !ok || !slices.Equal(f.grid.rows, g.rows) && !c.endForEnd(p, &c.panels[qi]) {
			continue
		}
		switch q := &c.panels[qi]; {
		case q.band == p.band && c.sideForSide(p, q):
			return f.reflected(g, g.sideForSide()), true
		case c.endForEnd(p, q):
			return f.reflected(g, f.grid.endForEnd()), true
		case f.grid.alike(g, f.t):
			return f.at(g), true
		}
	}
	return formedPanel{}, false
}

// sideForSide tells whether p is the mirror image of q about the shell's middle.
func (c *cutter) sideForSide(p, q *rawPanel) bool {
	return c.plan.mirror && c.plan.span == nil && p.arcs[0] == c.mirrorArc(q.arcs[len(q.arcs)-1]) && p.arcs[len(p.arcs)-1] == c.mirrorArc(q.arcs[0])
}

// endForEnd tells whether p is the mirror image of q square to the shell's axis.
func (c *cutter) endForEnd(p, q *rawPanel) bool {
	return c.plan.ends && q.band >= 0 && q.band == len(c.bands)-1-p.band && slices.Equal(p.arcs, q.arcs)
}

// alike tells whether two panels with the same triangles are congruent.
func (g *formedGrid) alike(o formedGrid, t [][3]int) bool {
	if !slices.Equal(g.rows, o.rows) {
		return false
	}
	for _, t := range t {
		for k := range 3 {
			a, b := g.own(t[k]), g.own(t[(k+1)%3])
			if math.Abs(geom.Dist(g.v[a], g.v[b])-geom.Dist(o.v[a], o.v[b])) > sameShape {
				return false
			}
		}
	}
	return true
}

// own is the grid's vertex that a vertex of the cut panel stands at.
func (g *formedGrid) own(v int) int {
	if n := g.rows.Vertices(); v >= n {
		return g.twins[v-n]
	}
	return v
}

// sideForSide numbers vertices as seen in a mirror that swaps left and right.
func (g *formedGrid) sideForSide() []int {
	var image []int
	for _, n := range g.rows {
		for j, at := 0, len(image); j < n; j++ {
			image = append(image, at+n-1-j)
		}
	}
	return image
}

// endForEnd numbers vertices as seen in a mirror that swaps first and last row.
func (g *formedGrid) endForEnd() []int {
	var image []int
	left, _ := g.columns()
	for i := len(g.rows) - 1; i >= 0; i-- {
		for j := range g.rows[i] {
			image = append(image, left[i]+j)
		}
	}
	return image
}

// at is the panel f at another place.
func (f formedPanel) at(g formedGrid) formedPanel {
	g.dart, g.twins = f.grid.dart, f.grid.twins
	for _, v := range g.dart[:len(g.twins)] {
		g.v = append(g.v, g.v[v])
	}
	f.grid = g
	return f
}

// reflected is a panel with the mirrored shape of f: its vertex i is f's vertex
// image[i].
func (f formedPanel) reflected(g formedGrid, image []int) formedPanel {
	out := formedPanel{grid: g, flat: make([]r2.Vec, len(f.flat))}
	if len(f.grid.dart) > 0 {
		image = out.grid.reflectDart(f.grid, image)
	}
	back := make([]int, len(image)) // with the vertices that the dart doubles
	for i, of := range image {
		out.flat[i] = r2.Vec{X: -f.flat[of].X, Y: f.flat[of].Y}
		back[of] = i
	}
	shape := *f.shape
	shape.Flat, shape.SwellAt, shape.Strain = out.flat, back[f.shape.SwellAt], slices.Clone(f.shape.Strain)
	for k, t := range f.t {
		out.t = append(out.t, [3]int{back[t[0]], back[t[2]], back[t[1]]})
		shape.Strain[k].Along.X = -shape.Strain[k].Along.X
	}
	out.shape = &shape
	return out
}

// flattened lays a grid in the plane, with a dart where it would be strained too
// much without.
func (c *cutter) flattened(g formedGrid) (formedPanel, error) {
	f, err := c.solved(g, g.rows.Triangles())
	if err == nil && c.load(f) <= mostEasy {
		return f, nil
	}
	if cut, ok := c.darted(g); ok {
		return cut, nil
	}
	if err == nil {
		err = &overstrained{f.shape, g.v[f.shape.SwellAt]}
	}
	return f, err
}

func (c *cutter) load(f formedPanel) float64 {
	return c.plan.strain.load(f.shape.Stretch.P95, f.shape.Gather.P95)
}

// solved lays triangles over a grid's vertices in the plane.
func (c *cutter) solved(g formedGrid, t [][3]int) (formedPanel, error) {
	patch, err := c.patchOf(g, t)
	if err != nil {
		return formedPanel{}, err
	}
	shape, err := patch.Solve(g.v, nil)
	if err != nil {
		return formedPanel{}, err
	}
	return formedPanel{grid: g, t: t, flat: shape.Flat, shape: shape}, nil
}

// patchOf prepares a grid's triangles, once for all panels that have the same.
func (c *cutter) patchOf(g formedGrid, t [][3]int) (*flatten.Patch, error) {
	id := fmt.Sprint(g.rows, g.dart)
	patch, ok := c.patches[id]
	if ok {
		return patch, nil
	}
	patch, err := flatten.Prepare(len(g.v), t)
	if err == nil {
		c.patches[id] = patch
	}
	return patch, err
}

// formedSides goes round a formed panel's border.
func (c *cutter) formedSides(pi int) {
	p := &c.panels[pi]
	b, g := c.bands[p.band], c.formed[pi].grid
	left, right := g.columns()
	var lower, upper []int
	for j := range g.rows[0] {
		lower = append(lower, j)
	}
	for j := range g.rows[len(g.rows)-1] {
		upper = append(upper, left[len(left)-1]+j)
	}
	whole := []run{{arcs: p.arcs, lower: lower, upper: upper}}
	rightKey := p.arcs[len(p.arcs)-1] + 1
	if !c.open() {
		rightKey %= len(c.keys)
	}
	for _, s := range c.ringSides(b.from, whole, func(r run) []int { return r.lower }) {
		c.addSide(pi, s)
	}
	c.addSide(pi, c.upSide(b, rightKey, right, true))
	if !b.pointed {
		sides := c.ringSides(b.to, whole, func(r run) []int { return r.upper })
		for i := len(sides) - 1; i >= 0; i-- {
			c.addSide(pi, sides[i].reversed())
		}
	}
	slices.Reverse(left)
	c.addSide(pi, c.upSide(b, p.arcs[0], left, false))
	if len(g.dart) > 0 {
		p.darted = true
		c.addDart(pi, g)
	}
}

// columns are the vertices at a grid's left and right ends.
func (g *formedGrid) columns() (left, right []int) {
	at := 0
	for _, n := range g.rows {
		left, right = append(left, at), append(right, at+n-1)
		at += n
	}
	return left, right
}

// creasesOf notes the columns along which a formed panel is creased.
func (c *cutter) creasesOf(p *rawPanel, g formedGrid) {
	left, _ := g.columns()
	for _, column := range g.creases {
		var line []int
		for i, n := range g.rows {
			line = append(line, left[i]+min(column, n-1))
		}
		p.creases = append(p.creases, line)
	}
}
