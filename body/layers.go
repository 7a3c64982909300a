package body

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tasset/internal/report"
)

// layerDoubt is the deviation of a layer's thickness under the tape, as a share
// of it: cloth gives way, hair more so. Common practice, no source.
const layerDoubt = 0.3

// skin takes the layer that an entry was taken over off the entry, and widens
// its deviation by what is not known of the layer's thickness.
func skin(e Entry, layers []Layer) (Entry, []report.Finding, error) {
	if e.Over == "" || e.Over == "skin" {
		return e, nil, nil
	}
	i := slices.IndexFunc(layers, func(l Layer) bool { return l.Name == e.Over })
	if i < 0 {
		return e, nil, fmt.Errorf("%s was taken over %q, which is not among the layers%s; add it with its thickness under \"wears\", or measure over the skin",
			entryName(e), e.Over, layerNames(layers))
	}
	l := layers[i]
	d, _ := Describe(e.Name)
	k := layerFactor(d, l)
	e.Value -= k * l.Thickness
	e.SD = math.Hypot(e.SD, k*layerDoubt*l.Thickness)
	if e.Value <= 0 {
		return e, nil, fmt.Errorf("%s is %s over %s, which is less than the layer itself takes (%.0f mm)", entryName(e), typed(e), e.Over, k*l.Thickness)
	}
	return e, layerFindings(e, d, l), nil
}

// layerFactor is how much a layer adds to a size, in thicknesses: 2π round a
// girth, π over an arc about half round (no more than that is known of an arc),
// 2 across, 1 under a sole, on the crown or at the back of the head, 0 along a
// limb.
func layerFactor(d Description, l Layer) float64 {
	switch {
	case d.Kind == KindGirth:
		return 2 * math.Pi
	case d.Kind == KindArc && d.Region == Head:
		return math.Pi
	case d.Name == "head length" && (l.Name == "hair" || l.Name == "wig"): // the brow is bare
		return 1
	case d.Kind == KindBreadth && d.Name != "pupil distance", d.Kind == KindDepth:
		return 2
	case d.Name == "stature", d.Kind == KindHeight && slices.Contains(l.Segments, Foot):
		return 1
	case d.Name == "ear to crown", d.Name == "eye to crown":
		return 1
	default:
		return 0
	}
}

// layerFindings doubts a layer that is not worn where the measurement is taken.
func layerFindings(e Entry, d Description, l Layer) []report.Finding {
	standing := d.Kind == KindHeight && slices.Contains(l.Segments, Foot)
	if len(l.Segments) == 0 || d.Region == "" || standing || slices.Contains(l.Segments, d.Region) {
		return nil
	}
	f := report.Doubtf(entryName(e), "It was taken over %s, which is not worn on the %s.", e.Over, d.Region)
	f.Where, f.Subject = e.Where, subject(e.Name, e.Side)
	return []report.Finding{f}
}

func layerNames(layers []Layer) string {
	if len(layers) == 0 {
		return " (there are none)"
	}
	var names []string
	for _, l := range layers {
		names = append(names, l.Name)
	}
	return " (" + strings.Join(names, ", ") + ")"
}

// subject names a measurement and its side, as findings do.
func subject(n Name, s Side) string {
	if s == Both {
		return string(n)
	}
	return string(n) + ", " + s.String()
}

// entryName names an entry and its place in the maker's file.
func entryName(e Entry) string {
	if e.Where == "" {
		return subject(e.Name, e.Side)
	}
	return e.Where + ": " + subject(e.Name, e.Side)
}

// typed is an entry's value as the maker wrote it.
func typed(e Entry) string {
	if e.Typed != "" {
		return e.Typed
	}
	if e.Name == "weight" {
		return fmt.Sprintf("%.1f kg", e.Value)
	}
	return fmt.Sprintf("%.0f mm", e.Value)
}
