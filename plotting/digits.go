package plotting

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics"
	"halfturn/plotting/page"
)

// significant writes a number with three digits that matter, without exponent: 1234, 123,
// 12.3, 0.0123. What is below 1e-6 is 0.
func significant(v float64) string {
	if math.Abs(v) < 1e-6 {
		return "0"
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 2, 64), 64)
	if err != nil {
		panic(err) // strconv reads what it writes
	}
	decimals := 2 - int(math.Floor(math.Log10(math.Abs(rounded))))
	return page.Minus(strconv.FormatFloat(v, 'f', max(decimals, 0), 64))
}

// degrees writes an angle given in radians, to the hundredth of a degree.
func degrees(a float64) string {
	return hundredths(a/kinematics.Degree) + "°"
}

// hundredths writes a number with two decimals; a rounded zero has no sign.
func hundredths(v float64) string { return fixed(v, 2) }

// thousandths writes a number with three decimals.
func thousandths(v float64) string { return fixed(v, 3) }

// fixed writes a number with so many decimals; a rounded zero has no sign.
func fixed(v float64, decimals int) string {
	scale := math.Pow10(decimals)
	return page.Minus(strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', decimals, 64))
}

// revolutions writes a speed given in rev/min.
func revolutions(rpm float64) string {
	if rpm >= 100 {
		return strconv.FormatFloat(rpm, 'f', 0, 64) + " rev/min"
	}
	return strconv.FormatFloat(rpm, 'g', 4, 64) + " rev/min"
}

// withUnit writes a value with three digits that matter and its unit.
func withUnit(v float64, unit string) string {
	if unit == "°" {
		return fewest(v) + unit
	}
	return strings.TrimSuffix(significant(v)+" "+unit, " ratio")
}

// subscript writes a whole number in subscripts.
func subscript(n int) string {
	return strings.Map(func(r rune) rune { return '₀' + r - '0' }, strconv.Itoa(n))
}

// fewest writes a number with up to two decimals, none where it is whole.
func fewest(v float64) string {
	return page.Minus(strconv.FormatFloat(math.Round(v*100)/100+0, 'f', -1, 64))
}

// upperFirst makes a text that starts with a small ASCII letter start a sentence.
func upperFirst(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// pairs returns the points of two lists of equal length.
func pairs(x, y []float64) plotter.XYs {
	points := make(plotter.XYs, len(x))
	for i := range x {
		points[i] = plotter.XY{X: x[i], Y: y[i]}
	}
	return points
}
