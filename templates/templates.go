// Package templates is the catalogue of pieces that come with the program: one
// YAML file a piece, in the language of docs/templates.md. It has no other
// code: a maker's own file works exactly like one of these.
package templates

import "embed"

// FS holds the files, "vambrace.yaml" and so on.
//
//go:embed *.yaml
var FS embed.FS
