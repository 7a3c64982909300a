package costume

import (
	"fmt"
	"math"
	"path"
	"strings"
	"unicode"

	"tasset/body/photo"
	"tasset/internal/report"
	"tasset/internal/units"
)

// largestSide is more pixels than any picture has along a side.
const largestSide = 100000

// pixel reads a place in a picture: [x, y].
func (v value) pixel() photo.Pixel {
	at := v.items("write a place in the picture as [x, y] in pixels, such as [1204, 988]")
	if len(at) == 2 {
		return photo.Pixel{X: at[0].coordinate(), Y: at[1].coordinate()}
	}
	if v.isList() {
		v.fail("found %s; write a place in the picture as two numbers, [x, y], such as [1204, 988]", report.Counted(len(at), "value"))
	}
	return photo.Pixel{}
}

// coordinate reads how many pixels a place is from the left or from the top.
func (v value) coordinate() float64 {
	before := len(v.r.errs)
	n := v.within(0, largestSide, "how many pixels it is from the left, then from the top of the picture")
	if len(v.r.errs) > before || math.IsNaN(n) {
		return 0
	}
	return n
}

// pixels reads a list of places, at least few and at most many of them.
func (v value) pixels(few, many int) []photo.Pixel {
	var out []photo.Pixel
	for _, p := range v.some(few, many, "place", "write a list of places, such as [[310, 420], [355, 402], [390, 431]]") {
		out = append(out, p.pixel())
	}
	return out
}

// some reads the members of a list that has at least few and at most many.
func (v value) some(few, many int, what, example string) []value {
	list := v.items(example)
	switch {
	case !v.isList():
	case len(list) < few:
		v.fail("found %s; write at least %d", report.Counted(len(list), what), few)
	case len(list) > many:
		v.fail("found %s; write at most %d", report.Counted(len(list), what), many)
		return nil
	}
	return list
}

// file reads the path of a file below the maker's folder. Nothing outside is
// ever read: costume files are handed from one maker to another.
func (v value) file() string {
	before := len(v.r.errs)
	s := v.text()
	if len(v.r.errs) > before {
		return ""
	}
	const right = "copy the picture into the folder and write its place there, such as photos/head-front.jpg"
	clean := path.Clean(s)
	switch {
	case s == "":
		v.fail("found nothing; %s", right)
	case strings.Contains(s, "://"):
		v.fail("found the web address %q; %s", shortened(s), right)
	case strings.Contains(s, "\\"):
		v.fail("found \"%s\"; write / between a folder and what is in it", shortened(s))
	case strings.HasPrefix(s, "/"), strings.HasPrefix(s, "~"), strings.Contains(s, ":"), clean == "..", strings.HasPrefix(clean, "../"):
		v.fail("found %q, which is not inside the costume's folder; %s", shortened(s), right)
	case strings.ContainsFunc(s, unprintable):
		v.fail("found %q; a file's name is one line of characters that can be printed", shortened(s))
	case len(s) > longestPath:
		v.fail("found %d characters; write at most %d", len(s), longestPath)
	default:
		return clean
	}
	return ""
}

// unprintable tells of characters that would steer a terminal.
func unprintable(r rune) bool { return !unicode.IsPrint(r) }

// longestPath is as long as a file's place below the folder can be.
const longestPath = 250

// between reads a length from low to high mm; what says it in the maker's words.
func (v value) between(low, high float64, def units.Unit, what string) float64 {
	before := len(v.r.errs)
	mm := v.length(def, fmt.Sprintf("%g mm", max(low, high/10)))
	if len(v.r.errs) == before && (mm < low || mm > high) {
		v.fail("found %s; write %s", v.text(), what)
	}
	return mm
}

// need finds a key that must be there; nil after a failure.
func (v value) need(at map[string]*value, key, example string) *value {
	if at[key] == nil {
		v.r.fail(v.line, "found no %q here; write it, such as %q", key, example)
	}
	return at[key]
}
