package page

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"
)

// spread returns places for labels in a row so that none overlaps its neighbour: each as
// near to where it is wanted as the others let it be, in the same order, within lo to hi
// as far as there is room. sizes are the extents of the labels in that direction, centred
// on their places.
func spread(wanted, sizes []vg.Length, lo, hi vg.Length) []vg.Length {
	order := make([]int, len(wanted))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(wanted[a], wanted[b]) })

	// A run is a group of labels that touch; its start is the mean of the starts that its
	// labels want.
	type run struct {
		first, count int
		size, start  vg.Length
	}
	settle := func(r run) run {
		r.start = max(min(r.start, hi-r.size), lo)
		return r
	}
	var runs []run
	for k, i := range order {
		r := settle(run{first: k, count: 1, size: sizes[i], start: wanted[i] - sizes[i]/2})
		for len(runs) > 0 {
			p := runs[len(runs)-1]
			if p.start+p.size <= r.start {
				break
			}
			n, m := vg.Length(p.count), vg.Length(r.count)
			r = settle(run{
				first: p.first,
				count: p.count + r.count,
				size:  p.size + r.size,
				start: (n*p.start + m*(r.start-p.size)) / (n + m),
			})
			runs = runs[:len(runs)-1]
		}
		runs = append(runs, r)
	}

	places := make([]vg.Length, len(wanted))
	for _, r := range runs {
		at := r.start
		for _, i := range order[r.first : r.first+r.count] {
			places[i] = at + sizes[i]/2
			at += sizes[i]
		}
	}
	return places
}
