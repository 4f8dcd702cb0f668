package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/findings"
)

func TestCheckEveryExample(t *testing.T) {
	t.Parallel()
	for _, file := range exampleFiles(t) {
		t.Run(file, func(t *testing.T) {
			t.Parallel()
			code, text, stderr := invoke("", "check", file)
			if code != exitDone {
				t.Fatalf("exit %d: %s", code, stderr)
			}
			if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
				t.Errorf("not a number in\n%s", text)
			}
			requireWidth(t, text)
			checkJSON(t, "check", file, "--json")
			checkSeries(t, "series", file, "--steps", "24")
		})
	}
}

// documentKeys are the keys of check --json that programs rely on.
var documentKeys = map[string]string{
	"":                   "name rpm second_order_hz shafts joints motion second_order coasting verdicts loads",
	"shafts":             "name down_deg right_deg incline_deg phase_deg",
	"joints":             "name kind working_angle_deg side_angle_deg top_angle_deg plane_deg",
	"motion":             "shaft ratio_min ratio_max ratio_mean ratio_rms_deviation nonuniformity lead_max_deg lead_min_deg peak_accel_rad_s2 rms_accel_rad_s2 orders",
	"motion.orders":      "order lead_deg speed_percent accel_rad_s2 phase_deg",
	"second_order":       "terms equivalent_angle_deg exact_equivalent_angle_deg",
	"second_order.terms": "joint size_deg2 direction_deg",
	"verdicts":           "subject quantity value uncertainty limit unit verdict basis",
	"coasting":           "shaft ratio_min ratio_max peak_accel_rad_s2",
	"loads":              "torque_nm assumed shafts joints bearings ends",
	"loads.shafts":       "shaft torque_min_nm torque_max_nm",
	"loads.joints":       "joint driving_peak_nm driven_peak_nm",
}

func checkJSON(t *testing.T, args ...string) {
	t.Helper()
	_, text, _ := invoke("", args...)
	var doc map[string]any
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	requireKeys(t, "", doc)
}

// requireKeys walks the document and looks for the keys of each object, which
// is known by the keys it stands under.
func requireKeys(t *testing.T, under string, v any) {
	t.Helper()
	switch v := v.(type) {
	case map[string]any:
		for _, key := range strings.Fields(documentKeys[under]) {
			if _, ok := v[key]; !ok {
				t.Errorf("%q lacks the key %q", under, key)
			}
		}
		for key, inner := range v {
			requireKeys(t, strings.TrimPrefix(under+"."+key, "."), inner)
		}
	case []any:
		if len(v) == 0 && documentKeys[under] != "" {
			t.Errorf("%q is empty", under)
		}
		for _, inner := range v {
			requireKeys(t, under, inner)
		}
	}
}

func checkSeries(t *testing.T, args ...string) {
	t.Helper()
	_, text, _ := invoke("", args...)
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(rows[0][:4], ","); got != "theta_deg,shaft1_lead_deg,shaft1_ratio,shaft1_accel_rad_s2" {
		t.Errorf("head: %s", got)
	}
	if len(rows) != 25 {
		t.Errorf("got %d positions, want 24", len(rows)-1)
	}
}

// One joint at β: the numbers of the report follow from cos β alone.
func TestCheckOfOneJoint(t *testing.T) {
	t.Parallel()
	_, text, _ := invoke("", "check", "--down", "0,20", "--rpm", "1000", "--json")
	var doc findings.Document
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	cos := math.Cos(20 * math.Pi / 180)
	m := doc.Motion[1]
	for _, v := range []struct {
		name      string
		got, want float64
	}{
		{"working angle", doc.Joints[0].WorkingAngleDeg, 20},
		{"side angle", doc.Joints[0].SideAngleDeg, 20},
		{"second order", doc.SecondOrderHz, 2000.0 / 60},
		{"ratio_min", m.RatioMin, cos},
		{"ratio_max", m.RatioMax, 1 / cos},
		{"nonuniformity", m.Nonuniformity, 1/cos - cos},
		{"equivalent angle", doc.SecondOrder.EquivalentAngleDeg, 20},
		{"exact equivalent angle", doc.SecondOrder.ExactEquivalentAngleDeg, 20},
	} {
		if math.Abs(v.got-v.want) > 1e-12 {
			t.Errorf("%s: got %v, want %v", v.name, v.got, v.want)
		}
	}
	// T. Bevan, The Theory of Machines, 3rd ed., ch. 4 example 1: 1370 rad/s².
	if got := math.Round(*m.PeakAccelRadS2); got != 1370 {
		t.Errorf("peak acceleration: got %v rad/s², want 1370", *m.PeakAccelRadS2)
	}
}

func TestNoSpeedNoAcceleration(t *testing.T) {
	t.Parallel()
	_, text, _ := invoke("", "check", "--down", "0,20", "--json")
	var doc findings.Document
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	if doc.Motion[1].PeakAccelRadS2 != nil || doc.RPM != 0 {
		t.Errorf("got %v rad/s² at %v rev/min, want null at 0", doc.Motion[1].PeakAccelRadS2, doc.RPM)
	}
	_, text, stderr := invoke("", "series", "--down", "0,20")
	if !strings.Contains(stderr, "no speed given") {
		t.Errorf("remarks: %q", stderr)
	}
	if row := strings.Split(strings.Split(text, "\n")[1], ","); row[6] != "" {
		t.Errorf("acceleration without a speed: got %q, want none", row[6])
	}
}

// The coasting series has the last shaft uniform, the driving one the first.
func TestSeriesDrivingAndCoasting(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		flag    string
		uniform int
	}{{"--coasting=false", 0}, {"--coasting", 2}} {
		_, text, _ := invoke("", "series", "--down", "0,12,3", "--rpm", "1000", test.flag)
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for shaft := range 3 {
			uniform := true
			for _, row := range rows[1:] {
				ratio, err := strconv.ParseFloat(row[2+3*shaft], 64)
				if err != nil {
					t.Fatal(err)
				}
				uniform = uniform && ratio == 1
			}
			if uniform != (shaft == test.uniform) {
				t.Errorf("%s: shaft %d uniform: %v", test.flag, shaft+1, uniform)
			}
		}
	}
}

// A technician reads it on a telephone: a two-piece driveline takes 40 lines at most.
func TestCheckIsShort(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{
		{example("two-piece.json")},
		{"--down", "3.1,9,2,7", "--right", "1,-2,3,0", "--phase", "40", "--rpm", "3000", "--reading-error", "0.1", "--length", "600,900,1200,300"},
	} {
		_, text, _ := invoke("", append([]string{"check"}, args...)...)
		if n := strings.Count(text, "\n"); n > 40 {
			t.Errorf("%q: %d lines:\n%s", args, n, text)
		}
	}
}

// A search that takes longer than a check may does not keep the answer back.
func TestCheckDoesNotWaitForTheCure(t *testing.T) {
	t.Parallel()
	var out, remarks strings.Builder
	c := &console{ctx: t.Context(), in: strings.NewReader(""), out: &out, err: &remarks, patience: 1}
	if code := run(c, []string{"check", example("one-piece.json")}); code != exitDone || remarks.String() != "" {
		t.Fatalf("exit %d: %s", code, &remarks)
	}
	if !strings.HasPrefix(out.String(), "Not fine") || !strings.Contains(out.String(), "What to change takes longer to find: halfturn adjust does.") {
		t.Errorf("got\n%s", &out)
	}
}
