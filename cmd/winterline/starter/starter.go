// Package starter holds the case that `winterline new` writes for a user to edit: a
// simple invented line with a standpipe, a relief opening and an outlet to daylight, and
// twelve invented days. It runs as it is. weather.csv and pump.csv are written by the
// generator in this folder's tests:
//
//	go test ./cmd/winterline/starter -update
package starter

import (
	"embed"
	"io/fs"
)

//go:embed layout.toml weather.csv pump.csv
var files embed.FS

// Files returns the case's files, at the root of the file system.
func Files() fs.FS { return files }
