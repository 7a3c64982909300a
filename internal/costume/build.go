package costume

import (
	"context"
	"fmt"
	"reflect"
	"slices"
	"sync"

	"tasset/body"
	"tasset/internal/booklet"
	"tasset/internal/draw"
	"tasset/internal/geom"
	"tasset/internal/report"
	"tasset/pattern"
	"tasset/pattern/fit"
	"tasset/tile"
)

// Options are what a maker may ask for beside the folder's files. The zero
// value asks for what the files say.
type Options struct {
	Paper  string   // instead of the costume's
	MockUp bool     // every piece in card
	Only   []string // names of pieces or templates; none: all
	Before *Result  // an earlier one, whose body and pieces are taken over where nothing of theirs has changed
}

// Result is everything that one run of the stages gives.
type Result struct {
	Photos       *Photos
	Over         *Over // measured over pictures
	Measurements *body.Measurements
	Form         *body.Form
	HeadOnForm   geom.Frame   // bodyFromHead, of the photographed head
	Set          *pattern.Set // of the pieces that were asked for
	Plan         *tile.Plan
	Pages        []draw.Page
	Findings     []report.Finding
	PhotoNotes   []report.Finding // on photographs, with nothing wrong: for whoever asks about them

	whole   *pattern.Set // of all pieces
	layers  []body.Layer // that the form wears
	posture body.Posture // that it stands in
	fits    *fit.Fit     // the pieces on the body
}

// Progress is told which stage begins, and how many of how many are done.
type Progress func(stage string, done, total int)

// Build runs every stage over a folder: sizes, body form, panels, fit, pages. With
// an error, the result has what was found before it, which is often why; nil is
// nothing.
func Build(ctx context.Context, f *Folder, o Options, progress Progress) (*Result, error) {
	paper, err := f.paper(o.Paper)
	if err != nil {
		return nil, err
	}
	r, err := f.ready(ctx, o, progress)
	if err != nil {
		return r, err
	}
	progress("checking the fit, laying the panels on pages", 3, stages)
	var front []draw.Page
	var beside sync.WaitGroup // each reads the pieces and changes none
	beside.Go(func() { r.wear(o.Before) })
	beside.Go(func() { front = f.front(r, paper) })
	plan, findings, err := tile.Lay(ctx, r.Set, paper, nil)
	beside.Wait()
	r.Findings = append(r.Findings, r.ofAsked(slices.Clone(r.fits.Findings))...)
	if err != nil {
		return r, err
	}
	plan.Title, plan.Front = f.Costume.Title, front
	r.Plan, r.Findings = plan, append(r.Findings, findings...)
	progress("drawing the pages", 4, stages)
	r.Pages = plan.Pages()
	progress("done", stages, stages)
	return r, nil
}

// front is what stands between the print check and the index: the safety page,
// the costume on its wearer, each piece as it is worn with its order of joining,
// and the tests on scraps.
func (f *Folder) front(r *Result, paper tile.Paper) []draw.Page {
	height := min(paper.Height, longestFront)
	pages := []draw.Page{booklet.Safety(paper.Width, height)}
	pages = append(pages, booklet.Overviews(r.Set, r.Form.Figure(), paper.Width, height, f.Units())...)
	return append(pages, tile.ScrapTest(paper))
}

// longestFront is how long the safety page gets on a roll, mm.
const longestFront = 420

// stages is how many steps Build has.
const stages = 5

// Shape runs the stages up to the fit: what `check` needs, without pages. Its
// result beside an error is as Build's.
func Shape(ctx context.Context, f *Folder, o Options, progress Progress) (*Result, error) {
	r, err := f.ready(ctx, o, progress)
	if err != nil {
		return r, err
	}
	progress("checking the fit", 3, stages)
	r.wear(o.Before)
	r.Findings = append(r.Findings, r.ofAsked(slices.Clone(r.fits.Findings))...)
	return r, nil
}

// wear holds the pieces against the body, and looks at nothing again that an
// earlier result tells.
func (r *Result) wear(before *Result) {
	var known *fit.Fit
	if before != nil {
		known = before.fits
	}
	r.fits = known.Again(r.whole, r.Form)
}

// ready makes the body and the pieces, and drafts of those that photographs leave
// in doubt.
func (f *Folder) ready(ctx context.Context, o Options, progress Progress) (*Result, error) {
	r, err := Dress(ctx, f, o, progress)
	if err == nil {
		r.Findings = append(r.Findings, f.holdBack(r)...)
	}
	return r, err
}

// Dress makes the body and the pieces on it, which is all that a picture of them
// needs. Its result beside an error is as Build's.
func Dress(ctx context.Context, f *Folder, o Options, progress Progress) (*Result, error) {
	if err := f.has(o.Only); err != nil {
		return nil, err
	}
	progress("estimating the sizes that were not measured", 0, stages)
	r, err := f.Estimate(ctx)
	if err != nil {
		return r, err
	}
	progress("forming the body", 1, stages)
	if err := f.form(r, o.Before); err != nil {
		return r, err
	}
	progress("making the pieces", 2, stages)
	if err := f.makeAsked(ctx, o, r); err != nil {
		return r, err
	}
	r.narrow(o)
	r.Findings = append(r.Findings, f.assumed(r)...)
	return r, nil
}

