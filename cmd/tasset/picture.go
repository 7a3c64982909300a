package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"tasset/internal/costume"
)

func newPicture() *cobra.Command {
	var o costume.Options
	var out string
	cmd := &cobra.Command{
		Use:   "picture [piece …]",
		Short: "Draw the costume on its wearer, of all pieces or of some",
		Long: `Draw the costume as it is worn, on its wearer's body: from the front, from the
left and from behind, at one scale. Both sides of a pair are shown.`,
		Example: `  tasset picture
  tasset picture helm greave --out legs.svg`,
		ValidArgsFunction: completePieces,
		RunE: func(cmd *cobra.Command, args []string) error {
			o.Only = args
			return writePicture(cmd, o, out)
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "the picture's file: .png, .svg or .pdf (default: print/<title>.png in the folder, with the pieces' names if you chose some)")
	return cmd
}

func writePicture(cmd *cobra.Command, o costume.Options, out string) error {
	f, err := costume.Open(folderOf(cmd))
	if err != nil {
		return err
	}
	if out == "" {
		out = f.PicturePath(o)
	}
	if err := costume.Drawable(out); err != nil {
		return err
	}
	tell := progress(cmd.ErrOrStderr())
	r, err := costume.Dress(cmd.Context(), f, o, tell)
	tell("", 1, 1)
	if err != nil {
		return err
	}
	doc, err := r.Picture(f.Costume.Title, out)
	if err != nil {
		return err
	}
	if err := costume.Save(out, doc); err != nil {
		return err
	}
	fmt.Fprintf(cmd.OutOrStdout(), "Wrote %s.\n", out)
	return nil
}
