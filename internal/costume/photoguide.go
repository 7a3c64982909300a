package costume

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"tasset/body/photo/sheet"
	"tasset/internal/draw"
	"tasset/internal/units"
)

// ScaleCard is the card to hold beside what is photographed instead of a ruler.
// It needs no costume: a folder that has one says which paper, and whether the
// printer is off.
func ScaleCard(dir, paper string) (File, error) {
	f, err := openPrinter(dir)
	if err != nil {
		return File{}, err
	}
	p, err := f.sheetPaper(paper)
	if err != nil {
		return File{}, err
	}
	page, err := sheet.Card(p)
	if err != nil {
		return File{}, err
	}
	doc, err := document("Scale card", []draw.Page{page})
	return File{filepath.Join(f.Dir, "print", "scale-card-"+fileName(p.Name)+".pdf"), doc}, err
}

// openPrinter reads what a folder says of paper and printer; one without a
// costume says nothing.
func openPrinter(dir string) (*Folder, error) {
	f := &Folder{Dir: dir, Catalogue: catalogueOf(dir), Costume: &Costume{}}
	if _, err := os.Stat(filepath.Join(dir, CostumeFile)); err != nil {
		return f, nil
	}
	src, err := readFile(dir, CostumeFile)
	if err != nil {
		return nil, err
	}
	f.Costume, err = ReadCostume(CostumeFile, src, f.Catalogue)
	return f, err
}

// terminalWidth is how many letters fit a line of a terminal.
const terminalWidth = 78

// Lenses that a head can be measured by, as on 35 mm film, mm: wider ones bend
// lines, and narrower ones see less than head and ruler from where to stand.
// Common practice, no source.
const (
	widest    = 18
	narrowest = 135
)

// ShootingGuide says how to shoot for measuring with a camera: f35 is its focal
// length as on 35 mm film, "26 mm", and size its pictures' pixels, "4000 x 3000";
// "" is a usual one. It comes as text, and as pages on the folder's paper.
func ShootingGuide(dir, f35, size, paper string) (text string, pages File, err error) {
	d := sheet.Device{}
	if f35 != "" {
		if d.F35, err = units.ParseLength(f35, units.MM); err != nil || d.F35 < widest || d.F35 > narrowest {
			return "", File{}, fmt.Errorf("found the focal length %q; write it as on 35 mm film, from %d mm to %d mm, such as 26 mm: no other suits a head at two metres", f35, widest, narrowest)
		}
	}
	if size != "" {
		if n, err := fmt.Sscanf(strings.ReplaceAll(size, " ", ""), "%dx%d", &d.Width, &d.Height); n != 2 || err != nil || min(d.Width, d.Height) < 100 || max(d.Width, d.Height) > largestSide {
			return "", File{}, fmt.Errorf("found the picture size %q; write its pixels, such as \"4000 x 3000\"", size)
		}
	}
	f, err := openPrinter(dir)
	if err != nil {
		return "", File{}, err
	}
	p, err := f.sheetPaper(paper)
	if err != nil {
		return "", File{}, err
	}
	g := sheet.NewGuide(d)
	drawn, err := g.Pages(p)
	if err != nil {
		return "", File{}, err
	}
	doc, err := document(g.Title, drawn)
	return g.Text(terminalWidth), File{filepath.Join(f.Dir, "print", "photo-guide-"+fileName(p.Name)+".pdf"), doc}, err
}
