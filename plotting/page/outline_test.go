package page

import (
	"math"
	"reflect"
	"testing"

	"gonum.org/v1/plot/vg"
)

func TestWidthIsThatOfTheFont(t *testing.T) {
	t.Parallel()
	l := lettersFor(Single).Name
	for _, s := range []string{"", " ", "AVATAR To Yo", "speed deviation, %", "β = 10°, θ, ω", "−0.5 ± 1/2"} {
		got, want := l.Width(s), l.face.Width(s)
		if math.Abs(float64(got-want)) > 1e-9*float64(1+want) { // sums of the same numbers in another order
			t.Errorf("width of %q: got %v, want %v", s, got, want)
		}
	}
}

// TestEveryCharacterWeUseIsDrawn guards against characters that the font lacks, which
// came out blank.
func TestEveryCharacterWeUseIsDrawn(t *testing.T) {
	t.Parallel()
	face := lettersFor(Single).Name.face
	box := outline(face, vg.Point{}, string(missing))
	for _, r := range "°²³½×·±−–—≤≥≈√∞→′″µαβγδθλμπρστφψωΔΣΦΩ₀₁₂₉⁰¹⁷⁻äöüßéñçø" {
		path := outline(face, vg.Point{}, string(r))
		if len(path) == 0 || reflect.DeepEqual(path, box) {
			t.Errorf("%q is drawn as missing", r)
		}
	}
	for _, s := range []string{"∠", "車", "\U0001F600", "ₙ"} {
		if !reflect.DeepEqual(outline(face, vg.Point{}, s), box) {
			t.Errorf("%q is not drawn as missing", s)
		}
	}
}

func TestOutlineStandsOnItsBaseLine(t *testing.T) {
	t.Parallel()
	l := lettersFor(Single).Name
	size := float64(l.face.Font.Size)
	at := vg.Point{X: 100, Y: 50}
	bottom, top := math.Inf(1), math.Inf(-1)
	left, right := bottom, top
	for _, c := range outline(l.face, at, "HEH") {
		if c.Type == vg.CloseComp {
			continue
		}
		bottom, top = min(bottom, float64(c.Pos.Y)), max(top, float64(c.Pos.Y))
		left, right = min(left, float64(c.Pos.X)), max(right, float64(c.Pos.X))
	}
	const tolerance = 1e-9 // all numbers come from integers of the font
	if math.Abs(bottom-50) > tolerance || math.Abs(top-50-capHeight*size) > tolerance {
		t.Errorf("capitals stand from %v to %v, want 50 to %v", bottom, top, 50+capHeight*size)
	}
	if left < 100 || right > 100+float64(l.Width("HEH")) {
		t.Errorf("capitals reach from %v to %v, want within 100 to %v", left, right, 100+l.Width("HEH"))
	}
	if sub, plain := l.Width("ω₁"), l.Width("ω1"); sub >= plain {
		t.Errorf("a subscript is %v wide, a full figure %v: want less", sub, plain)
	}
}
