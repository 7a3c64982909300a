package main

import (
	"fmt"
	"io"
	"os"

	"golang.org/x/term"

	"tasset/internal/costume"
)

// progress tells on a terminal which stage runs; into a pipe it tells nothing.
func progress(w io.Writer) costume.Progress {
	if !isTerminal(w) {
		return func(string, int, int) {}
	}
	return func(stage string, done, total int) {
		if done == total {
			fmt.Fprint(w, "\r\x1b[K")
			return
		}
		fmt.Fprintf(w, "\r\x1b[K[%d/%d] %s …", done+1, total, stage)
	}
}

// isTerminal tells whether a person sits at the other end.
func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
