package main

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// loads are what is read of the loads of check --json.
type loads struct {
	Loads struct {
		TorqueNM float64 `json:"torque_nm"`
		Assumed  bool    `json:"assumed"`
		Bearings []struct {
			Shaft        string   `json:"shaft"`
			SwingN       float64  `json:"swing_n"`
			SwingRightN  float64  `json:"swing_right_n"`
			SwingDownN   float64  `json:"swing_down_n"`
			SteadyRightN float64  `json:"steady_right_n"`
			SteadyDownN  float64  `json:"steady_down_n"`
			Hz           *float64 `json:"hz"`
		} `json:"bearings"`
		Ends []struct {
			Shaft     string  `json:"shaft"`
			ForceMaxN float64 `json:"force_max_n"`
		} `json:"ends"`
		QuietCentre *struct {
			Right  float64 `json:"right"`
			Down   float64 `json:"down"`
			SwingN float64 `json:"swing_n"`
			Left   float64 `json:"exact_equivalent_angle_deg"`
		} `json:"quiet_centre"`
	} `json:"loads"`
}

func loadsOf(t *testing.T, stdin string, args ...string) loads {
	t.Helper()
	code, text, stderr := invoke(stdin, append([]string{"check", "--json"}, args...)...)
	if code != exitDone {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	var doc loads
	if err := json.Unmarshal([]byte(text), &doc); err != nil {
		t.Fatal(err)
	}
	return doc
}

// TestLoadsOfSmallAngles holds a line against the theory of small angles, which
// is within a few per cent: the bearing swings by T/2d·|D₁ + L₁/L₂·D₂|, with D how far
// the shafts before and behind a shaft are from parallel, and moving the centre joint
// by ½·(L₂·D₁ + L₁·D₂) leaves nothing.
func TestLoadsOfSmallAngles(t *testing.T) {
	t.Parallel()
	got := loadsOf(t, `{"rpm": 2800, "torque_nm": 1500, "shafts": [{"down": 3.4}, {"down": 3.8, "length": 940, "bearing": 940},
		{"down": 6.1, "right": 1.2, "length": 1270}, {"down": 4}]}`, "-").Loads
	const deg = math.Pi / 180
	const l1, l2, torque = 0.940, 1.270, 1500
	d1 := [2]float64{(6.1 - 3.4) * deg, 1.2 * deg} // down, right: rear shaft less gearbox output
	d2 := [2]float64{(4 - 3.8) * deg, 0}           // axle pinion less front shaft
	swing := torque / (2 * l1) * math.Hypot(d1[0]+l1/l2*d2[0], d1[1]+l1/l2*d2[1])
	b := got.Bearings[0]
	for _, v := range []struct {
		name      string
		got, want float64
	}{
		{"swing", b.SwingN, swing},
		{"swing sideways", b.SwingRightN, swing},
		{"swing up and down", b.SwingDownN, swing},
		{"quiet place, down", got.QuietCentre.Down, 500 * (l2*d1[0] + l1*d2[0])},
		{"quiet place, right", got.QuietCentre.Right, 500 * (l2*d1[1] + l1*d2[1])},
		{"greatest force at the ends of the rear shaft", got.Ends[0].ForceMaxN, torque * math.Hypot(d2[0], d2[1]) / l2},
		{"shakes a second", *b.Hz, 2 * 2800. / 60},
	} {
		if math.Abs(v.got-v.want) > 0.03*math.Abs(v.want) {
			t.Errorf("%s: got %.4g, want about %.4g", v.name, v.got, v.want)
		}
	}
	if q := got.QuietCentre; q.SwingN > 0.001*b.SwingN || !(q.Left > 2.3 && q.Left < 2.4) {
		t.Errorf("quiet place: got a swing of %g N and one joint at %g° left", q.SwingN, q.Left)
	}
}

// TestSeriesLoads holds the columns of the series against the sums of check --json.
func TestSeriesLoads(t *testing.T) {
	t.Parallel()
	const file = "../../testdata/golden/input/bearings.json"
	_, text, _ := invoke("", "series", file, "--loads", "--steps", "360")
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := func(head string) (mean, half float64) {
		i := slices.Index(rows[0], head)
		if i < 0 {
			t.Fatalf("no column %q in %q", head, rows[0])
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, row := range rows[1:] {
			v, err := strconv.ParseFloat(row[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			mean += v / 360
			low, high = min(low, v), max(high, v)
		}
		return mean, (high - low) / 2
	}
	for i, k := range []string{"2", "4"} { // the third shaft has no bearing
		b := loadsOf(t, "", file).Loads.Bearings[i]
		right, swingRight := column("bearing" + k + "_right_n")
		down, swingDown := column("bearing" + k + "_down_n")
		got := []float64{right, down, swingRight, swingDown}
		want := []float64{b.SteadyRightN, b.SteadyDownN, b.SwingRightN, b.SwingDownN}
		for j := range got {
			// Between two of 360 positions a swing falls short by at most 1 − cos 1°.
			if math.Abs(got[j]-want[j]) > 2e-4*math.Abs(b.SwingN) {
				t.Errorf("bearing %s: got %.6g, want %.6g", k, got, want)
				break
			}
		}
	}
	if slices.Contains(rows[0], "bearing3_right_n") {
		t.Error("the shaft without a bearing has a column")
	}
	if mean, _ := column("shaft1_torque_nm"); math.Abs(mean-900) > 1e-9 {
		t.Errorf("torque on the first shaft: got %g", mean)
	}
}

// Without lengths the couples are told all the same, and why there are no forces.
func TestLoadsWithoutLengths(t *testing.T) {
	t.Parallel()
	got := loadsOf(t, "", "--down", "0,3,4,5").Loads
	if got.TorqueNM != 100 || !got.Assumed || len(got.Bearings) != 0 || len(got.Ends) != 0 || got.QuietCentre != nil {
		t.Errorf("got %+v", got)
	}
	code, text, _ := invoke(`{"torque_nm": 300, "shafts": [{"down": 0}, {"down": 3, "length": 900}, {"name": "rear", "down": 4}, {"down": 5}]}`, "check", "-")
	if want := "the length of rear is not given"; code != exitDone || !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
		t.Errorf("exit %d, want %q in\n%s", code, want, text)
	}
}
