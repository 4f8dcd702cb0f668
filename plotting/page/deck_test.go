package page

import (
	"fmt"
	"testing"
)

// TestDeckHasAPageForEachFigure holds that a document has its pages, each of its own
// size, its title in full Unicode, and every font once.
func TestDeckHasAPageForEachFigure(t *testing.T) {
	t.Parallel()
	sheet := demos()["sheet"]
	letter := *sheet
	letter.Size = Letter
	pdf, err := Deck("β → ω\n", sheet, &letter, sheet)
	if err != nil {
		t.Fatal(err)
	}
	r := readPDF(t, pdf)
	var sizes string
	for _, page := range r.pages() {
		sizes += fmt.Sprint(r.at(page, "MediaBox"))
	}
	if want := "[0 0 595.28 841.89][0 0 612 792][0 0 595.28 841.89]"; sizes != want {
		t.Errorf("pages of %s, want %s", sizes, want)
	}
	for entry, want := range map[string]string{"Title": "\uFEFFβ → ω ", "Author": "\uFEFFhalfturn"} {
		if got := fromUTF16(r.at(r.trailer, "Info", entry).([]byte)); got != want {
			t.Errorf("%s %q, want %q", entry, got, want)
		}
	}
	if fonts := r.at(r.pages()[0], "Resources", "Font").(map[pdfName]any); len(fonts) != 2 {
		t.Errorf("fonts %v, want the plain and the bold one", fonts)
	}
}

func TestDeckRefusesNothing(t *testing.T) {
	t.Parallel()
	if _, err := Deck(""); err == nil {
		t.Error("a deck without figures is accepted")
	}
}

// A book opens with its pages side by side.
func TestBookHasFacingPages(t *testing.T) {
	t.Parallel()
	pdf, err := Book("", demos()["sheet"])
	if err != nil {
		t.Fatal(err)
	}
	r := readPDF(t, pdf)
	if got := r.at(r.trailer, "Root", "PageLayout"); got != pdfName("TwoPageRight") {
		t.Errorf("page layout %v, want two pages, the first on the right", got)
	}
}
