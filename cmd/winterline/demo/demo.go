// Package demo holds the built-in demonstration case: an invented house in an invented
// winter. Its line sags under a shovelled path, its rock pit sits in clay, and a hard
// week in January tests both. weather.csv and pump.csv are written by the generator in
// this folder's tests:
//
//	go test ./cmd/winterline/demo -update
package demo

import (
	"embed"
	"io/fs"
)

//go:embed layout.toml weather.csv pump.csv
var files embed.FS

// Files returns the case's files, at the root of the file system.
func Files() fs.FS { return files }
