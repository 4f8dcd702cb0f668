package limits

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
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
		s.Shafts = append(s.Shafts, survey.Shaft{DownDeg: survey.Readings{slope}})
	}
	return s.Complete()
}

// just returns limits of which only the given ones, set by the file, are left.
func just(values map[string]float64) survey.Limits {
	l := survey.Limits{Values: values}
	for _, name := range survey.LimitNames {
		if _, given := values[name]; !given {
			l.Off = append(l.Off, name)
		}
	}
	return l
}

func alone(name string, value float64) survey.Limits {
	return just(map[string]float64{name: value})
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
	j, err := Judge(s)
	if err != nil {
		t.Fatal(err)
	}
	return j
}

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

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
	f, err := os.Open("../../testdata/published.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	records, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := make(map[string]int)
	for i, name := range records[0] {
		column[name] = i
	}
	number := func(text string) float64 { v, _ := strconv.ParseFloat(text, 64); return v }
	var rows []printedRow
	for _, r := range records[1:] {
		wanted := false
		for _, p := range prefixes {
			wanted = wanted || strings.HasPrefix(r[column["id"]], p)
		}
		if !wanted {
			continue
		}
		row := printedRow{
			id: r[column["id"]], quantity: r[column["quantity"]], source: r[column["source"]],
			inputs: make(map[string]float64),
			value:  number(r[column["printed"]]), halfUnit: number(r[column["half_unit"]]),
			trueValue: number(r[column["true_value"]]), impliedAccel: number(r[column["implied_rad_s2"]]),
		}
		for _, in := range strings.Split(r[column["inputs"]], ";") {
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
