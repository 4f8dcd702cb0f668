package page

import (
	"reflect"

	"gonum.org/v1/plot/vg"
)

// roomier returns the layout or, where legends of the panels leave little room for their
// data, one with a legend of them all on top if that leaves more. It is for pages whose
// letters may shrink: on others places may be held that are of the first.
func (f *Figure) roomier(p *layout) *layout {
	const little = 0.25 // of the height of the page
	if p == nil || p.size.Least == 0 || f.Legend != LegendPanels || p.share() > little || !toldApart(f.keys()) {
		return p
	}
	if other, err := f.arrangeOn(p.size, LegendTop); err == nil && other.share() > p.share() {
		return other
	}
	return p
}

// share is the part of the height of the page that data have.
func (p *layout) share() vg.Length {
	var height vg.Length
	row := vg.Length(-1)
	for _, c := range p.cells {
		if c.area.Min.Y != row {
			row = c.area.Min.Y
			height += c.area.Size().Y
		}
	}
	return height / p.size.inner().Size().Y
}

// toldApart reports whether no two entries look alike.
func toldApart(keys []Key) bool {
	for i, k := range keys {
		k.Name = ""
		for _, other := range keys[:i] {
			if other.Name = ""; reflect.DeepEqual(k, other) {
				return false
			}
		}
	}
	return true
}
