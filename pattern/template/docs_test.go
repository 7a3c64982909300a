package template_test

import (
	"os"
	"strings"
	"testing"

	"tasset/body"
	"tasset/pattern/template"
)

// The reference's example parses, and its tables name what the language has.
func TestDocs_areCurrent(t *testing.T) {
	b, err := os.ReadFile("../../docs/templates.md")
	if err != nil {
		t.Fatal(err)
	}
	doc := string(b)
	var example strings.Builder
	fenced := false
	for _, line := range strings.Split(doc, "\n") {
		if strings.HasPrefix(line, "```") {
			fenced = !fenced
		}
		if l, ok := strings.CutPrefix(line, "    "); ok && !fenced {
			example.WriteString(l + "\n")
		}
	}
	if _, err := template.Parse("example", []byte(example.String())); err != nil {
		t.Errorf("the example: %v", err)
	}
	for _, s := range []body.Segment{body.Head, body.Neck, body.Torso, body.UpperArm, body.Forearm, body.Hand, body.Thigh, body.Shank, body.Foot} {
		if row := "| " + string(s) + " | " + strings.Join(template.Stations(s), ", ") + " |"; !strings.Contains(doc, row) {
			t.Errorf("the table of stations lacks the row\n%s", row)
		}
	}
	for _, k := range template.FasteningKinds {
		if !strings.Contains(doc, "`"+k+"`") {
			t.Errorf("the reference does not name the fastening %s", k)
		}
	}
}
