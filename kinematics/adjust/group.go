package adjust

import (
	"slices"

	"gonum.org/v1/gonum/stat/combin"
)

// group is a choice of changes to make together, each with the values to try.
type group struct {
	changes []*change
	values  [][]float64
}

// groups returns every choice of size changes, each with all of its values.
func groups(changes []*change, size int) []*group {
	var all []*group
	for _, choice := range combin.Combinations(len(changes), size) {
		g := new(group)
		for _, k := range choice {
			g.changes = append(g.changes, changes[k])
			g.values = append(g.values, changes[k].values)
		}
		all = append(all, g)
	}
	return all
}

// combinations returns how many there are of a group.
func (g *group) combinations() int64 {
	n := int64(1)
	for _, values := range g.values {
		n *= int64(len(values))
	}
	return n
}

// combinations returns how many there are of all groups.
func combinations(groups []*group) int64 {
	n := int64(0)
	for _, g := range groups {
		n += g.combinations()
	}
	return n
}

// combination puts the combination of that index into dst.
func (g *group) combination(dst []setting, index int64) []setting {
	dst = dst[:0]
	for i, values := range g.values {
		n := int64(len(values))
		dst = append(dst, setting{g.changes[i], values[index%n]})
		index /= n
	}
	return dst
}

// contains reports whether g touches all the parts of other.
func (g *group) contains(other *group) bool {
	return !slices.ContainsFunc(other.changes, func(c *change) bool { return !slices.Contains(g.changes, c) })
}

// thinned returns groups with at most so many values of each change.
func thinned(groups []*group, most int) []*group {
	var sparse []*group
	for _, g := range groups {
		thin := &group{changes: g.changes}
		for _, values := range g.values {
			step := stride(values, most)
			var some []float64
			for i := step / 2; i < len(values); i += step {
				some = append(some, values[i])
			}
			thin.values = append(thin.values, some)
		}
		sparse = append(sparse, thin)
	}
	return sparse
}

// stride returns by how many values to go on so as to meet at most so many.
func stride(values []float64, most int) int { return (len(values) + most - 1) / most }

// nearby is how many values around returns at the most.
const nearby = 5

// around returns the value and up to two of the values on either side of it, so
// many apart.
func around(values []float64, value float64, apart int) []float64 {
	var near []float64
	at := slices.Index(values, value)
	for i := at - 2*apart; i <= at+2*apart; i += apart {
		if 0 <= i && i < len(values) {
			near = append(near, values[i])
		}
	}
	return near
}
