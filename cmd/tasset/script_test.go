package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tasset": main})
}

// Each script is headed by the complaint that it guards against.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Setup: func(env *testscript.Env) error {
			builtIn, err := filepath.Abs("../../templates")
			env.Setenv("BUILTIN", builtIn)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"json": parseJSON, "change": change, "after": after, "bare": bare},
	})
}

// parseJSON fails unless a file is one JSON value that has the keys named.
func parseJSON(ts *testscript.TestScript, neg bool, args []string) {
	var v map[string]any
	err := json.Unmarshal([]byte(ts.ReadFile(args[0])), &v)
	if (err != nil) != neg {
		ts.Fatalf("%s: %v", args[0], err)
	}
	for _, key := range args[1:] {
		if _, ok := v[key]; !ok {
			ts.Fatalf("%s has no key %q", args[0], key)
		}
	}
}

// change puts one text in the place of another, which must stand there once:
// change FILE OLD NEW.
func change(ts *testscript.TestScript, _ bool, args []string) {
	before := ts.ReadFile(args[0])
	if strings.Count(before, args[1]) != 1 {
		ts.Fatalf("%q does not stand once in %s", args[1], args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Replace(before, args[1], args[2], 1)), 0o666))
}

// after puts one text in the place of the first like it behind another:
// after FILE BEFORE OLD NEW. \n is a new line.
func after(ts *testscript.TestScript, _ bool, args []string) {
	head, tail, found := strings.Cut(ts.ReadFile(args[0]), args[1])
	if !found || !strings.Contains(tail, args[2]) {
		ts.Fatalf("%q does not stand behind %q in %s", args[2], args[1], args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(head+args[1]+strings.Replace(tail, args[2], strings.ReplaceAll(args[3], `\n`, "\n"), 1)), 0o666))
}

// bare takes out of a JPEG file what the camera noted in it, as messengers do:
// its APP1 segments (ITU-T T.81, B.1.1.4).
func bare(ts *testscript.TestScript, _ bool, args []string) {
	src := []byte(ts.ReadFile(args[0]))
	out := bytes.Clone(src[:2])
	for at := 2; ; {
		end := at + 2 + int(binary.BigEndian.Uint16(src[at+2:]))
		if src[at+1] == 0xda { // the pixels follow
			out = append(out, src[at:]...)
			break
		}
		if src[at+1] != 0xe1 {
			out = append(out, src[at:end]...)
		}
		at = end
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), out, 0o666))
}
