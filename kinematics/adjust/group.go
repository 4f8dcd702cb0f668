package adjust

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/combin"
)

// group is a choice of changes to make together: all the plans that touch the
// same parts.
type group struct {
	changes []*change
	free    []int // which of them can take any value
}

// groups returns every choice of size changes.
func groups(changes []*change, size int) []*group {
	var all []*group
	for _, choice := range combin.Combinations(len(changes), size) {
		g := new(group)
		for i, k := range choice {
			g.changes = append(g.changes, changes[k])
			if changes[k].values == nil {
				g.free = append(g.free, i)
			}
		}
		all = append(all, g)
	}
	return all
}

// combinations returns how many there are of the settings made in steps.
func (g *group) combinations() int64 {
	n := int64(1)
	for _, c := range g.changes {
		if c.values != nil {
			n *= int64(len(c.values))
		}
	}
	return n
}

// combination puts the combination of that index into dst. Changes that can take
// any value are at 0.
func (g *group) combination(dst []setting, index int64) []setting {
	dst = dst[:0]
	for _, c := range g.changes {
		set := setting{change: c}
		if n := int64(len(c.values)); n > 0 {
			set.value = c.values[index%n]
			index /= n
		}
		dst = append(dst, set)
	}
	return dst
}

// contains reports whether g touches all the parts of other.
func (g *group) contains(other *group) bool {
	return !slices.ContainsFunc(other.changes, func(c *change) bool { return !slices.Contains(g.changes, c) })
}

// extent is the sum of the settings, each in parts of what is possible.
func extent(settings []setting) float64 {
	sum := 0.0
	for _, set := range settings {
		sum += math.Abs(set.value) / max(math.Abs(set.asked.From), math.Abs(set.asked.To))
	}
	// So that sums of the same parts in another order are the same.
	return math.Round(sum*1e9) / 1e9
}

// MaxCombinations that Search tries. A change that can take any value counts as
// the number of times it is tried.
const MaxCombinations = 1e9

// maxGroups of changes, each of which is judged in full.
const maxGroups = 50_000

// countCombinations returns how many there are of up to most of the changes. It
// refuses a search that would not end within minutes.
func countCombinations(changes []*change, most int) (int64, error) {
	// choices[k] is the number of groups of k of the changes seen so far, ways[k]
	// that of their combinations.
	choices, ways := make([]float64, most+1), make([]float64, most+1)
	choices[0], ways[0] = 1, 1
	for _, c := range changes {
		for k := most; k > 0; k-- {
			choices[k] += choices[k-1]
			ways[k] += ways[k-1] * c.weight()
		}
	}
	const advice = "allow fewer changes, or combine fewer of them at once"
	if n := floats.Sum(choices[1:]); n > maxGroups {
		return 0, fmt.Errorf("%.2g groups of %d changes: want at most %d: %s", n, len(changes), maxGroups, advice)
	}
	total := floats.Sum(ways[1:])
	if total <= MaxCombinations {
		return int64(total), nil
	}
	var names []string
	for _, c := range changes {
		names = append(names, label(c.asked))
	}
	finest := slices.MaxFunc(changes, func(a, b *change) int { return cmp.Compare(a.weight(), b.weight()) })
	return 0, fmt.Errorf("%.2g combinations of %s: want at most %g: give %s larger steps or a narrower range, %s",
		total, strings.Join(names, ", "), MaxCombinations, label(finest.asked), advice)
}

// weight is how many times a change is tried beside every setting of others.
func (c *change) weight() float64 {
	if c.values == nil {
		return freeTries
	}
	return float64(len(c.values))
}
