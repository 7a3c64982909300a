package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
)

func newDemo() *cobra.Command {
	var suit bool
	cmd := &cobra.Command{
		Use:   "demo [folder]",
		Short: "Make a folder with an invented costume, and its pages",
		Long: `Make a folder (demo unless you name one) with photographs of an invented wearer,
the marks on them, a few tape sizes, three pieces of armour and a prop, and make
the pages to print. The comments in its two files explain what can be written
there. With --suit the wearer's sizes are taken by tape, and the pieces are a whole
suit, head to foot.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := "demo"
			if len(args) == 1 {
				dir = args[0]
			}
			begin := costume.Demo
			if suit {
				begin = costume.DemoSuit
			}
			if err := begin(dir); err != nil {
				return err
			}
			s, err := build(cmd.Context(), dir, costume.Options{}, "", cmd.ErrOrStderr())
			if err != nil {
				return err
			}
			w := cmd.OutOrStdout()
			if suit {
				saySuit(w, dir, s)
				return nil
			}
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
	cmd.Flags().BoolVar(&suit, "suit", false, "a whole suit, head to foot, for a wearer who was taped")
	return cmd
}

func saySuit(w io.Writer, dir string, s costume.Summary) {
	fmt.Fprintf(w, "Made the folder %s: %s has an invented wearer's sizes, %s the pieces of a suit.\n", dir, costume.WearerFile, costume.CostumeFile)
	sayBuild(w, s)
	fmt.Fprintf(w, `
What to do next:
  1. See the suit on its wearer: page 3 of %s, or
     tasset picture%s
  2. Read %s in %s: its comments say how to set the look of the whole suit in
     one place. Change it, then: tasset print%[2]s
  3. Start your own: tasset new my-suit --suit
`, s.File, inFolder(dir), costume.CostumeFile, dir)
}
