package main

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
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
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"json": parseJSON, "change": change, "after": after, "bare": bare, "halve": halve, "all": all},
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

// all puts one text in the place of another wherever it stands: all FILE OLD NEW.
func all(ts *testscript.TestScript, _ bool, args []string) {
	before := ts.ReadFile(args[0])
	if !strings.Contains(before, args[1]) {
		ts.Fatalf("%q does not stand in %s", args[1], args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.ReplaceAll(before, args[1], args[2])), 0o666))
}

// bare takes out of a JPEG file what the camera noted in it, as messengers do.
func bare(ts *testscript.TestScript, _ bool, args []string) {
	_, rest := notes([]byte(ts.ReadFile(args[0])))
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), rest, 0o666))
}

// halve makes a JPEG picture half as large, as a program does that keeps what the
// camera noted.
func halve(ts *testscript.TestScript, _ bool, args []string) {
	src := []byte(ts.ReadFile(args[0]))
	img, err := jpeg.Decode(bytes.NewReader(src))
	ts.Check(err)
	half := image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx()/2, img.Bounds().Dy()/2))
	for y := range half.Rect.Dy() {
		for x := range half.Rect.Dx() {
			half.Set(x, y, img.At(2*x, 2*y))
		}
	}
	var b bytes.Buffer
	ts.Check(jpeg.Encode(&b, half, nil))
	camera, _ := notes(src)
	out := slices.Concat(b.Bytes()[:2], camera, b.Bytes()[2:])
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), out, 0o666))
}

// notes parts what the camera noted in a JPEG file, its APP1 segments, from the
// rest (ITU-T T.81, B.1.1.4).
func notes(src []byte) (noted, rest []byte) {
	rest = bytes.Clone(src[:2])
	at := 2
	for src[at+1] != 0xda { // behind it, the pixels follow
		end := at + 2 + int(binary.BigEndian.Uint16(src[at+2:]))
		if src[at+1] == 0xe1 {
			noted = append(noted, src[at:end]...)
		} else {
			rest = append(rest, src[at:end]...)
		}
		at = end
	}
	return noted, append(rest, src[at:]...)
}
