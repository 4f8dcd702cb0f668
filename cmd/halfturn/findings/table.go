package findings

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/limits"
)

// Table is what text, report and page show in columns.
type Table struct {
	Title string
	Head  []string // nil: the columns have none
	Rows  []Row
	// Names are the columns that hold words, from the first on, and are flush left;
	// the others hold numbers and are flush right. Each is the number of characters
	// to which text output shortens the column, 0 for as wide as the longest.
	Names []int
}

// Row is a row of a Table. A single cell is a heading across the columns.
type Row struct {
	Cells   []string
	Outcome limits.Outcome // of the verdict in the last cell; "": it holds none
}

// Last reports whether column i is the last of the row.
func (r Row) Last(i int) bool { return i == len(r.Cells)-1 }

// Add adds a row.
func (t *Table) Add(cells ...string) { t.Rows = append(t.Rows, Row{Cells: cells}) }

// addVerdict adds a row that ends in a verdict.
func (t *Table) addVerdict(o limits.Outcome, cells ...string) {
	t.Rows = append(t.Rows, Row{append(cells, outcomeWord(o)), o})
}

// Write prints a table that has rows: an empty line, the title, and the columns,
// two blanks apart and indented by two.
func (t Table) Write(w io.Writer) {
	if len(t.Rows) == 0 {
		return
	}
	fmt.Fprint(w, "\n"+text.Wrap("", t.Title))
	t.writeRows(w)
}

func (t Table) writeRows(w io.Writer) {
	var lines [][]string
	if t.Head != nil {
		lines = append(lines, t.Head)
	}
	for _, row := range t.Rows {
		lines = append(lines, t.shortened(row.Cells))
	}
	var widths []int
	for _, line := range lines {
		if len(line) == 1 {
			continue
		}
		for i, cell := range line {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	for _, line := range lines {
		if len(line) == 1 {
			fmt.Fprintln(w, "  "+line[0])
			continue
		}
		var b strings.Builder
		for i, cell := range line {
			blanks := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if i < len(t.Names) {
				b.WriteString("  " + cell + blanks)
			} else {
				b.WriteString("  " + blanks + cell)
			}
		}
		fmt.Fprintln(w, strings.TrimRight(b.String(), " "))
	}
}

// shortened returns the cells of a row with the names cut to their columns.
func (t Table) shortened(cells []string) []string {
	if len(cells) == 1 {
		return cells
	}
	cells = slices.Clone(cells)
	for i, width := range t.Names {
		if width > 0 {
			cells[i] = text.Brief(cells[i], width)
		}
	}
	return cells
}

// Used returns the table without the columns that hold nothing but their head, and
// without rows where only the first column holds more.
func (t Table) Used() Table {
	var kept []int
	for i := range t.Head {
		if i == 0 || slices.ContainsFunc(t.Rows, func(r Row) bool { return r.Cells[i] != "" }) {
			kept = append(kept, i)
		}
	}
	pick := func(cells []string) []string {
		var picked []string
		for _, i := range kept {
			picked = append(picked, cells[i])
		}
		return picked
	}
	t.Head = pick(t.Head)
	if len(kept) == 1 {
		t.Rows = nil
	}
	t.Rows = slices.Clone(t.Rows)
	for i, r := range t.Rows {
		t.Rows[i].Cells = pick(r.Cells)
	}
	return t
}
