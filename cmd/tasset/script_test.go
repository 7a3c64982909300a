package main

import (
	"encoding/json"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"tasset": main})
}

// Each script is headed by the complaint that it guards against.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:  "testdata/script",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"json": parseJSON},
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
