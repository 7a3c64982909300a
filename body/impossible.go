package body

import (
	"fmt"
	"math"

	"tasset/internal/report"
)

// section names sizes of one section of the body; depth may be "".
type sectionSizes struct{ girth, breadth, depth Name }

// sections whose girth, breadth and depth are taken at one level. The chest is
// not among them: its breadth is taken on the ribs, its girth over the bust and
// the muscles under the arms.
var sections = []sectionSizes{
	{"head girth", "head breadth", "head length"},
	{"waist girth", "waist breadth", "waist depth"},
	{"hip girth", "hip breadth", "hip depth"},
	{"hand girth", "hand breadth", ""},
	{"ball girth", "foot breadth", ""},
}

// ratio is a girth that the survey lacks, as a share of one that it has.
type ratio struct {
	girth, of Name
	low, high float64
}

// Far outside what is seen on people: common practice, no source.
var ratios = []ratio{
	{"underbust girth", "chest girth", .65, 1.05},
	{"elbow girth", "forearm girth flexed", .75, 1.35},
	{"armscye girth", "upper arm girth flexed", .95, 2},
}

// impossible doubts measured breadths, depths and girths that no convex section
// has together: 2√(b² + d²) ≤ girth ≤ 2(b + d), and 2b ≤ girth if there is no
// depth, give or take the tape's deviation.
func impossible(o observed) []report.Finding {
	var findings []report.Finding
	for _, s := range sections {
		g, okG := o.find(s.girth)
		b, okB := o.find(s.breadth)
		d, okD := o.find(s.depth)
		if !okG || (!okB && !okD) {
			continue
		}
		slack := math.Sqrt(g.SD*g.SD + 4*b.SD*b.SD + 4*d.SD*d.SD)
		least, most := 2*math.Hypot(b.Value, d.Value), math.Inf(1)
		if okB && okD {
			most = 2 * (b.Value + d.Value)
		}
		if g.Value < least-slack || g.Value > most+slack {
			findings = append(findings, sectionFinding(g, b, d, least, most))
		}
	}
	return findings
}

func sectionFinding(g, b, d Measurement, least, most float64) report.Finding {
	var given string
	for _, m := range []Measurement{b, d} {
		if m.Name != "" {
			given += fmt.Sprintf(" and %s %.0f mm", m.Name, m.Value)
		}
	}
	limit := fmt.Sprintf("at least %.0f mm", least)
	if g.Value > most {
		limit = fmt.Sprintf("at most %.0f mm", most)
	}
	f := report.Doubtf(string(g.Name), "%.0f mm cannot go with%s: the girth round those would be %s.", g.Value, given[len(" and"):], limit)
	f.Where, f.Perhaps = g.Where, "Measure them again, at one level."
	return f
}

// find gives an observed measurement.
func (o observed) find(n Name) (Measurement, bool) {
	m, ok := o.origin[n]
	if !ok {
		return Measurement{}, false
	}
	for i, name := range o.names {
		if name == n {
			m.Value, m.SD = o.values[i], math.Sqrt(o.cov.At(i, i))
		}
	}
	return m, true
}

// oddRatios doubts measured girths that the survey lacks and that do not go with
// one that it has, measured or estimated.
func oddRatios(m *Measurements, entries []Entry) []report.Finding {
	var findings []report.Finding
	for _, r := range ratios {
		of, ok := m.Get(r.of, Both)
		if !ok {
			continue
		}
		for _, e := range entries {
			low, high := r.low*of.Value, r.high*of.Value
			if e.Name != r.girth || (e.Value >= low && e.Value <= high) {
				continue
			}
			x := suspect{name: e.Name, entry: e, low: low, high: high}
			d, _ := Describe(e.Name)
			for _, alt := range readings(e, d) {
				if x.probably == "" && alt.value >= low && alt.value <= high {
					x.probably = alt.text
				}
			}
			findings = append(findings, x.finding())
		}
	}
	return findings
}
