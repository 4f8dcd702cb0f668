package adjust

import (
	"cmp"
	"math"
	"slices"

	"halfturn/kinematics/survey"
)

// setting is a change and how far it is made, in deg or the units of lengths.
type setting struct {
	*change
	value float64
}

// candidate is one combination of settings and what it comes to.
type candidate struct {
	*group
	settings []setting
	standing standing
	outcome
	change float64 // see effort
}

// effort returns the sum of the settings, each in parts of what is usual.
func effort(settings []setting) float64 {
	sum := 0.0
	for _, set := range settings {
		sum += math.Abs(set.value) / set.whole
	}
	return math.Round(sum*1e9) / 1e9 // sums of the same parts in another order are the same
}

// compareCost puts the smaller change first, then the lower nose of the axle, which
// rises under power, then what leaves less, and then the lower values.
func (c *candidate) compareCost(other *candidate) int {
	return cmp.Or(cmp.Compare(c.change, other.change), cmp.Compare(c.nose(), other.nose()),
		cmp.Compare(c.left, other.left),
		slices.CompareFunc(c.settings, other.settings, func(a, b setting) int { return cmp.Compare(a.value, b.value) }))
}

// nose returns how far the candidate raises the nose of the last shaft, deg.
func (c *candidate) nose() float64 {
	for _, set := range c.settings {
		if set.asked.Change == survey.ChangeWedge {
			return set.value
		}
	}
	return 0
}

// How much more is no more, in parts and in deg: among candidates that leave about
// as much, other things decide.
const (
	aboutPart = 0.1
	aboutDeg  = 0.1
)

// about returns the most that is about as much.
func about(left float64) float64 { return max(left*(1+aboutPart), left+aboutDeg) }

// mostLeft returns how much a candidate may leave to be chosen rather than this one of
// the same standing: about as much, but no more where too much is left.
func (c *candidate) mostLeft() float64 {
	if c.standing[rankLeft]+c.standing[rankMatch] > 0 {
		return c.left
	}
	return about(c.left)
}

// frontier holds the candidates that could be chosen out of all that were met: of
// the best standing, leaving about the least, and of these, by what they leave, each
// that costs less than all that leave no more.
type frontier []*candidate

// insert adds a candidate that could be chosen. Its settings are copied. The order
// of insertion does not matter.
func (f *frontier) insert(c candidate) {
	list := *f
	if len(list) > 0 {
		order := c.standing.compare(list[0].standing)
		if order > 0 || order == 0 && c.left > list[0].mostLeft() {
			return
		}
		if order < 0 {
			list = nil
		}
	}
	at := 0
	for at < len(list) && (list[at].left < c.left || list[at].left == c.left && list[at].compareCost(&c) < 0) {
		at++
	}
	if at > 0 && list[at-1].compareCost(&c) < 0 {
		return
	}
	end := at
	for end < len(list) && c.compareCost(list[end]) < 0 {
		end++
	}
	c.settings = slices.Clone(c.settings)
	list = slices.Replace(list, at, end, &c)
	for list[len(list)-1].left > list[0].mostLeft() {
		list = list[:len(list)-1]
	}
	*f = list
}

// best returns the candidate to choose, nil out of none: the one of least cost.
func (f frontier) best() *candidate {
	if len(f) == 0 {
		return nil
	}
	return f[len(f)-1]
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

func (s *sides) insert(c candidate) { s[side(c.mirrored)].insert(c) }
