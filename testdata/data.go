// Package testdata holds what the program is checked against; README.md tells
// who made each file and how.
package testdata

import (
	"embed"
	"encoding/csv"
	"fmt"
)

//go:embed published.csv multibody/*.csv highprecision/*.csv
var files embed.FS

// Table returns the rows of one of the CSV files, each by column. The files are
// part of the program: one that is missing or malformed is a fault of the program,
// and panics.
func Table(name string) []map[string]string {
	file, err := files.Open(name)
	if err != nil {
		panic(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("testdata: %s: %v", name, err))
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := make(map[string]string)
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}
