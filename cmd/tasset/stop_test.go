package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// "I pressed Ctrl-C and it said: context canceled." Work that is stopped says so
// and writes nothing.
func TestRun_stopped(t *testing.T) {
	dir := t.TempDir()
	var out, errs bytes.Buffer
	if status := run(context.Background(), []string{"demo", filepath.Join(dir, "d")}, nil, &out, &errs); status != exitOK {
		t.Fatalf("demo ends with %d: %s", status, &errs)
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	if err := os.RemoveAll(filepath.Join(dir, "d", "print")); err != nil {
		t.Fatal(err)
	}
	status := run(stopped, []string{"print", "--folder", filepath.Join(dir, "d")}, nil, &out, &errs)
	if status != exitStopped || errs.String() != "tasset print: stopped; no pages were written\n" {
		t.Errorf("ends with %d: %s", status, &errs)
	}
	if _, err := os.Stat(filepath.Join(dir, "d", "print")); err == nil {
		t.Error("pages were written")
	}
}

// "It asked for my height and Ctrl-C did nothing."
func TestRun_stoppedWhileAsking(t *testing.T) {
	stopped, stop := context.WithCancel(context.Background())
	stop()
	typing, hand := io.Pipe() // nobody types
	defer hand.Close()
	var out, errs bytes.Buffer
	status := run(stopped, []string{"new", filepath.Join(t.TempDir(), "n")}, typing, &out, &errs)
	if status != exitStopped || !strings.Contains(errs.String(), "tasset new: stopped") {
		t.Errorf("ends with %d: %s", status, &errs)
	}
}
