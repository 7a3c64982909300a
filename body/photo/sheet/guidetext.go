package sheet

import (
	"fmt"
	"math"
	"strings"
)

// costNote says what the table of costs is.
const costNote = "What a fault costs, in mm, by the distance of the lens. Pinhole arithmetic and arithmetic are exact for the named fault. Simulated: the usual error (root mean square) over 300 made-up heads with marks of usual care, and what hair or a moved chin shifts a size by. No real photograph has been measured for it yet."

// Text is the guide for a terminal, lines of at most so many letters.
func (g Guide) Text(width int) string {
	var b strings.Builder
	b.WriteString(hanging("", g.Title+", "+g.For, width))
	for _, s := range g.Sections {
		fmt.Fprintf(&b, "\n%s\n", s.Title)
		for _, l := range s.Lines {
			b.WriteString(hanging("  - ", l, width))
		}
	}
	for _, p := range g.Poses {
		fmt.Fprintf(&b, "\nPicture: %s\n", p.View)
		for _, l := range p.Lines {
			b.WriteString(hanging("  - ", l, width))
		}
	}
	b.WriteString("\n" + hanging("", costNote, width) + "\n")
	b.WriteString(g.table(width))
	return b.String()
}

// table is the costs in columns, each fault's own words above its numbers.
func (g Guide) table(width int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "  %-22s", "lens at")
	for _, m := range g.Metres {
		fmt.Fprintf(&b, "%7s", fmt.Sprintf("%g m", m))
	}
	b.WriteString("\n")
	for _, c := range g.Costs {
		if c.Fault != "" {
			b.WriteString(hanging("  ", c.Fault, width))
		}
		fmt.Fprintf(&b, "    %-20s", c.On)
		for _, v := range c.MM {
			fmt.Fprintf(&b, "%7s", cell(v))
		}
		fmt.Fprintf(&b, "  %s\n", c.Source)
	}
	return b.String()
}

func cell(mm float64) string {
	if math.IsNaN(mm) {
		return "–"
	}
	return fmt.Sprintf("%.1f", mm)
}

// hanging is a paragraph after a head, with further lines under its first word.
func hanging(head, s string, width int) string {
	room := max(width-len(head), 20)
	var b strings.Builder
	line := ""
	flush := func() {
		b.WriteString(head + line + "\n")
		head, line = strings.Repeat(" ", len(head)), ""
	}
	for _, word := range strings.Fields(s) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > room {
			flush()
		}
		line = strings.TrimSpace(line + " " + word)
	}
	flush()
	return b.String()
}
