package main

import (
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
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"json": parseJSON, "change": change},
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
