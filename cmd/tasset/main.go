// Command tasset turns one person's sizes into paper templates for foam armour
// that print at true size, fit that person, and whose seams meet.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

// The exit statuses that scripts may rely on.
const (
	exitOK     = 0
	exitFails  = 1 // a check found a problem, or a piece is a draft
	exitMisuse = 2 // wrong use, or wrong input

	exitStopped = 130 // by Ctrl-C, as shells have it, or told to end
)

// softLimit is what the program keeps its memory to while it can: without one,
// garbage may grow to as much again as is in use.
const softLimit = 240 << 20 // bytes

func main() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(softLimit)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM) // so that a file that is being written is finished
	status := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// errFails is a check that did not pass; what it found is already printed.
var errFails = errors.New("the check did not pass")

// run is the whole program but for the process around it.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errs)
	cmd, err := root.ExecuteContextC(ctx)
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, errFails):
		return exitFails
	case errors.Is(err, context.Canceled):
		fmt.Fprintf(errs, "%s: stopped; no pages were written\n", cmd.CommandPath())
		return exitStopped
	}
	fmt.Fprintf(errs, "%s: %v\n", cmd.CommandPath(), err)
	return exitMisuse
}
