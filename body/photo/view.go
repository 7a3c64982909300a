package photo

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/report"
)

// The words for views, as makers write them, in the order of the constants.
var viewNames = []string{
	"head front", "head left side", "head right side", "head left three-quarter", "head right three-quarter",
	"body front", "body left side", "body right side",
}

// String is the view as makers write it.
func (v View) String() string {
	if v < 0 || int(v) >= len(viewNames) {
		return fmt.Sprintf("view %d", int(v))
	}
	return viewNames[v]
}

// Views lists all views.
func Views() []View {
	var all []View
	for i := range viewNames {
		all = append(all, View(i))
	}
	return all
}

// ParseView reads a view as makers write it.
func ParseView(typed string) (View, error) {
	word := strings.ToLower(strings.Join(strings.Fields(typed), " "))
	for i, n := range viewNames {
		if n == word {
			return View(i), nil
		}
	}
	hint := ""
	if near := report.Nearest(word, viewNames); near != "" {
		hint = fmt.Sprintf("; perhaps %q", near)
	}
	return 0, fmt.Errorf("%q is no view%s (the views are: %s)", typed, hint, strings.Join(viewNames, ", "))
}

// OfHead tells whether the view shows a head, rather than the whole body.
func (v View) OfHead() bool { return v < BodyFront }

// yaw is how far the subject is turned from facing the camera in a view, as
// pose.turn takes it.
func (v View) yaw() float64 {
	switch v {
	case HeadLeft, BodyLeft:
		return -math.Pi / 2
	case HeadRight, BodyRight:
		return math.Pi / 2
	case HeadLeftQuarter:
		return -math.Pi / 4
	case HeadRightQuarter:
		return math.Pi / 4
	}
	return 0
}

// fromSide tells whether the view shows one side alone.
func (v View) fromSide() bool { return math.Abs(v.yaw()) > 1.5 }
