package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// table is text in columns: the first is flush left, the others flush right. A
// row of one cell is a heading across the columns.
type table [][]string

// write prints the table, two blanks between columns, indented by two.
func (t table) write(w io.Writer) {
	var widths []int
	for _, row := range t {
		if len(row) == 1 {
			continue
		}
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range t {
		if len(row) == 1 {
			fmt.Fprintln(w, "  "+row[0])
			continue
		}
		var line strings.Builder
		for i, cell := range row {
			blanks := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i == 0 {
				line.WriteString("  " + cell + blanks)
			} else {
				line.WriteString("  " + blanks + cell)
			}
		}
		fmt.Fprintln(w, strings.TrimRight(line.String(), " "))
	}
}

// shortened returns the table with the cells of its first columns cut to the
// given numbers of characters.
func (t table) shortened(widths ...int) table {
	short := make(table, len(t))
	for i, row := range t {
		short[i] = slices.Clone(row)
		for column := range min(len(widths), len(row)) {
			short[i][column] = brief(row[column], widths[column])
		}
	}
	return short
}

// lineWidth is how wide the text output may be.
const lineWidth = 80

// wrap returns a lead and behind it a text, in lines that fit lineWidth; what does
// not fit the first line stands below the text, not below the lead.
func wrap(lead, text string) string {
	indent := utf8.RuneCountInString(lead)
	column := indent
	var b strings.Builder
	b.WriteString(lead)
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case column+1+n > lineWidth:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			column = indent
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String() + "\n"
}

// writeAnswer prints the answer to the user's question, and then which driveline
// it is about.
func writeAnswer(w io.Writer, name string, sentences ...string) {
	for _, s := range sentences {
		fmt.Fprint(w, wrap("", s))
	}
	if name != "" {
		fmt.Fprint(w, "\n"+wrap("Driveline: ", name))
	}
}

// brief shortens a name to fit a column of at most n characters.
func brief(name string, n int) string {
	r := []rune(name)
	if len(r) <= n {
		return name
	}
	return string(r[:n-1]) + "…"
}
