package survey

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// otherWords are what people write for a field of another sign or name.
var otherWords = map[string]string{
	"up":    `a negative "down"`,
	"left":  `a negative "right"`,
	"speed": `"rpm", or "speed_kmh" or "speed_mph" in "road"`,
	"angle": `"down" or "incline"`,
	"slope": `"down" or "incline"`,
	"tire":  `"tyre"`,
}

// suggestion says what may have been meant by the name of an unknown field.
func suggestion(key string, known []string) string {
	key = strings.ToLower(key)
	if other := otherWords[key]; slices.ContainsFunc(known, func(k string) bool { return strings.Contains(other, strconv.Quote(k)) }) {
		return other
	}
	if guess := Nearest(key, known); guess != "" {
		return fmt.Sprintf("%q, perhaps", guess)
	}
	return oneOf(known)
}

// hint adds what is easily mistaken to what a codec wants.
func hint(s codec, n *node) string {
	if !strings.HasPrefix(s.want(), number{}.want()) {
		return ""
	}
	point := strings.Replace(n.text, ",", ".", 1)
	_, err := strconv.ParseFloat(point, 64)
	switch {
	case n.kind == literalNode && n.text == "null":
		return "; leave the field out when there is none"
	case n.kind != textNode || err != nil:
		return ""
	case point != n.text:
		return fmt.Sprintf("; write %s with a decimal point and without quotes", point)
	default:
		return fmt.Sprintf("; write %s without quotes", point)
	}
}

// Nearest returns the name out of known that name is probably a misspelling of,
// or "".
func Nearest(name string, known []string) string {
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
