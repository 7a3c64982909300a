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
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return func(string, int, int) {}
	}
	return func(stage string, done, total int) {
		if done == total {
			fmt.Fprint(f, "\r\x1b[K")
			return
		}
		fmt.Fprintf(f, "\r\x1b[K[%d/%d] %s …", done+1, total, stage)
	}
}
