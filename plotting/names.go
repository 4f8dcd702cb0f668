package plotting

import (
	"fmt"
	"strings"
)

// longestName is the number of characters of a name that wraps: in titles, legends and
// captions.
const longestName = 100

// shaft returns the name of a shaft, in full where the legend has room for all.
func (c *Case) shaft(k int) string { return shortened(c.Shafts, roomFor(c.Shafts))[k] }

// joint returns the name of a joint, in full where the legend has room for all.
func (c *Case) joint(k int) string { return shortened(c.Joints, roomFor(c.Joints))[k] }

// roomFor returns how long each of the names in a legend may be.
func roomFor(names []string) int {
	const legend, least = 1000, 28 // characters in all, and of a name
	return max(least, min(longestName, legend/len(names)))
}

// shortened returns names of up to n characters. Those that are longer lose their end or,
// where two would become the same, their middle; if that is no help they get a number.
func shortened(names []string, n int) []string {
	short := make([]string, len(names))
	for i, name := range names {
		short[i] = brief(name, n)
	}
	for _, i := range clashing(names, short) {
		r, tail := []rune(names[i]), (n-1)/2
		short[i] = string(r[:n-1-tail]) + "…" + string(r[len(r)-tail:])
	}
	for _, i := range clashing(names, short) {
		number := fmt.Sprintf("… (%d)", i+1)
		head := string([]rune(names[i])[:max(n-len([]rune(number)), 0)])
		short[i] = strings.TrimRight(head, " ,.-") + number
	}
	return short
}

// clashing returns the shortened names that are also those of another.
func clashing(names, short []string) []int {
	var list []int
	for i := range names {
		for j := range names {
			if short[i] == short[j] && names[i] != names[j] && short[i] != names[i] {
				list = append(list, i)
				break
			}
		}
	}
	return list
}

// brief shortens a name to n characters.
func brief(name string, n int) string {
	r := []rune(name)
	if len(r) <= n {
		return name
	}
	return strings.TrimRight(string(r[:n-1]), " ,.-") + "…"
}
