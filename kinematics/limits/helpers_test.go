package limits

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
	"halfturn/testdata"
)

// driveline reads the text of a driveline file.
func driveline(t testing.TB, text string) *survey.Survey {
	t.Helper()
	s, err := survey.Read("test", strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// inPlane is a driveline of shafts with the given slopes in deg.
func inPlane(down ...float64) *survey.Survey {
	s := &survey.Survey{}
	for _, slope := range down {
		s.Shafts = append(s.Shafts, survey.Shaft{Slope: survey.Down(slope)})
	}
	return s.Complete()
}

// alone is a single limit, set by the file.
func alone(name string, value float64) survey.Limits {
	return survey.OnlyLimits(map[string]float64{name: value})
}

// gauged returns the gauge of a driveline and its model.
func gauged(t testing.TB, s *survey.Survey) (*Gauge, *kinematics.Driveline) {
	t.Helper()
	g, err := NewGauge(s)
	if err != nil {
		t.Fatal(err)
	}
	d, err := s.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	return g, d
}

func judge(t testing.TB, s *survey.Survey) *Judgement {
	t.Helper()
	j, err := Judge(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// scenario is one of testdata/judgement.json: a driveline and what a good
// technician concludes.
type scenario struct {
	Name      string
	Driveline json.RawMessage
	Outcome   []Outcome
	Answer    []string
	Question  *[]string
	Verdicts  []struct {
		LimitName string `json:"limit_name"`
		Verdict   Outcome
		Value     *float64
	}
}

func scenarios(t testing.TB) []scenario {
	t.Helper()
	text, err := os.ReadFile("../../testdata/judgement.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []scenario }
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	return file.Cases
}

// printedRow is a row of testdata/published.csv.
type printedRow struct {
	id, quantity, source       string
	inputs                     map[string]float64
	value, halfUnit, trueValue float64 // the last two 0 where not given
	impliedAccel               float64
}

// printedRows reads the published values whose row begins with one of the
// prefixes.
func printedRows(t testing.TB, prefixes ...string) []printedRow {
	t.Helper()
	number := func(text string) float64 {
		low, _, _ := strings.Cut(text, "-") // of a range
		v, _ := strconv.ParseFloat(low, 64) // 0 where none is given
		return v
	}
	var rows []printedRow
	for _, r := range testdata.Table("published.csv") {
		if !slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(r["id"], p) }) {
			continue
		}
		row := printedRow{
			id: r["id"], quantity: r["quantity"], source: r["source"], inputs: make(map[string]float64),
			value: number(r["printed"]), halfUnit: number(r["half_unit"]),
			trueValue: number(r["true_value"]), impliedAccel: number(r["implied_rad_s2"]),
		}
		for in := range strings.SplitSeq(r["inputs"], ";") {
			key, value, _ := strings.Cut(in, "=")
			row.inputs[key] = number(value)
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("no published rows %q", prefixes)
	}
	return rows
}
