package picture

import (
	"fmt"
	"image"
	"image/draw"

	scale "golang.org/x/image/draw"
)

// Upright is the whole picture, turned upright; what is see-through stands on
// white.
func (p *Picture) Upright() (*image.RGBA, error) {
	img, err := p.decode()
	if err != nil {
		return nil, err
	}
	return p.turn.apply(onWhite(img)), nil
}

// Scaled is the picture upright and made smaller so that its longer side has
// that many pixels; one that is smaller already keeps its size. It is turned
// after it is made smaller, which is quicker.
func (p *Picture) Scaled(longest int) (*image.RGBA, error) {
	if longest < 1 {
		return nil, fmt.Errorf("%s was asked for at a size of %d pixels; at least 1 is needed", p.Name, longest)
	}
	img, err := p.decode()
	if err != nil {
		return nil, err
	}
	s := img.Bounds().Size()
	f := float64(longest) / float64(max(s.X, s.Y))
	if f >= 1 {
		return p.turn.apply(onWhite(img)), nil
	}
	small := image.Rect(0, 0, max(1, int(float64(s.X)*f+0.5)), max(1, int(float64(s.Y)*f+0.5)))
	if planes, ok := img.(*image.YCbCr); ok {
		img = shrink(planes, small)
	}
	out := onWhite(image.Rect(0, 0, small.Dx(), small.Dy()))
	if img.Bounds() == small {
		draw.Draw(out, small, img, image.Point{}, draw.Src)
	} else {
		scale.BiLinear.Scale(out, small, img, img.Bounds(), scale.Over, nil)
	}
	return p.turn.apply(out), nil
}

func onWhite(img image.Image) *image.RGBA {
	out := image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
	draw.Draw(out, out.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Over)
	return out
}
