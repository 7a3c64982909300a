package costume

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"

	"tasset/internal/units"
)

//go:embed demo
var demo embed.FS

// Demo makes a folder with an invented costume for an invented wearer, with
// pictures. Nothing that is there is overwritten.
func Demo(dir string) error {
	files := map[string][]byte{}
	err := fs.WalkDir(demo, "demo", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		files[strings.TrimPrefix(name, "demo/")], err = demo.ReadFile(name)
		return err
	})
	if err != nil {
		return err
	}
	return start(dir, files)
}

// start writes the files of a new folder, by their place in it; costume.yaml
// last, so that a folder that has it is whole.
func start(dir string, files map[string][]byte) error {
	names := []string{WearerFile}
	for name := range files {
		if name != WearerFile && name != CostumeFile {
			names = append(names, name)
		}
	}
	sort.Strings(names[1:])
	names = append(names, CostumeFile)
	if err := vacant(dir, names); err != nil {
		return err
	}
	for _, name := range names {
		if err := Save(filepath.Join(dir, filepath.FromSlash(name)), files[name]); err != nil {
			return err
		}
	}
	return nil
}

// Vacant tells whether a new costume may be made in a folder: nil, or what is
// there already.
func Vacant(dir string) error { return vacant(dir, []string{WearerFile, CostumeFile}) }

func vacant(dir string, names []string) error {
	for _, name := range names {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if _, err := os.Stat(path); err == nil {
			return fmt.Errorf("%s is there already and is not overwritten; name another folder", path)
		}
	}
	return nil
}

// Answers are what a new costume starts from, as typed.
type Answers struct {
	Name, Sex                  string
	Units                      units.Unit
	Paper                      string
	Stature, Weight, HeadGirth string
	Suit                       bool // the whole default suit instead of a vambrace and a helmet
}

// Start makes a folder with the first pieces for a new wearer. Nothing
// that is there is overwritten, and nothing is written if an answer is wrong.
func Start(dir string, a Answers) error {
	wearer, pieces := []byte(a.wearer()), []byte(a.costume())
	w, errWearer := ReadWearer(WearerFile, wearer)
	c, errPieces := ReadCostume(CostumeFile, pieces, NewCatalogue(nil))
	if err := errors.Join(errWearer, errPieces); err != nil {
		return err
	}
	if err := possible(w.Tape); err != nil {
		return err
	}
	if _, err := (&Folder{Costume: c}).paper(""); err != nil {
		return err
	}
	return start(dir, map[string][]byte{WearerFile: wearer, CostumeFile: pieces})
}

func (a Answers) wearer() string {
	var b strings.Builder
	b.WriteString("# Sizes of one person. Keep this file to yourself; costume.yaml can be shared.\nformat: 1\n")
	if a.Name != "" {
		fmt.Fprintf(&b, "name: %q\n", a.Name)
	}
	if a.Sex != "" {
		fmt.Fprintf(&b, "sex: %s\n", a.Sex)
	}
	fmt.Fprintf(&b, "units: %s\n\n", a.Units)
	b.WriteString("# What is worn under the armour, by thickness; take the lines out that do not apply.\n")
	b.WriteString("wears:\n  undersuit: 2 mm\n  hair: 5 mm\n\n")
	b.WriteString("# How you stand: who stoops, or holds the shoulders back, needs another breastplate and\n")
	b.WriteString("# backplate. A picture of the body from the side tells it, or say how much farther\n")
	b.WriteString("# forward than most people's the chest stands over the hips, with a minus if farther back:\n")
	b.WriteString("# posture: {chest forward: -10 mm, waist forward: 0 mm, shoulders forward: -25 mm}\n\n")
	b.WriteString("# \"tasset measure\" lists all sizes and how to take them; write them here, or with\n")
	b.WriteString("# tasset measure set \"wrist girth\" \"16.8 cm\"\n")
	b.WriteString("# Photographs with a ruler in frame give sizes as well: \"tasset photo guide\".\nmeasurements:\n")
	fmt.Fprintf(&b, "  stature: %s\n  weight: %s\n  head girth: %s\n", withUnit(a.Stature, a.Units), a.Weight, withUnit(a.HeadGirth, a.Units))
	return b.String()
}

// withUnit writes the unit out where a number stood alone.
func withUnit(typed string, u units.Unit) string {
	if _, err := units.ParseLength(typed, units.None); err != nil {
		return typed + " " + u.String()
	}
	return typed
}

func (a Answers) costume() string {
	if a.Suit {
		return suitFile("Suit", a.Paper)
	}
	return fmt.Sprintf(`# Which pieces, of what foam, on what paper.
format: 1
title: First pieces
paper: %s

material:
  thickness: 5 mm
  # Tested your foam with the scrap test? Then write k and shrink here.

# Measured the 100 mm square on the print-check page? Write what you read:
# printer: {across: 99.6 mm, down: 100.2 mm}

# "tasset pieces" lists what can be made. A piece may have side, thickness, settings,
# adjust, mock-up, and traced: outer, middle or inner, the face of the foam that the
# line to cut is for (outer, its outside, if you do not say).
pieces:
  - piece: vambrace       # a pair, if you do not say left or right
  - piece: open-helmet
`, a.Paper)
}

// CheckPaper tells whether a paper is known: nil, or what would be right.
func CheckPaper(typed string) error {
	_, err := (&Folder{Costume: &Costume{}}).paper(typed)
	return err
}

// CheckSex tells whether a word chooses one of the survey's models.
func CheckSex(typed string) error {
	if !contains(sexes, typed) {
		return fmt.Errorf("found %q; write woman, man or not stated", typed)
	}
	return nil
}
