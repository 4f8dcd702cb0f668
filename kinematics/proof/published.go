package proof

import (
	"maps"
	"math"
	"strings"
)

// row is a row of testdata/published.csv, whose description names the columns.
type row struct {
	id, quantity, printed, half, unit, kind, trueValue, implied, source string
	in                                                                  record // its inputs
}

// recipe is how a published quantity comes out of the inputs of its row.
type recipe struct {
	title string // as the what, with inputs in braces
	what  string
	exact func(row) float64
	// asPrinted is how the source came to the value of an approximation.
	asPrinted func(row) float64
}

// recipes returns the quantities that the program computes.
func recipes() map[string]recipe {
	all := map[string]recipe{}
	for _, some := range []map[string]recipe{oneJoint, twoJoints, loads, onTheRoad} {
		maps.Copy(all, some)
	}
	return all
}

// sixtyDigits is where the exact values of approximations and the accelerations
// of limits come from.
const sixtyDigits = "60-digit arithmetic: testdata/highprecision/check_published.py"

// published checks the values of testdata/published.csv, kind by kind as its
// description in testdata/README.md says.
func published() []Check {
	table, known := publishedTable(), recipes()
	var values, exact, allowed []Check
	for _, r := range table {
		q, computed := known[r.quantity]
		switch {
		case r.kind == "outside":
		case r.kind == "approximation":
			values = append(values, r.checkPrinted(q, q.asPrinted))
			exact = append(exact, r.checkExact(q))
		case r.kind == "misprint":
			values = append(values, r.checkMisprint(table))
		case r.kind == "formula":
			values = append(values, r.checkFormula(q))
		case computed:
			values = append(values, r.checkPrinted(q, q.exact))
		}
		if r.implied != "" {
			allowed = append(allowed, r.checkImplied())
		}
	}
	return append(append(values, exact...), allowed...)
}

func publishedTable() []row {
	var table []row
	for _, r := range read("published.csv") {
		in := record{}
		for pair := range strings.SplitSeq(r["inputs"], ";") {
			name, value, _ := strings.Cut(pair, "=")
			in[name] = value
		}
		table = append(table, row{
			id: r["id"], quantity: r["quantity"], kind: r["kind"], source: r["source"], in: in,
			printed: r["printed"], trueValue: r["true_value"], implied: r["implied_rad_s2"],
			unit: r["unit"], half: r["half_unit"],
		})
	}
	return table
}

// check returns what all checks of a row have in common.
func (r row) check(title, what string) Check {
	var pairs []string
	for name, value := range r.in {
		pairs = append(pairs, "{"+name+"}", value)
	}
	fill := strings.NewReplacer(pairs...)
	return Check{Group: fill.Replace(title), What: fill.Replace(what), ID: r.id, Kind: Exact, Source: r.source}
}

// checkPrinted checks the printed digits.
func (r row) checkPrinted(q recipe, ours func(row) float64) Check {
	c := r.check(q.title+r.suffix(), q.what)
	c.Printed, c.Want, c.Tolerance = r.printed, number(r.printed), number(r.half)
	c.Ours = ours(r)
	if r.kind == "approximation" {
		c.Kind = Approximation
	}
	return c
}

// checkExact checks what should stand in the place of an approximation.
func (r row) checkExact(q recipe) Check {
	c := r.check(q.title+" (exact)"+r.suffix(), q.what)
	c.Source = sixtyDigits
	c.Printed, c.Want, c.Tolerance = r.trueValue, number(r.trueValue), halfUnit(r.trueValue)
	c.Ours = q.exact(r)
	return c
}

// checkMisprint checks the acceleration on which a table of angles rests: it must
// lie within what the printed digits of the angles leave open.
func (r row) checkMisprint(table []row) Check {
	low, high := 0.0, math.Inf(1)
	for _, other := range table {
		if other.source == r.source && other.quantity == "angle_at_accel" {
			rpm, angle, half := other.in.number("rpm"), number(other.printed), number(other.half)
			low = max(low, peakAccel(rpm, angle-half))
			high = min(high, peakAccel(rpm, angle+half))
		}
	}
	c := r.check("Acceleration that a table of angles rests on"+r.suffix(), "must be "+r.trueValue)
	c.Kind = Misprint
	c.Printed, c.Want = r.printed, number(r.trueValue)
	c.Ours, c.Tolerance = (low+high)/2, (high-low)/2
	return c
}

// checkImplied checks the acceleration that a limit of angle at a speed, or of
// speed times angle, allows.
func (r row) checkImplied() Check {
	var what string
	var rpm, angle float64
	switch {
	case r.quantity == "speed_angle_max":
		const small = 1e-3 // deg; speed times angle says it for small angles only
		what, rpm, angle = r.printed+" rpm·deg", number(r.printed)/small, small
	case r.in.has("beta_deg"):
		what, rpm, angle = "{beta_deg}° at {rpm} rpm", r.in.number("rpm"), r.in.number("beta_deg")
	default:
		what, rpm, angle = r.printed+"° at {rpm} rpm", r.in.number("rpm"), number(r.printed)
	}
	c := r.check("Acceleration that a limit allows behind one joint, rad/s²", what)
	c.Source = sixtyDigits
	c.Printed, c.Want, c.Tolerance = r.implied, number(r.implied), halfUnit(r.implied)
	c.Ours = peakAccel(rpm, angle)
	return c
}

// suffix returns the unit as it follows a title.
func (r row) suffix() string {
	if r.unit == "1" {
		return ""
	}
	return ", " + strings.ReplaceAll(r.unit, "s2", "s²")
}

// halfUnit returns half a unit of the last digit of a decimal number.
func halfUnit(printed string) float64 {
	_, decimals, _ := strings.Cut(printed, ".")
	return math.Pow10(-len(decimals)) / 2
}
