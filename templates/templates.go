// Package templates holds the wording of proposals: a folder a language, a file
// a section, in Go's text/template.
package templates

import "embed"

// Wording is en/care.tmpl and its like.
//
//go:embed */*.tmpl
var Wording embed.FS
