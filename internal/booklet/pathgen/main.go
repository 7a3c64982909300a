// Command pathgen draws docs/path.svg, the picture of the whole way at the top
// of the README, of a helm for a made-up wearer. Run it at the module's root:
//
//	go run ./internal/booklet/pathgen > docs/path.svg
package main

import (
	"context"
	"fmt"
	"os"

	"tasset/body"
	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/draw/svg"
	"tasset/pattern"
	"tasset/templates"
	"tasset/tile"
)

func main() {
	page, err := picture()
	if err == nil {
		err = svg.Write(os.Stdout, page)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func picture() (draw.Page, error) {
	ctx := context.Background()
	sizes := body.Tape{Sex: body.Woman, Entries: []body.Entry{
		{Name: "head girth", Value: 574}, {Name: "head length", Value: 195}, {Name: "head breadth", Value: 152},
		{Name: "stature", Value: 1710}, {Name: "weight", Value: 66},
	}}
	measured, _, err := body.Estimate(body.LoadSurvey(), sizes, nil)
	if err != nil {
		return draw.Page{}, err
	}
	form, _, err := body.NewForm(measured, nil, body.Posture{})
	if err != nil {
		return draw.Page{}, err
	}
	set, _, err := pattern.Make(ctx, []pattern.Order{{Name: "helm", Template: "helm"}}, templates.FS, form, pattern.Material{K: 0.5})
	if err != nil {
		return draw.Page{}, err
	}
	paper, err := tile.ParsePaper("A4")
	if err != nil {
		return draw.Page{}, err
	}
	plan, _, err := tile.Lay(ctx, set, paper, nil)
	if err != nil {
		return draw.Page{}, err
	}
	return booklet.Path(&set.Pieces[0], form.Mesh(), fullest(plan)), nil
}

// fullest is the page with the most panels; the sheets are the last pages.
func fullest(plan *tile.Plan) draw.Page {
	best := 0
	for i, s := range plan.Sheets {
		if len(s.Windows) > len(plan.Sheets[best].Windows) {
			best = i
		}
	}
	pages := plan.Pages()
	return pages[len(pages)-len(plan.Sheets)+best]
}
