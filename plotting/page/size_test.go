package page

import "testing"

// TestPageHoldsAFigureInProportion holds that a figure on paper keeps its shape, at the
// top, unless it is too high.
func TestPageHoldsAFigureInProportion(t *testing.T) {
	t.Parallel()
	own, got := Single.inner().Size(), A4.Holding(Size{}).inner()
	if a, b := own.Y/own.X, got.Size().Y/got.Size().X; a-b > 1e-9 || b-a > 1e-9 {
		t.Errorf("height over width: got %g, want %g", b, a)
	}
	if got.Max != A4.inner().Max || got.Min.X != A4.Border {
		t.Errorf("stands in %v, want it at the top of %v", got, A4.inner())
	}
	if got, want := A4.Holding(Size{Width: 100, Height: 1000}).inner(), A4.inner(); got != want {
		t.Errorf("a figure that is too high stands in %v, want %v", got, want)
	}
}