// makeAsked makes all pieces or, if those that were not asked for hold up the others,
// those that were as if alone.
func (f *Folder) makeAsked(ctx context.Context, o Options, r *Result) error {
	known := slices.Clip(r.Findings)
	r.Findings = known
	err := f.make(ctx, o, r, nil)
	if err == nil || len(o.Only) == 0 {
		return err
	}
	found := r.Findings
	r.Findings = known
	if f.make(ctx, o, r, o.Only) != nil {
		r.Findings = found
		return err
	}
	r.Findings = append(r.Findings, report.Finding{Level: report.Doubt, Said: err.Error() + ".",
		Perhaps: "What you asked for is made as if the costume had nothing else, without the marks of straps that join it to other pieces: mend that piece and print this one again before you cut it."})
	return nil
}

// make makes the pieces of a costume, or those among names: all are made for some,
// as pieces are fastened to each other and stand on each other.
func (f *Folder) make(ctx context.Context, o Options, r *Result, among []string) error {
	orders, err := f.orders(o, r, among)
	if err != nil {
		return err
	}
	r.Findings = append(r.Findings, f.lookNotes(orders)...)
	var before *pattern.Set
	if o.Before != nil {
		before = o.Before.whole
	}
	set, findings, err := before.Remake(ctx, orders, f.Catalogue.FS(), r.Form, f.Costume.Material)
	if err != nil {
		return err
	}
	r.whole, r.Findings = set, append(r.Findings, findings...)
	return nil
}

// Estimate brings the wearer's tape and photographs together with the survey,
// and measures what lies over the photographs: the first stages alone. Its result
// beside an error is as Build's.
func (f *Folder) Estimate(ctx context.Context) (*Result, error) {
	photos, findings, err := f.Photographs(ctx)
	r := &Result{Photos: photos}
	r.addPhotoFindings(findings)
	if err != nil {
		return r, err
	}
	if r.Measurements, findings, err = body.Estimate(body.LoadSurvey(), f.Wearer.Tape, f.seen(photos)); err != nil {
		return r, err
	}
	r.Findings = append(r.Findings, findings...)
	if r.Over, findings, err = f.over(photos); err != nil {
		return r, err
	}
	r.Findings = append(r.Findings, findings...)
	return r, nil
}

// form builds the body, standing as the maker says, else as a picture from the
// side shows. One that comes out as an earlier one is that one, with all that was
// computed of it.
func (f *Folder) form(r, before *Result) error {
	posture, _ := f.stands(r.Photos)
	r.Findings = append(r.Findings, f.seenStanding(r.Photos)...)
	form, findings, err := body.NewForm(r.Measurements, f.Wearer.Layers, posture)
	if err != nil {
		return fmt.Errorf("%s: %w", WearerFile, err)
	}
	r.layers, r.posture = f.Wearer.Layers, posture
	if before != nil && before.Form != nil && r.posture == before.posture && reflect.DeepEqual(r.layers, before.layers) && reflect.DeepEqual(r.Measurements, before.Measurements) {
		form = before.Form
	}
	r.Form, r.HeadOnForm, r.Findings = form, geom.Identity(), append(r.Findings, findings...)
	if r.Photos != nil && r.Photos.Solution.Head != nil {
		r.HeadOnForm, findings = r.Photos.Solution.Head.On(form)
		// The form is of the skin: what was seen of hair or a hood stands outside
		// it by a thickness that is taken off already, and calls for no padding.
		if f.Wearer.Over.Head == "" {
			r.addPhotoFindings(findings)
		}
	}
	return nil
}

// addPhotoFindings adds what was found about photographs; mere notes are put
// aside, as a build has enough to tell.
func (r *Result) addPhotoFindings(findings []report.Finding) {
	for _, g := range findings {
		if g.Level == report.Note {
			r.PhotoNotes = append(r.PhotoNotes, g)
		} else {
			r.Findings = append(r.Findings, g)
		}
	}
}

// paper is what to print on: the maker's wish, else the costume's, else A4,
// corrected for the printer.
func (f *Folder) paper(wish string) (tile.Paper, error) {
	text, place := wish, ""
	if wish == "" && f.Costume.Paper != "" {
		text, place = f.Costume.Paper, f.Costume.PaperAt+": "
	}
	if text == "" {
		text = "A4"
	}
	p, err := tile.ParsePaper(text)
	if err != nil {
		return p, fmt.Errorf("%s%w", place, err)
	}
	printer := f.Costume.Printer
	if printer.Where == "" {
		return p, nil
	}
	p, err = p.Corrected(printer.Across, printer.Down)
	if err != nil {
		return p, fmt.Errorf("%s: printer: %w", printer.Where, err)
	}
	return p, nil
}

// Drafts are the names of the pieces that are not ready to be cut.
func (r *Result) Drafts() []string {
	var names []string
	for _, p := range r.Set.Pieces {
		if p.Draft {
			names = append(names, p.Name)
		}
	}
	return names
}

// Panels is how many panels are to be cut, copies counted.
func (r *Result) Panels() int {
	n := 0
	for _, p := range r.Set.Pieces {
		for _, panel := range p.Panels {
			n += max(panel.Copies, 1)
		}
	}
	return n
}

// Passes tells whether foam can be cut: no problem and no draft.
func (r *Result) Passes() bool {
	return report.Worst(r.Findings) < report.Problem && len(r.Drafts()) == 0
}
