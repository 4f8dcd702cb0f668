package survey

import "strings"

// nearest returns the name out of known that name is probably a misspelling of,
// or "".
func nearest(name string, known []string) string {
	const longest = 40 // bytes; nothing longer resembles a known name
	if len(name) > longest {
		return ""
	}
	name = strings.ToLower(name)
	best, least := "", 1+max(1, len(name)/3) // slips allowed: one in three letters
	for _, k := range known {
		if d := slips(name, k); d < least {
			best, least = k, d
		}
	}
	return best
}

// slips counts the letters to insert, drop, replace or swap with their
// neighbour on the way from a to b.
func slips(a, b string) int {
	// cost[i][j] leads from a[:i] to b[:j].
	cost := make([][]int, len(a)+1)
	for i := range cost {
		cost[i] = make([]int, len(b)+1)
		for j := range cost[i] {
			switch {
			case i == 0 || j == 0:
				cost[i][j] = i + j
			case a[i-1] == b[j-1]:
				cost[i][j] = cost[i-1][j-1]
			default:
				cost[i][j] = 1 + min(cost[i-1][j-1], cost[i-1][j], cost[i][j-1])
				if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
					cost[i][j] = min(cost[i][j], 1+cost[i-2][j-2])
				}
			}
		}
	}
	return cost[len(a)][len(b)]
}
