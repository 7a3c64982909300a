package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
)

func newDemo() *cobra.Command {
	return &cobra.Command{
		Use:   "demo [folder]",
		Short: "Make a folder with an invented costume, and its pages",
		Long: `Make a folder (demo unless you name one) with photographs of an invented wearer,
the marks on them, a few tape sizes, three pieces of armour and a prop, and make
the pages to print. The comments in its two files explain what can be written
there.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := "demo"
			if len(args) == 1 {
				dir = args[0]
			}
			if err := costume.Demo(dir); err != nil {
				return err
			}
			s, err := build(cmd.Context(), dir, costume.Options{}, "", cmd.ErrOrStderr())
			if err != nil {
				return err
			}
			w := cmd.OutOrStdout()
			fmt.Fprintf(w, "Made the folder %s: %s has an invented wearer's sizes and marked photographs, %s the pieces.\n", dir, costume.WearerFile, costume.CostumeFile)
			sayBuild(w, s)
			fmt.Fprintf(w, `
What to do next:
  1. Open %s and print page 1 at 100 %% ("actual size", not "fit").
     Its square must measure 100 mm both ways.
  2. Read %s and %s in %s; their comments explain them. Change a
     size, then: tasset print%s
     (not installed? "go install ./cmd/tasset", or "go run ./cmd/tasset print%[5]s")
  3. See what the photographs tell, and how they are marked:
     tasset photo%[5]s
     tasset photo marks%[5]s
  4. Start your own: tasset new my-costume
`, s.File, costume.WearerFile, costume.CostumeFile, dir, inFolder(dir))
			return nil
		},
	}
}
