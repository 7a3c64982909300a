package main

import (
	"context"
	"io"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
)

func newPrint() *cobra.Command {
	var o costume.Options
	var out string
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "print [piece …]",
		Short: "Make the pages to print, of all pieces or of some",
		Long: `Make a PDF of the costume's templates at true size: a page to check the print,
the safety page, an overview of each piece, a scrap test, an index, and the pages
of templates. Print it at 100 % ("actual size"), measure the square on page one,
then cut.

The paper is the costume's; --paper takes another, so that the same folder
prints on A4 here and on Letter elsewhere.`,
		Example: `  tasset print
  tasset print vambrace --paper Letter
  tasset print helm --mock-up --out helm-card.pdf`,
		ValidArgsFunction: completePieces,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.Only = args
			s, err := build(cmd.Context(), folderOf(cmd), o, out, cmd.ErrOrStderr())
			switch {
			case err != nil:
				return err
			case asJSON:
				return sayJSON(cmd.OutOrStdout(), s)
			}
			sayBuild(cmd.OutOrStdout(), s)
			return nil
		},
	}
	cmd.Flags().StringVar(&o.Paper, "paper", "", "paper by name (A4, Letter, A3, tabloid …), size (\"300 x 400 mm\") or roll (\"roll 610 mm\")")
	cmd.Flags().BoolVar(&o.MockUp, "mock-up", false, "make every piece in card: no foam thickness, no bevels")
	cmd.Flags().StringVar(&out, "out", "", "the PDF's file (default: print/<title>-<paper>.pdf in the folder, with the pieces' names if you chose some)")
	cmd.Flags().BoolVar(&asJSON, "json", false, "say what was made as JSON")
	_ = cmd.RegisterFlagCompletionFunc("paper", cobra.FixedCompletions([]string{"A4", "Letter", "A3", "tabloid", "A2", "A1", "A0", "Legal"}, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

// build makes the PDF of a folder and says what it made.
func build(ctx context.Context, dir string, o costume.Options, out string, errs io.Writer) (costume.Summary, error) {
	f, err := costume.Open(dir)
	if err != nil {
		return costume.Summary{}, err
	}
	tell := progress(errs)
	r, err := costume.Build(ctx, f, o, tell)
	tell("", 1, 1) // the line is taken off, however it ends
	if err != nil && r != nil {
		sayBefore(errs, r.Findings)
	}
	if err != nil {
		return costume.Summary{}, err
	}
	if out == "" {
		out = f.PrintPath(r, o)
	}
	doc, err := f.PDF(r)
	if err != nil {
		return costume.Summary{}, err
	}
	return f.Summarise(r, out), costume.Save(out, doc)
}

// completePieces completes the names of the costume's pieces.
func completePieces(cmd *cobra.Command, _ []string, _ string) ([]string, cobra.ShellCompDirective) {
	f, err := costume.Open(folderOf(cmd))
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var names []string
	for _, o := range f.Costume.Orders {
		names = append(names, o.Name)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}
