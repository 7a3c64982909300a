package draw

import "gonum.org/v1/gonum/spatial/r2"

// Stretched is the page with what is drawn on it stretched about its middle, by
// a part of its length on each axis: 0.01 is 1 %. The paper keeps its size.
func (p Page) Stretched(x, y float64) Page {
	middle := r2.Vec{X: p.Width / 2, Y: p.Height / 2}
	dir := func(d r2.Vec) r2.Vec { return r2.Vec{X: d.X * (1 + x), Y: d.Y * (1 + y)} }
	move := func(q r2.Vec) r2.Vec { return r2.Add(middle, dir(r2.Sub(q, middle))) }
	items := make([]Item, len(p.Items))
	for i, it := range p.Items {
		items[i] = stretched(it, move, dir)
	}
	p.Items = items
	return p
}

func stretched(it Item, move, dir func(r2.Vec) r2.Vec) Item {
	switch it := it.(type) {
	case *Text:
		t := *it
		t.At = move(it.At)
		return &t
	case *Path:
		path := *it
		path.Subpaths = make([][]r2.Vec, len(it.Subpaths))
		for i, sub := range it.Subpaths {
			for _, q := range sub {
				path.Subpaths[i] = append(path.Subpaths[i], move(q))
			}
		}
		path.Clip = it.Clip.moved(move)
		return &path
	case *Picture:
		pic := *it
		pic.At, pic.Across, pic.Up = move(it.At), dir(it.Across), dir(it.Up)
		pic.Clip = it.Clip.moved(move)
		return &pic
	}
	return it
}

func (r *Rect) moved(move func(r2.Vec) r2.Vec) *Rect {
	if r == nil {
		return nil
	}
	return &Rect{Min: move(r.Min), Max: move(r.Max)}
}
