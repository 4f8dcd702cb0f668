// Package testdata holds what the program is checked against; README.md tells
// who made each file and how.
package testdata

import "embed"

// Files holds the published values and what other programs computed.
//
//go:embed published.csv multibody/*.csv highprecision/*.csv
var Files embed.FS
