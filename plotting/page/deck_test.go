package page

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"testing"
)

// TestDeckHasAPageForEachFigure holds that a document has its pages, its title in full
// Unicode, and a table that points at the object with it.
func TestDeckHasAPageForEachFigure(t *testing.T) {
	t.Parallel()
	sheet := demos()["sheet"]
	pdf, err := Deck("β → ω", sheet, sheet, sheet)
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(pdf, []byte("/Type /Page\n")); n != 3 {
		t.Errorf("%d pages, want 3", n)
	}
	m := regexp.MustCompile(`xref\n(\d+) 1\n(\d+) 00000 n \n`).FindSubmatch(pdf)
	if m == nil {
		t.Fatal("no table of what was appended")
	}
	at, err := strconv.Atoi(string(m[2]))
	if err != nil {
		t.Fatal(err)
	}
	want := fmt.Sprintf("%s 0 obj\n<<\n/Title <FEFF03B200202192002003C9>\n/Author (halfturn)\n", m[1])
	if !bytes.HasPrefix(pdf[at:], []byte(want)) {
		t.Errorf("at %d: got %.80q, want %q", at, pdf[at:], want)
	}
	m = regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`).FindSubmatch(pdf)
	if at, err := strconv.Atoi(string(m[1])); err != nil || !bytes.HasPrefix(pdf[at:], []byte("xref\n")) {
		t.Errorf("the file ends with %q, which is not where its table is", m[0])
	}
}

func TestDeckRefusesPagesOfTwoSizes(t *testing.T) {
	t.Parallel()
	tall := *demos()["sheet"]
	tall.Size = Letter
	if _, err := Deck("", demos()["sheet"], &tall); err == nil {
		t.Error("accepted")
	}
	if _, err := Deck(""); err == nil {
		t.Error("a deck without figures is accepted")
	}
}
