package adjust

import (
	"cmp"
	"math"
	"slices"
)

// How much more is no more, in parts and in deg or N for each 100 N·m: among
// candidates that come to about as much, other things decide.
const (
	aboutPart  = 0.1
	aboutDeg   = 0.1
	aboutSwing = 0.2
)

// about returns the most that is about as much as v.
func about(v, floor float64) float64 { return max(v*(1+aboutPart), v+floor) }

// mostLeft returns how much may be left to be chosen rather than this candidate of
// the same standing: about as much, but no more where too much is left.
func (c *candidate) mostLeft() float64 {
	if c.standing.leavesTooMuch() {
		return c.left
	}
	return about(c.left, aboutDeg)
}

// frontier holds the candidates that could be chosen out of all that were met, by
// what they leave: of the best standing, leaving about the least, and none that
// another betters in all of what it leaves, its swing and its cost.
type frontier []*candidate

// open reports whether a candidate could be chosen by its standing and by what it
// leaves.
func (f frontier) open(c *candidate) bool {
	if len(f) == 0 {
		return true
	}
	order := c.standing.compare(f[0].standing)
	return order < 0 || order == 0 && c.left <= f[0].mostLeft()
}

// insert adds a candidate that could be chosen. Its settings are copied. The order
// of insertion does not matter.
func (f *frontier) insert(c candidate) {
	list := *f
	switch {
	case !list.open(&c):
		return
	case len(list) > 0 && c.standing != list[0].standing:
		list = nil
	}
	better := func(a, b *candidate) bool {
		return a.left <= b.left && a.swing <= b.swing && a.compareCost(b) < 0
	}
	if slices.ContainsFunc(list, func(have *candidate) bool { return better(have, &c) }) {
		return
	}
	list = slices.DeleteFunc(list, func(have *candidate) bool { return better(&c, have) })
	at, _ := slices.BinarySearchFunc(list, c.left, func(have *candidate, left float64) int { return cmp.Compare(have.left, left) })
	c.settings = slices.Clone(c.settings)
	list = slices.Insert(list, at, &c)
	for list[len(list)-1].left > list[0].mostLeft() {
		list = list[:len(list)-1]
	}
	*f = list
}

// best returns the candidate to choose, nil out of none: of those that swing about
// the least the one of least cost.
func (f frontier) best() *candidate {
	least := math.Inf(1)
	for _, c := range f {
		least = min(least, c.swing)
	}
	var chosen *candidate
	for _, c := range f {
		if c.swing <= about(least, aboutSwing) && (chosen == nil || c.compareCost(chosen) < 0) {
			chosen = c
		}
	}
	return chosen
}

func (f *frontier) merge(other frontier) {
	for _, c := range other {
		f.insert(*c)
	}
}

// sides holds what was found with the shafts at the ends parallel and mirrored.
type sides [2]frontier

func side(mirrored bool) int {
	if mirrored {
		return 1
	}
	return 0
}
