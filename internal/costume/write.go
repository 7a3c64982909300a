package costume

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"unicode"

	"tasset/internal/draw"
	"tasset/internal/draw/pdf"
	"tasset/internal/report"
	"tasset/internal/units"
)

// PrintPath is where a build's pages go unless the maker says otherwise:
// print/<title>-<paper>.pdf in the folder. Pages of some pieces bear their
// names, so that they do not take the place of the whole costume's.
func (f *Folder) PrintPath(r *Result, o Options) string {
	name := f.chosen(o) + "-" + fileName(r.Plan.Paper.Name)
	if o.MockUp {
		name += "-mock-up"
	}
	return filepath.Join(f.Dir, "print", name+".pdf")
}

// PicturePath is where a picture of the costume goes unless the maker says
// otherwise.
func (f *Folder) PicturePath(o Options) string {
	return filepath.Join(f.Dir, "print", f.chosen(o)+".png")
}

// chosen is the costume's title and the pieces that were asked for, as a part of
// a file's name.
func (f *Folder) chosen(o Options) string {
	name := fileName(f.Costume.Title)
	for _, piece := range o.Only {
		name += "-" + fileName(piece)
	}
	if len(name) > longestName {
		name = strings.ToValidUTF8(name[:longestName], "")
	}
	return name
}

// longestName is how many bytes of a title go into a file's name; systems take
// 255 in all.
const longestName = 120

// fileName keeps letters and digits; what lies between becomes one hyphen.
func fileName(title string) string {
	words := strings.FieldsFunc(title, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if len(words) == 0 {
		return "costume"
	}
	return strings.Join(words, "-")
}

// PDF is a build's pages as a document; the same build gives the same bytes.
func (f *Folder) PDF(r *Result) ([]byte, error) { return document(f.Costume.Title, r.Pages) }

func document(title string, pages []draw.Page) ([]byte, error) {
	var b bytes.Buffer
	if err := pdf.Write(&b, pages, pdf.Info{Title: title}); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// Summary is what a build made, for people and for scripts.
type Summary struct {
	Title    string           `json:"title"`
	Paper    string           `json:"paper,omitempty"`
	Pages    int              `json:"pages"`
	Panels   int              `json:"panels"` // to cut, copies counted
	File     string           `json:"file,omitempty"`
	Passes   bool             `json:"passes"`
	Pieces   []PieceSummary   `json:"pieces"`
	Findings []report.Finding `json:"findings"`
	// ToMeasure are the sizes that keep pieces drafts.
	ToMeasure []string `json:"toMeasure"`
	Dressing  []string `json:"dressing,omitempty"` // names of the pieces in an order to put them on
}

// PieceSummary is one piece of a build.
type PieceSummary struct {
	Name      string  `json:"name"`
	Template  string  `json:"template"`
	Copies    int     `json:"copies"`
	Templates int     `json:"templates"`        // panels to print
	Panels    int     `json:"panels"`           // panels to cut
	Foam      float64 `json:"foam"`             // thickness, mm; of the card in a mock-up
	FoamSaid  string  `json:"foamSaid"`         // the same as pages write it: "3/8 in"
	MockUp    bool    `json:"mockUp"`           // in card
	Weight    float64 `json:"weight,omitempty"` // of the foam, all copies, kg, by the material's density
	Weighs    string  `json:"weighs,omitempty"` // the same in a sentence's words: "about 180 g without paint and straps"
	Clearance float64 `json:"clearance"`        // least distance from the body, mm, checked
	Asked     float64 `json:"asked"`            // what it should be at least, mm
	StandsOff float64 `json:"standsOff"`        // how far bent panels stand outside the rounded shape at most, mm
	Draft     bool    `json:"draft"`
	DraftWhy  string  `json:"draftWhy,omitempty"`
	Problem   bool    `json:"problem"` // a finding says that it must not be cut as it is
}

// Summarise says what a build made; file is where its pages went, if anywhere.
func (f *Folder) Summarise(r *Result, file string) Summary {
	s := Summary{Title: f.Costume.Title, Pages: len(r.Pages), Panels: r.Panels(), File: file, Passes: r.Passes(),
		Findings: append([]report.Finding{}, r.Findings...), ToMeasure: append([]string{}, r.ToMeasure()...)}
	if r.Plan != nil {
		s.Paper = r.Plan.Paper.Name
	}
	s.Dressing = r.Set.Dressing
	for _, p := range r.Set.Pieces {
		q := PieceSummary{Name: p.Name, Template: p.Template, Copies: p.Copies, Templates: len(p.Panels), Foam: p.Thickness, FoamSaid: units.FormatFoam(p.Thickness, f.Units()),
			Clearance: units.Round(p.Clearance), Asked: units.Round(p.Asked), StandsOff: units.Round(p.Deviation), MockUp: p.MockUp, Draft: p.Draft, DraftWhy: p.DraftWhy, Problem: r.hasProblem(p.Name)}
		if p.Weight > 0 {
			q.Weight, q.Weighs = units.Round(p.Weight), fmt.Sprintf("about %s without paint and straps", units.FormatLight(p.Weight, f.Units()))
		}
		for _, panel := range p.Panels {
			q.Panels += max(panel.Copies, 1)
		}
		s.Pieces = append(s.Pieces, q)
	}
	return s
}

func (r *Result) hasProblem(piece string) bool {
	for _, f := range r.Findings {
		if f.Level == report.Problem && (f.Subject == piece || strings.HasPrefix(f.Subject, piece+":")) {
			return true
		}
	}
	return false
}

// JSON is a value as a script reads it, indented, ending in a new line.
func JSON(v any) ([]byte, error) {
	b, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("the result cannot be written as JSON: %w", err)
	}
	return append(b, '\n'), nil
}
