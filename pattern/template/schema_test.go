package template_test

import (
	"bytes"
	"flag"
	"os"
	"testing"

	"tasset/pattern/template"
)

var update = flag.Bool("update", false, "write the checked-in schema anew")

const schemaFile = "../../docs/template.schema.json"

func TestSchema_isCurrent(t *testing.T) {
	if *update {
		if err := os.WriteFile(schemaFile, template.Schema(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	have, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(have, template.Schema()) {
		t.Error("docs/template.schema.json is not what the types give; run go test ./pattern/template -run Schema -update")
	}
}
