package proof

import (
	"fmt"
	"strconv"
	"strings"

	"halfturn/testdata"
)

// record is a row of a table by column. The tables are part of the program, so
// whatever is wrong with them is a fault of the program, and panics.
type record map[string]string

// read returns the records of a file of testdata.
func read(name string) []record {
	var records []record
	for _, row := range testdata.Table(name) {
		records = append(records, row)
	}
	return records
}

// number returns the number in a column, which must have one.
func (r record) number(column string) float64 {
	if !r.has(column) {
		panic(fmt.Sprintf("testdata: %v: want a value of %s", r, column))
	}
	return number(r[column])
}

// numbers returns the numbers of a list such as "1.5;-3".
func (r record) numbers(column string) []float64 {
	var list []float64
	for word := range strings.SplitSeq(r[column], ";") {
		if word != "" {
			list = append(list, number(word))
		}
	}
	return list
}

// has reports whether the column has a value.
func (r record) has(column string) bool { return r[column] != "" }

func number(text string) float64 { return must(strconv.ParseFloat(text, 64)) }

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}
