package page

import (
	"fmt"
	"testing"

	"gonum.org/v1/plot/vg"
)

// The lines of tags in the far row pass between the tags of the near row.
func TestTagLinesPassBetweenTags(t *testing.T) {
	t.Parallel()
	s := unit()
	s.Max = vg.Point{X: 260, Y: 200}
	var tags []Tag
	for k := range 6 {
		tags = append(tags, Tag{At: vg.Point{X: vg.Length(20 + 40*k), Y: 40}, Values: []string{fmt.Sprintf("β%d = 12.00°", k)}})
	}
	band := s.Tags(tags, 100)
	if band.rows != 2 {
		t.Fatalf("%d rows, want 2", band.rows)
	}
	near := band.middles(s, 0)
	for k, x := range band.middles(s, 1) {
		own := band.blocks[1+2*k].width / 2
		foot := band.beside(s, near, x, own)
		if foot < x-own || foot > x+own {
			t.Errorf("the line of tag %d starts at %.1f, its tag is at %.1f ± %.1f", 1+2*k, foot, x, own)
		}
		for i, middle := range near {
			if half := band.blocks[2*i].width / 2; foot > middle-half && foot < middle+half {
				t.Errorf("the line of tag %d at %.1f runs through that at %.1f ± %.1f", 1+2*k, foot, middle, half)
			}
		}
	}
}
