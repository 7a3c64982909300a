package costume

import (
	"bytes"
	"context"
	"fmt"
	"path"
	"path/filepath"
	"strings"

	"tasset/body/photo"
	"tasset/body/photo/picture"
	"tasset/body/photo/sheet"
	"tasset/internal/draw"
	"tasset/internal/draw/png"
	"tasset/internal/draw/svg"
	"tasset/internal/report"
)

// File is a file to write, with its place.
type File struct {
	Path    string
	Content []byte
}

// SaveAll writes files.
func SaveAll(files []File) error {
	for _, f := range files {
		if err := Save(f.Path, f.Content); err != nil {
			return err
		}
	}
	return nil
}

// How finely pictures are painted.
const (
	markedPxPerMM = 5 // a sheet of a marked picture: some 2500 px wide
	headPxPerMM   = 6 // what a camera sees of a head from where it should stand
	bodyPxPerMM   = 2
)

// MarkedPictures draws onto photographs, all of them or those named, the marks
// and, in pictures of their own, what the costume's file lays over them.
// Marks that cannot be solved yet are drawn all the same; then unsolved says why.
func (f *Folder) MarkedPictures(ctx context.Context, names []string) (files []File, unsolved, err error) {
	p, _, err := f.openPhotos()
	if err != nil {
		return nil, nil, err
	}
	wanted, err := p.named(names)
	if err != nil {
		return nil, nil, err
	}
	if p.Solution, _, unsolved = photo.Solve(ctx, p.Shots); ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	for _, i := range wanted {
		more, err := f.checkFiles(p, i)
		if err != nil {
			return nil, nil, err
		}
		files = append(files, more...)
	}
	return files, unsolved, nil
}

// checkFiles are pictures to check one photograph by: its marks, and what the
// costume's file lays over it.
func (f *Folder) checkFiles(p *Photos, i int) ([]File, error) {
	shot := p.Shots[i]
	marked, err := sheet.Marked(p.Pictures[i], shot, p.subject(shot.View))
	if err != nil {
		return nil, err
	}
	pages, names := []draw.Page{marked}, []string{checkName(shot.Name)}
	over, err := f.laidOver(p, shot.Name)
	if err != nil {
		return nil, err
	}
	if over != nil {
		laid, err := sheet.LaidOver(p.Pictures[i], shot, *over)
		if err != nil {
			return nil, err
		}
		pages, names = append(pages, laid), append(names, strings.TrimSuffix(names[0], ".png")+"-over.png")
	}
	files := make([]File, len(pages))
	for k, page := range pages {
		var b bytes.Buffer
		if err := png.Write(&b, page, markedPxPerMM); err != nil {
			return nil, err
		}
		files[k] = File{filepath.Join(f.Dir, "photo-check", names[k]), b.Bytes()}
	}
	return files, nil
}

// checkName is what the picture of a photograph's marks is called.
func checkName(name string) string {
	base := strings.TrimSuffix(strings.TrimPrefix(name, "photos/"), path.Ext(name))
	return fileName(base) + ".png"
}

// named gives the photographs meant by names; none: all.
func (p *Photos) named(names []string) ([]int, error) {
	var out []int
	var known []string
	for i, s := range p.Shots {
		known = append(known, s.Name)
		if len(names) == 0 {
			out = append(out, i)
		}
	}
	for _, n := range names {
		i := p.shot(filepath.ToSlash(filepath.Clean(n)))
		if i < 0 {
			return nil, noPhotograph(n, known)
		}
		out = append(out, i)
	}
	if len(out) == 0 {
		return nil, noPhotographs()
	}
	return out, nil
}

func noPhotographs() error {
	return fmt.Errorf("there are no photographs in %s yet; \"tasset photo guide\" says how to take them, docs/photographs.md how to write them down", WearerFile)
}

