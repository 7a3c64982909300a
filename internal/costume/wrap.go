package costume

import (
	"strings"

	"tasset/internal/draw"
)

// wrap breaks a sentence into lines that are at most width mm wide.
func wrap(s string, size, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && draw.TextWidth(longer, size, false) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}
