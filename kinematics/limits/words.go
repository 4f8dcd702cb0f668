package limits

import (
	"math"
	"strconv"
	"strings"
)

// How sentences show numbers.

// amount prints a value and its unit with three digits.
func amount(v float64, unit string) string { return digits(v, 3) + suffix(unit) }

// bounded prints a limit and its unit with no more digits than it has.
func bounded(limit float64, unit string) string { return trimmed(limit) + suffix(unit) }

// against prints a value and its unit with as many digits as tell it from a limit.
func against(v, limit float64, unit string) string {
	n := 3
	for digits(v, n) == digits(limit, n) && v != limit && n < 9 {
		n++
	}
	return digits(v, n) + suffix(unit)
}

// digits prints a number with n significant digits, but all before the point.
func digits(v float64, n int) string {
	if v == 0 {
		return "0"
	}
	decimals := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(v, 'f', max(0, min(decimals, 9)), 64)
}

// trimmed prints a number with at most four significant digits.
func trimmed(v float64) string {
	s := digits(v, 4)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// suffix is a unit as it follows a number.
func suffix(unit string) string {
	switch unit {
	case "":
		return ""
	case unitDeg:
		return "°"
	default:
		return " " + unit
	}
}

// listed joins words as in a sentence.
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}
