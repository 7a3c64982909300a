package pattern

import (
	"fmt"
	"math"
	"strings"

	"tasset/internal/units"
)

// Setting is a setting of the piece as it was used.
type Setting struct {
	Name  string
	Value float64 // mm, rad, a share or a plain number
	Asked float64 // another that was asked for, but cannot be had; 0: none
	Unit  string  // "mm", "deg", "%", "choice" or "" for a plain number
	Word  string  // of a choice; then Value is its index
	Typed bool    // the maker set it; otherwise it is the template's default
	Least float64 // what it may be set to at least, and at most
	Most  float64
}

// Said is the setting's value as every page writes it, lengths in u.
func (s Setting) Said(u units.Unit) string {
	switch {
	case s.Unit == "choice":
		return s.Word
	case s.Unit == "%":
		return fmt.Sprintf("%.4g %%", 100*s.Value)
	case s.Unit == "deg":
		return fmt.Sprintf("%.0f°", math.Round(units.Deg(s.Value))+0)
	case s.Unit == "mm" && strings.HasSuffix(s.Name, "thickness"):
		return units.FormatFoam(s.Value, u)
	case s.Unit == "mm":
		return units.FormatSetting(s.Value, u)
	}
	return fmt.Sprintf("%.4g", s.Value)
}
