package adjust

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

// candidate is one combination of settings that was tried.
type candidate struct {
	settings []setting
	index    int64   // of the combination in its group, to tell equals apart
	change   float64 // sum of the settings, each in parts of what is possible
	room
}

// frontier holds those candidates of a group that no other beats in both less
// change and more guarded room, nor in less excess where they are equal in both.
// Change and guarded room rise along it.
type frontier []candidate

// insert adds a candidate with these settings unless it is beaten. Candidates
// equal in everything are told apart by index, so that the order of insertion
// does not matter. Settings are copied.
func (f *frontier) insert(c candidate) {
	if math.IsInf(c.guarded, -1) {
		return
	}
	list := *f
	end := sort.Search(len(list), func(i int) bool { return list[i].change > c.change })
	if end > 0 && list[end-1].beats(c) {
		return
	}
	start := end
	if start > 0 && list[start-1].change == c.change {
		start--
	}
	for end < len(list) && list[end].guarded <= c.guarded {
		end++
	}
	c.settings = slices.Clone(c.settings)
	*f = slices.Replace(list, start, end, c)
}

// beats holds for a candidate of no more change.
func (c candidate) beats(other candidate) bool {
	if c.guarded != other.guarded {
		return c.guarded > other.guarded
	}
	if c.change != other.change {
		return c.change < other.change
	}
	return cmp.Or(compareExcess(c.room, other.room), cmp.Compare(c.index, other.index)) < 0
}

// excludes reports whether a candidate of more than the change and at most the
// guarded room is beaten.
func (f frontier) excludes(change, guarded float64) bool {
	end := sort.Search(len(f), func(i int) bool { return f[i].change > change })
	return end > 0 && f[end-1].guarded >= guarded
}
