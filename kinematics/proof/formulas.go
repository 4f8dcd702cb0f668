package proof

import (
	"math"
	"strconv"

	"halfturn/kinematics"
)

// formulas holds what rows of the kind formula print, by its text.
var formulas = map[string]func(given) float64{
	"0":                       func(given) float64 { return 0 },
	"M1·cos β":                func(g given) float64 { return g.T * g.cos1 },
	"M1/cos β":                func(g given) float64 { return g.T / g.cos1 },
	"M1·sin β":                func(g given) float64 { return g.T * g.sin1 },
	"M1·tan β":                func(g given) float64 { return g.T * g.tan1 },
	"T·tan β1/a":              func(g given) float64 { return g.T * g.tan1 / g.a },
	"T·sin β2/(f·cos β1)":     func(g given) float64 { return g.T * g.sin2 / (g.f * g.cos1) },
	"2T·sin β1·b/(L·a)":       func(g given) float64 { return 2 * g.T * g.sin1 * g.b / (g.L * g.a) },
	"2T·sin β1·(a + b)/(L·a)": func(g given) float64 { return 2 * g.T * g.sin1 * (g.a + g.b) / (g.L * g.a) },
	"T·cos β1·b/(L·a)·(tan β1 − tan β2)":       func(g given) float64 { return g.T * g.cos1 * g.b / (g.L * g.a) * (g.tan1 - g.tan2) },
	"T·cos β1·(a + b)/(L·a)·(tan β1 − tan β2)": func(g given) float64 { return g.T * g.cos1 * (g.a + g.b) / (g.L * g.a) * (g.tan1 - g.tan2) },
	"T·cos β1·e/(L·f)·(tan β1 − tan β2)":       func(g given) float64 { return g.T * g.cos1 * g.e / (g.L * g.f) * (g.tan1 - g.tan2) },
	"T·cos β1·(e + f)/(L·f)·(tan β1 − tan β2)": func(g given) float64 { return g.T * g.cos1 * (g.e + g.f) / (g.L * g.f) * (g.tan1 - g.tan2) },
	"T·cos β1·b/(L·a)·(tan β1 + tan β2)":       func(g given) float64 { return g.T * g.cos1 * g.b / (g.L * g.a) * (g.tan1 + g.tan2) },
	"T·cos β1·(a + b)/(L·a)·(tan β1 + tan β2)": func(g given) float64 { return g.T * g.cos1 * (g.a + g.b) / (g.L * g.a) * (g.tan1 + g.tan2) },
	"T·cos β1·e/(L·f)·(tan β1 + tan β2)":       func(g given) float64 { return g.T * g.cos1 * g.e / (g.L * g.f) * (g.tan1 + g.tan2) },
	"T·cos β1·(e + f)/(L·f)·(tan β1 + tan β2)": func(g given) float64 { return g.T * g.cos1 * (g.e + g.f) / (g.L * g.f) * (g.tan1 + g.tan2) },
}

// given holds the inputs of a row as its formula calls them; M1 and β are T and β1.
type given struct {
	T, L, a, b, e, f             float64
	sin1, cos1, tan1, sin2, tan2 float64
}

// given returns the inputs of the row, 0 where it has none.
func (r row) given() given {
	in := func(name string) float64 {
		if !r.in.has(name) {
			return 0
		}
		return r.in.number(name)
	}
	beta1 := max(in("beta_deg"), in("middle_deg")) * kinematics.Degree
	beta2 := math.Abs(in("last_deg")-in("middle_deg")) * kinematics.Degree
	return given{
		T: in("torque"), L: in("length"), a: in("a"), b: in("b"), e: in("e"), f: in("f"),
		sin1: math.Sin(beta1), cos1: math.Cos(beta1), tan1: math.Tan(beta1),
		sin2: math.Sin(beta2), tan2: math.Tan(beta2),
	}
}

// checkFormula checks what a formula gives that is printed as exact.
func (r row) checkFormula(q recipe) Check {
	c := r.check(q.title+r.suffix(), q.what)
	c.Want, c.Ours = formulas[r.printed](r.given()), q.exact(r)
	c.Printed = strconv.FormatFloat(c.Want, 'g', 4, 64)
	c.Tolerance = 20 * epsilon * r.in.number("torque") // on either way to it
	return c
}