func noPhotograph(name string, known []string) error {
	if len(known) == 0 {
		return noPhotographs()
	}
	if k := nearPicture(name, known); k != "" {
		return fmt.Errorf("%s is not among the photographs of %s; did you mean %s?", name, WearerFile, k)
	}
	return fmt.Errorf("%s is not among the photographs of %s; they are %s", name, WearerFile, strings.Join(known, ", "))
}

// SheetOptions are what a maker may ask of reference sheets. The zero value is
// the pages of all of them at true size on the costume's paper.
type SheetOptions struct {
	Of       string // "head" or "body"; "" both, as far as there are photographs
	Paper    string // instead of the costume's
	Fit      bool   // each on one page, made smaller
	PNG, SVG bool   // as a picture or a drawing instead
}

// ReferenceSheets draws the photographs at one true scale, to draw on. Beside an
// error stand findings that may be why.
func (f *Folder) ReferenceSheets(ctx context.Context, o SheetOptions) ([]File, []report.Finding, error) {
	p, findings, err := f.Photographs(ctx)
	if err != nil {
		return nil, findings, err
	}
	if p == nil {
		return nil, nil, noPhotographs()
	}
	paper, err := f.sheetPaper(o.Paper)
	if err != nil {
		return nil, nil, err
	}
	var files []File
	for _, of := range []struct {
		name    string
		subject *photo.Subject
		draws   func(*photo.Solution, map[string]*picture.Picture) (*sheet.Sheet, error)
		px      float64
	}{{"head", p.Solution.Head, sheet.Head, headPxPerMM}, {"body", p.Solution.Body, sheet.Body, bodyPxPerMM}} {
		if o.Of != "" && o.Of != of.name || o.Of == "" && of.subject == nil {
			continue
		}
		s, err := of.draws(p.Solution, p.byName())
		if err != nil {
			return nil, findings, err
		}
		more, err := f.sheetFiles(s, of.name, of.px, paper, o)
		if err != nil {
			return nil, nil, err
		}
		files = append(files, more...)
	}
	return files, findings, nil
}

func (p *Photos) byName() map[string]*picture.Picture {
	m := map[string]*picture.Picture{}
	for _, pic := range p.Pictures {
		m[pic.Name] = pic
	}
	return m
}

// sheetFiles writes one reference sheet in the forms that were asked for.
func (f *Folder) sheetFiles(s *sheet.Sheet, of string, px float64, paper sheet.Paper, o SheetOptions) ([]File, error) {
	at := func(ending string) string { return filepath.Join(f.Dir, "print", "reference-"+of+ending) }
	var files []File
	if o.PNG {
		var b bytes.Buffer
		if err := png.Write(&b, s.Whole(), px); err != nil {
			return nil, err
		}
		files = append(files, File{at(".png"), b.Bytes()})
	}
	if o.SVG {
		var b bytes.Buffer
		if err := svg.Write(&b, s.Whole()); err != nil {
			return nil, err
		}
		files = append(files, File{at(".svg"), b.Bytes()})
	}
	if o.PNG || o.SVG {
		return files, nil
	}
	pages, ending := []draw.Page(nil), "-"+fileName(paper.Name)+".pdf"
	var err error
	if o.Fit {
		pages, ending = make([]draw.Page, 1), "-fit"+ending
		pages[0], err = s.Fitted(paper)
	} else {
		pages, err = s.Pages(paper)
	}
	if err != nil {
		return nil, err
	}
	doc, err := document("Reference sheet: "+of, pages)
	return []File{{at(ending), doc}}, err
}

// longestSheet is how long a sheet gets on a roll, mm.
const longestSheet = 420

// sheetPaper is the paper that sheets are printed on.
func (f *Folder) sheetPaper(wish string) (sheet.Paper, error) {
	p, err := f.paper(wish)
	if p.Roll {
		p.Height = longestSheet
	}
	return sheet.Paper{Name: p.Name, Width: p.Width, Height: p.Height, Across: p.Correct.X, Down: p.Correct.Y}, err
}
