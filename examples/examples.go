// Package examples holds driveline files, each with a story, for the program's
// demonstration, its documentation and its tests. All are invented.
package examples

import "embed"

// Files are the driveline files, by name.
//
//go:embed *.json
var Files embed.FS
