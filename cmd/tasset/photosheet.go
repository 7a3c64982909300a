package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
	"tasset/internal/report"
)

func newMarks() *cobra.Command {
	return &cobra.Command{
		Use:   "marks [picture …]",
		Short: "Draw the marks onto the photographs, to check them by eye",
		Long: `Draw the marks onto the photographs, all or those named, each into a PNG in the
folder photo-check: every mark with its name, and how far it is from where all
pictures together put it. Look at each once: most errors are found here. What
costume.yaml lays or draws over a photograph comes beside it, as "-over.png".`,
		Example:           "  tasset photo marks\n  tasset photo marks photos/head-front.jpg",
		ValidArgsFunction: completePhotographs,
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := costume.Open(folderOf(cmd))
			if err != nil {
				return err
			}
			done := working(cmd, "drawing the marks")
			files, unsolved, err := f.MarkedPictures(cmd.Context(), args)
			done()
			if err != nil {
				return err
			}
			if err := saySaved(cmd, files); err != nil {
				return err
			}
			if unsolved != nil {
				fmt.Fprintf(cmd.OutOrStdout(), "The marks could not be put together yet:\n%v\n", unsolved)
			}
			return nil
		},
	}
}

func newSheet() *cobra.Command {
	var o costume.SheetOptions
	cmd := &cobra.Command{
		Use:   "sheet [head | body]",
		Short: "Make reference sheets to draw on: the views upright, at one true scale",
		Long: `Make reference sheets of the photographs: the views turned upright, levelled, at
one true scale, with rulers, a grid and centre lines, to draw a costume on. They
are printed at 100 % over as many pages as it takes; with --fit each on one page,
at a scale that it states. --png and --svg make one large picture or drawing in
mm, to open elsewhere.`,
		Example:   "  tasset photo sheet\n  tasset photo sheet body --fit --paper A3\n  tasset photo sheet head --svg",
		Args:      headOrBody,
		ValidArgs: []string{"head", "body"},
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := costume.Open(folderOf(cmd))
			if err != nil {
				return err
			}
			if len(args) == 1 {
				o.Of = args[0]
			}
			done := working(cmd, "drawing the sheets")
			files, findings, err := f.ReferenceSheets(cmd.Context(), o)
			done()
			if err != nil {
				sayBefore(cmd.ErrOrStderr(), findings)
				return err
			}
			if err := saySaved(cmd, files); err != nil {
				return err
			}
			if report.Worst(findings) > report.Note {
				fmt.Fprintf(cmd.OutOrStdout(), "There are doubts about the photographs; \"tasset photo%s\" says which.\n", inFolder(f.Dir))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&o.Fit, "fit", false, "fit each sheet to one page")
	cmd.Flags().StringVar(&o.Paper, "paper", "", "paper to print on (default: the costume's)")
	cmd.Flags().BoolVar(&o.PNG, "png", false, "make a picture (PNG) instead of pages")
	cmd.Flags().BoolVar(&o.SVG, "svg", false, "make a drawing (SVG, in mm, pictures embedded) instead of pages")
	return cmd
}

// headOrBody wants one of the two, or nothing.
func headOrBody(_ *cobra.Command, args []string) error {
	switch {
	case len(args) > 1:
		return fmt.Errorf("found %s; write head, or body, or neither for both", report.Counted(len(args), "word"))
	case len(args) == 1 && args[0] != "head" && args[0] != "body":
		return fmt.Errorf("found %q; write head, or body, or neither for both", args[0])
	}
	return nil
}

func newCard() *cobra.Command {
	var paper, out string
	cmd := &cobra.Command{
		Use:   "card",
		Short: "Make the scale card to print and hold instead of a ruler",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			file, err := costume.ScaleCard(folderOf(cmd), paper)
			if err != nil {
				return err
			}
			if out != "" {
				file.Path = out
			}
			if err := saySaved(cmd, []costume.File{file}); err != nil {
				return err
			}
			fmt.Fprintln(cmd.OutOrStdout(), "Print it at 100 %, measure it, and glue it on something stiff.")
			return nil
		},
	}
	cmd.Flags().StringVar(&paper, "paper", "", "paper to print on (default: the costume's, or A4)")
	cmd.Flags().StringVar(&out, "out", "", "the card's file (default: print/scale-card-<paper>.pdf in the folder)")
	return cmd
}

func newGuide() *cobra.Command {
	var focal, size, pdf, paper string
	cmd := &cobra.Command{
		Use:   "guide",
		Short: "Say how to take photographs to measure by, for the camera you have",
		Long: `Say how to take photographs to measure by: where to stand, which zoom, where the
ruler goes, how to pose, and what each fault costs in mm. The numbers are for the
camera that --focal and --size describe.`,
		Example: "  tasset photo guide\n  tasset photo guide --focal 52mm --pdf guide.pdf",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			text, pages, err := costume.ShootingGuide(folderOf(cmd), focal, size, paper)
			if err != nil {
				return err
			}
			if pdf == "" {
				_, err := fmt.Fprint(cmd.OutOrStdout(), text)
				return err
			}
			pages.Path = pdf
			return saySaved(cmd, []costume.File{pages})
		},
	}
	cmd.Flags().StringVar(&focal, "focal", "", "the camera's focal length as on 35 mm film (\"35 mm equivalent\"), such as 26mm")
	cmd.Flags().StringVar(&size, "size", "", "the size of its pictures, such as \"4000 x 3000\"")
	cmd.Flags().StringVar(&pdf, "pdf", "", "write sheets to print into this file instead")
	cmd.Flags().StringVar(&paper, "paper", "", "paper of the sheets (default: the costume's, or A4)")
	return cmd
}

// working tells on a terminal what takes a few seconds; what it gives takes the
// line off.
func working(cmd *cobra.Command, on string) func() {
	tell := progress(cmd.ErrOrStderr())
	tell(on, 0, 1)
	return func() { tell("", 1, 1) }
}

// saySaved writes files and says where they are.
func saySaved(cmd *cobra.Command, files []costume.File) error {
	if err := costume.SaveAll(files); err != nil {
		return err
	}
	for _, f := range files {
		fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s.\n", f.Path)
	}
	return nil
}

// completePhotographs completes the names of the wearer's photographs.
func completePhotographs(cmd *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
	f, err := costume.Open(folderOf(cmd))
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []string
	for _, s := range f.Wearer.Photos {
		names = append(names, s.Name)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
