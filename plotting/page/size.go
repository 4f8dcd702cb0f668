package page

import (
	"fmt"

	"gonum.org/v1/plot/vg"
)

// A Size is the physical size of a page, in points of 1/72 inch.
type Size struct {
	Width, Height vg.Length
	Text          vg.Length // size of the ordinary text; everything else is in proportion to it
	Least         vg.Length // to which the text shrinks where panels have no room; 0: not at all
	Border        vg.Length // empty edge on all four sides
	Used          vg.Length // height, from the upper edge on, that a figure takes; 0: all
}

// Page sizes. Slide is 16:9 and gives 1920 × 1080 pixels at the default resolution; its
// numbers are 18 points high, to be read from the back of a room.
var (
	Single = Size{Width: 640, Height: 400, Text: 11, Least: 7, Border: 16}
	Tall   = Size{Width: 640, Height: 480, Text: 11, Least: 7, Border: 16} // for two rows of panels
	Slide  = Size{Width: 960, Height: 540, Text: 20, Least: 10, Border: 30}
	A4     = Size{Width: 595.276, Height: 841.89, Text: 9.5, Least: 6, Border: 42}
	Letter = Size{Width: 612, Height: 792, Text: 9.5, Least: 6, Border: 42}
)

// Limits of a page side: below the smallest no label fits, and a PDF page may not exceed
// the largest.
const (
	smallestSide = 72
	largestSide  = 14400
)

func (s Size) check() error {
	for _, side := range []struct {
		name  string
		value vg.Length
	}{{"width", s.Width}, {"height", s.Height}} {
		if !(side.value >= smallestSide && side.value <= largestSide) {
			return fmt.Errorf("page %s: %g pt: want %d to %d pt", side.name, side.value.Points(), smallestSide, largestSide)
		}
	}
	if shorter := min(s.Width, s.Height); !(s.Text >= 1 && s.Text <= shorter/8) {
		return fmt.Errorf("text size: %g pt: want 1 pt to an eighth of the page, %g pt", s.Text.Points(), (shorter / 8).Points())
	}
	if !(s.Least >= 0 && s.Least <= s.Text) {
		return fmt.Errorf("least text size: %g pt: want 0 to the text size, %g pt", s.Least.Points(), s.Text.Points())
	}
	if shorter := min(s.Width, s.Height); !(s.Border >= 0 && s.Border <= shorter/4) {
		return fmt.Errorf("page border: %g pt: want 0 to a quarter of the page, %g pt", s.Border.Points(), (shorter / 4).Points())
	}
	if !(s.Used >= 0 && s.Used <= s.Height) {
		return fmt.Errorf("used height of the page: %g pt: want 0 to its height, %g pt", s.Used.Points(), s.Height.Points())
	}
	return nil
}

// Holding returns the page with a figure of another size at its top: as wide as the page,
// and in proportion as high.
func (s Size) Holding(figure Size) Size {
	if figure == (Size{}) {
		figure = Single
	}
	from, to := figure.inner().Size(), s.inner().Size()
	s.Used = min(to.X*from.Y/from.X+2*s.Border, s.Height)
	return s
}

// Turned returns the page as it suits the shape of a figure of another size: a sheet of
// paper, A4 or Letter, lies on its side for one that is wider than high.
func (s Size) Turned(figure Size) Size {
	if figure == (Size{}) {
		figure = Single
	}
	if (s == A4 || s == Letter) && figure.Width > figure.Height {
		s.Width, s.Height = s.Height, s.Width
	}
	return s
}

// inner returns what a figure takes of the page, without the border.
func (s Size) inner() vg.Rectangle {
	bottom := vg.Length(0)
	if s.Used > 0 {
		bottom = s.Height - s.Used
	}
	return vg.Rectangle{
		Min: vg.Point{X: s.Border, Y: bottom + s.Border},
		Max: vg.Point{X: s.Width - s.Border, Y: s.Height - s.Border},
	}
}

// String writes the size as text: "640 × 400 pt".
func (s Size) String() string {
	return fmt.Sprintf("%.4g × %.4g pt", s.Width.Points(), s.Height.Points())
}
