package page

import (
	"errors"
	"fmt"

	"gonum.org/v1/plot/vg"
)

// A Figure is one page.
type Figure struct {
	Title    string    // the question that the figure answers
	Subtitle string    // which case it shows; may be empty
	Facts    []Fact    // data under the title, in columns; may be empty
	Text     []Passage // left of the panels, on half of the page; may be empty
	Rows     []Row
	Legend   Placement
	Caption  string  // what there is to see; may be empty
	Size     Size    // zero: Single
	Held     []Place // where all panels stay, row by row; nil: wherever they fit best
}

// A Fact is a piece of data on a page: "speed of shaft 1", "2800 rpm".
type Fact struct {
	Name, Value string
}

// A Row is a row of panels. Rows of equally many panels share their columns.
type Row struct {
	Panels []*Panel
	Height float64   // height of the data areas relative to those of other rows; 0 means 1
	Widths []float64 // widths of the data areas relative to each other; nil means equal
}

// Add puts a row of equally wide panels below those the figure has.
func (f *Figure) Add(panels ...*Panel) {
	f.Rows = append(f.Rows, Row{Panels: panels})
}

func (f *Figure) size() Size {
	if f.Size == (Size{}) {
		return Single
	}
	return f.Size
}

// named is the figure in errors.
func (f *Figure) named() string {
	if f.Title == "" {
		return "figure"
	}
	return fmt.Sprintf("figure %q", f.Title)
}

func (f *Figure) check() error {
	if err := f.size().check(); err != nil {
		return err
	}
	if len(f.Rows) == 0 {
		return errors.New("no panels: want at least one row of them")
	}
	panels := 0
	for i, row := range f.Rows {
		if err := row.check(); err != nil {
			return fmt.Errorf("row %d: %w", i+1, err)
		}
		panels += len(row.Panels)
	}
	if f.Held != nil && len(f.Held) != panels {
		return fmt.Errorf("%d held places: want %d, one for each panel", len(f.Held), panels)
	}
	return nil
}

func (r Row) check() error {
	if len(r.Panels) == 0 {
		return errors.New("no panels: want at least one")
	}
	for i, p := range r.Panels {
		if p == nil {
			return fmt.Errorf("panel %d: is nil: want a panel", i+1)
		}
	}
	if !(r.Height >= 0 && r.Height <= largestWeight) {
		return fmt.Errorf("height: %g: want 0 to %d", r.Height, largestWeight)
	}
	if r.Widths != nil && len(r.Widths) != len(r.Panels) {
		return fmt.Errorf("%d widths: want %d, one for each panel", len(r.Widths), len(r.Panels))
	}
	for _, w := range r.Widths {
		if !(w > 0 && w <= largestWeight) {
			return fmt.Errorf("width: %g: want a value > 0 up to %d", w, largestWeight)
		}
	}
	return nil
}

// largestWeight bounds the ratio of panel sizes; beyond it the smallest would vanish.
const largestWeight = 100

func (r Row) height() vg.Length {
	if r.Height == 0 {
		return 1
	}
	return vg.Length(r.Height)
}

// widths returns the widths of the panels as parts of 1.
func (r Row) widths() []vg.Length {
	parts := make([]vg.Length, len(r.Panels))
	var sum vg.Length
	for i := range parts {
		parts[i] = 1
		if r.Widths != nil {
			parts[i] = vg.Length(r.Widths[i])
		}
		sum += parts[i]
	}
	for i := range parts {
		parts[i] /= sum
	}
	return parts
}

// head returns title, subtitle and facts.
func (f *Figure) head(l Letters, width vg.Length) block {
	facts := make([]func(vg.Length) block, len(f.Facts))
	for i, fact := range f.Facts {
		facts[i] = func(w vg.Length) block { return fact.block(l, w) }
	}
	return stack(0.35*l.Em(),
		paragraph(l.Title, f.Title, width),
		paragraph(l.Subtitle, f.Subtitle, width),
		flow(facts, width, 1.6*l.Em()))
}

func (f Fact) block(l Letters, width vg.Length) block {
	gap := 0.6 * l.Em()
	name := paragraph(l.Caption, f.Name, width/2)
	value := paragraph(l.Name, f.Value, max(width-name.width-gap, l.Em()))
	return block{
		width:  name.width + gap + value.width,
		height: max(name.height, value.height),
		draw: func(c vg.Canvas, at vg.Point) {
			if !name.empty() {
				name.draw(c, at)
			}
			if !value.empty() {
				value.draw(c, vg.Point{X: at.X + name.width + gap, Y: at.Y})
			}
		},
	}
}

// keys returns the entries of a legend of the whole figure.
func (f *Figure) keys() []Key {
	var keys []Key
	for _, row := range f.Rows {
		for _, p := range row.Panels {
			keys = append(keys, p.keys()...)
		}
	}
	return merged(keys)
}
