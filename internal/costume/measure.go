package costume

import (
	"fmt"
	"path/filepath"
	"strings"

	"tasset/body"
	"tasset/internal/report"
	"tasset/internal/units"
)

// Row is one measurement as the maker reads it.
type Row struct {
	Name      string  `json:"name"`
	Side      string  `json:"side,omitempty"`
	Value     float64 `json:"value"`     // mm, kg
	PlusMinus float64 `json:"plusMinus"` // half-width of the 95 % interval
	Unit      string  `json:"unit"`      // of the two numbers: "mm" or "kg"
	Origin    string  `json:"origin"`    // "tape", "photograph", "estimated", "unknown"
	Over      string  `json:"over,omitempty"`
	Where     string  `json:"where,omitempty"`
	HowTo     string  `json:"howTo"`
	Rare      bool    `json:"rare,omitempty"` // makers hardly ever tape it
	Shown     string  `json:"shown"`          // value with its unit, in the maker's units
	ShownPM   string  `json:"shownPlusMinus"`
}

// Rows lists every measurement: those known, taken or estimated, and those
// that can only be taken.
func (f *Folder) Rows(m *body.Measurements) []Row {
	known := map[body.Name][]body.Measurement{}
	for _, x := range m.All() {
		known[x.Name] = append(known[x.Name], x)
	}
	var rows []Row
	for _, d := range body.Catalogue() {
		if len(known[d.Name]) == 0 {
			rows = append(rows, Row{Name: string(d.Name), Unit: d.Unit(), Origin: "unknown", HowTo: d.HowTo, Rare: d.Advanced})
		}
		for _, x := range known[d.Name] {
			rows = append(rows, f.row(x, d))
		}
	}
	return rows
}

func (f *Folder) row(x body.Measurement, d body.Description) Row {
	r := Row{Name: string(x.Name), Side: x.Side.String(), Value: units.Round(x.Value), PlusMinus: units.Round(x.HalfWidth()),
		Unit: d.Unit(), Origin: x.Origin.String(), Over: x.Over, Where: x.Where, HowTo: d.HowTo, Rare: d.Advanced}
	write, doubt := units.Format, units.FormatDoubt
	if d.Kind == body.KindWeight {
		write, doubt = units.FormatWeight, units.FormatWeight
	}
	r.Shown, r.ShownPM = write(x.Value, f.Units()), doubt(x.HalfWidth(), f.Units())
	return r
}

// MeasurementNames lists what can be measured, from head to foot.
func MeasurementNames() []string {
	var names []string
	for _, d := range body.Catalogue() {
		names = append(names, string(d.Name))
	}
	return names
}

// HowTo is how to take a measurement, in one sentence; false if there is none
// of that name.
func HowTo(name string) (string, bool) {
	d, ok := body.Describe(body.Name(name))
	return d.HowTo, ok
}

// SuggestMeasurement is the measurement that a wrong name probably means.
func SuggestMeasurement(typed string) string { return string(body.Suggest(typed)) }

// CheckSize tells whether a measurement's value can be read and can be a person's:
// nil, or what would be right.
func CheckSize(name, typed string, def units.Unit) error {
	d, ok := body.Describe(body.Name(name))
	if !ok {
		return NoMeasurement(name)
	}
	n, err := ParseSize(d, typed, def)
	if err != nil {
		return err
	}
	if d.Kind != body.KindWeight {
		typed = withUnit(typed, def)
	}
	return possible(body.Tape{Entries: []body.Entry{{Name: d.Name, Value: n, Typed: typed}}})
}

// possible tells whether sizes can be a person's: nil, or what people have.
func possible(tape body.Tape) error {
	_, _, err := body.Estimate(body.LoadSurvey(), tape, nil)
	return err
}

// NoMeasurement says that nothing is measured by that name, and what was meant.
func NoMeasurement(name string) error {
	if n := body.Suggest(name); n != "" {
		return fmt.Errorf("there is no measurement %q; did you mean %q?", name, n)
	}
	return fmt.Errorf("there is no measurement %q; \"tasset measure --all\" lists them", name)
}

// TakeDown writes a size into a folder's wearer.yaml and gives back the
// findings that it raises. A value that cannot be is refused and nothing is
// written.
func TakeDown(dir, name, side, typed string) ([]report.Finding, error) {
	d, ok := body.Describe(body.Name(name))
	switch {
	case !ok:
		return nil, NoMeasurement(name)
	case side != "" && !d.Sided:
		return nil, fmt.Errorf("%s has no sides; leave %q out", name, side)
	}
	src, err := readFile(dir, WearerFile)
	if err != nil {
		return nil, err
	}
	next, err := SetMeasurement(src, d.Name, side, strings.TrimSpace(typed))
	if err != nil {
		return nil, err
	}
	w, err := ReadWearer(WearerFile, next)
	if err != nil {
		return nil, err
	}
	_, findings, err := body.Estimate(body.LoadSurvey(), w.Tape, nil)
	if err != nil {
		return nil, err
	}
	return about(findings, name), Save(filepath.Join(dir, WearerFile), next)
}

// about are the findings on one measurement.
func about(findings []report.Finding, name string) []report.Finding {
	var out []report.Finding
	for _, f := range findings {
		if strings.HasPrefix(f.Subject, name) {
			out = append(out, f)
		}
	}
	return out
}
