package sheet

import (
	"fmt"
	"sort"

	"tasset/internal/draw"

	"gonum.org/v1/gonum/spatial/r2"
)

// column names marks at one side of the picture.
func (m *marked) column(marks []int, left bool) {
	y := func(i int) float64 { return m.place(m.shot.Marks[i].At).Y }
	sort.SliceStable(marks, func(a, b int) bool { return y(marks[a]) > y(marks[b]) })
	want := make([]float64, len(marks))
	for k, i := range marks {
		want[k] = y(i)
	}
	edge, align, out := m.area.Min.X-3, draw.End, -1.0
	if !left {
		edge, align, out = m.area.Max.X+3, draw.Start, 1
	}
	for k, y := range apart(want, labelStep, m.area.Min.Y+6, m.area.Max.Y-4) {
		i := marks[k]
		p := m.place(m.shot.Marks[i].At)
		toward := r2.Unit(r2.Sub(at(edge, y), p))
		m.add(onPhoto(0.15, m.colour(i), r2.Add(p, r2.Scale(2, toward)), at(edge-out*3, y), at(edge-out, y))...)
		name := text(at(edge, y-0.3), labelSize, align, m.colour(i), m.shot.Marks[i].Name)
		name.Bold = true
		m.add(name, text(at(edge, y-3.9), 3, align, m.colour(i), m.says(i)))
	}
}

func (m *marked) colour(i int) draw.Color {
	if f, ok := m.fits[i]; ok && (!f.Fits() || f.Far(m.shot.View)) {
		return alarm
	}
	return black
}

// says is what a name has under it.
func (m *marked) says(i int) string {
	f, ok := m.fits[i]
	switch {
	case !ok:
		return m.shot.Marks[i].At.String()
	case !f.Fits():
		return fmt.Sprintf("%.1f mm off: DOES NOT FIT", f.MM)
	case f.Far(m.shot.View):
		return fmt.Sprintf("%.1f mm off: LOOK AGAIN", f.MM)
	case !f.Checked() && !m.alone:
		return fmt.Sprintf("%.1f mm off; nothing checks it", f.MM)
	}
	return fmt.Sprintf("%.1f mm off", f.MM)
}

// apart moves places on a line, in falling order, as little as it must so that
// they keep a step between each other and stay between two ends, if they fit.
func apart(want []float64, step, low, high float64) []float64 {
	if n := float64(len(want) - 1); n > 0 {
		step = min(step, (high-low)/n)
	}
	type block struct {
		sum float64 // of want[k] + k·step, which is the block's own place
		n   int
	}
	var blocks []block
	for k, w := range want {
		b := block{w + float64(k)*step, 1}
		for len(blocks) > 0 && blocks[len(blocks)-1].sum/float64(blocks[len(blocks)-1].n) < b.sum/float64(b.n) {
			last := blocks[len(blocks)-1]
			b = block{b.sum + last.sum, b.n + last.n}
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	var out []float64
	for _, b := range blocks {
		for range b.n {
			place := min(max(b.sum/float64(b.n), low+float64(len(want)-1)*step), high)
			out = append(out, place-float64(len(out))*step)
		}
	}
	return out
}
