package findings

import (
	"encoding/json"
	"fmt"
	"math"
	"math/cmplx"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics/adjust"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// oddline is a driveline with everything in it, no number of which is another's, or
// another's negative.
const oddline = `{
	"name": "odd", "rpm": 1830, "reading_error_deg": 0.15, "torque_nm": 730,
	"road": {"tyre_diameter": 655, "final_drive": 3.31},
	"shafts": [
		{"name": "one", "down": 2.1, "right": -0.7, "length": 610},
		{"name": "two", "down": 5.9, "right": 1.3, "length": 870, "phase": 14},
		{"name": "three", "down": 9.4, "right": 2.9, "length": 1130, "phase": -23},
		{"name": "four", "down": 3.2, "right": -1.9, "length": 330}
	],
	"joints": [{"name": "A"}, {"name": "B"}, {"name": "C"}],
	"adjust": [{"change": "wedge", "on": "four", "from": -3, "to": 4, "step": 0.5}, {"change": "clocking", "on": "three", "from": -30, "to": 30, "step": 7.5}],
	"poses": [{"name": "deep", "kind": "travel", "shafts": [{"name": "three", "down": 12.3}]}]
}`

var (
	oddDown  = []float64{2.1, 5.9, 9.4, 3.2}
	oddRight = []float64{-0.7, 1.3, 2.9, -1.9}
	oddPhase = []float64{0, 14, -23, 0}
)

func oddFindings(t *testing.T, opts Options) *Findings {
	t.Helper()
	sv, err := survey.Read("odd.json", strings.NewReader(oddline))
	if err != nil {
		t.Fatal(err)
	}
	f, err := New(t.Context(), sv, opts)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// expected are the values of a document by their paths.
type expected map[string]any

// put adds the fields of an object below a path, given by name and value in turn.
func (e expected) put(path string, fields ...any) {
	for i := 0; i < len(fields); i += 2 {
		e[path+fields[i].(string)] = fields[i+1]
	}
}

// hold wants a document to have the expected values and nothing else, numbers but for
// a part in ten thousand million, those that were sampled but for what tolerance says.
func (e expected) hold(t *testing.T, document any, tolerance map[string]float64) {
	t.Helper()
	text, err := json.Marshal(document)
	if err != nil {
		t.Fatal(err)
	}
	var tree any
	if err := json.Unmarshal(text, &tree); err != nil {
		t.Fatal(err)
	}
	got := expected{}
	got.flatten("", tree)
	for path, want := range e {
		have, ok := got[path]
		if !ok {
			t.Errorf("%s is missing, want %v", path, want)
			continue
		}
		if n, ok := want.(int); ok {
			want = float64(n)
		}
		w, number := want.(float64)
		h, _ := have.(float64)
		loose := 1e-9
		for end, t := range tolerance {
			if strings.HasSuffix(path, end) {
				loose = t
			}
		}
		switch {
		case number && math.Abs(h-w) > loose*math.Max(1, math.Abs(w)), !number && have != want:
			t.Errorf("%s: got %v, want %v", path, have, want)
		}
	}
	for path, have := range got {
		if _, ok := e[path]; !ok {
			t.Errorf("%s: %v: nobody has told what it must be", path, have)
		}
	}
}

// flatten adds the leaves of a JSON value by their paths; empty lists are leaves.
func (e expected) flatten(path string, v any) {
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			e.flatten(strings.TrimPrefix(path+"."+key, "."), inner)
		}
	case []any:
		for i, inner := range v {
			e.flatten(fmt.Sprintf("%s.%d", path, i), inner)
		}
		if len(v) == 0 {
			e[path] = "[]"
		}
	default:
		e[path] = v
	}
}

// texts adds a list of texts.
func (e expected) texts(path string, list []string) {
	if len(list) == 0 {
		e[path] = "[]"
	}
	for i, text := range list {
		e[fmt.Sprintf("%s.%d", path, i)] = text
	}
}

// verdict adds a verdict, by the names of its fields.
func (e expected) verdict(path string, v limits.Verdict) {
	e.put(path, "subject", v.Subject, "limit_name", v.LimitName, "quantity", v.Quantity,
		"value", v.Value, "uncertainty", v.Uncertainty, "low", v.Low, "high", v.High,
		"limit", v.Limit, "sense", string(v.Sense), "unit", v.Unit, "verdict", string(v.Outcome), "basis", v.Basis)
	if v.Settle != nil {
		e[path+"to_settle"] = v.Settle.String()
	}
}

// state adds what is left of a driveline, worked out by the model.
func (e expected) state(t *testing.T, path, pose string, sv *survey.Survey, s adjust.State) {
	t.Helper()
	d, err := sv.Driveline()
	if err != nil {
		t.Fatal(err)
	}
	e[path+"bearing_swing_n"] = sv.Loads(d).Forces.Bearings[0].Force.Swing()
	m := modelOf(sv)
	leads := m.leads()
	last := leads[len(leads)-1]
	ratio, accel := motion(last)
	sum := complex(0, 0)
	for k, term := range m.terms() {
		e[fmt.Sprintf("%sworking_angle_deg.%d", path, k)] = math.Sqrt(cmplx.Abs(term))
		sum += term
	}
	e.put(path, "pose", pose, "equivalent_angle_deg", math.Sqrt(cmplx.Abs(sum)), "exact_equivalent_angle_deg", left(last),
		"nonuniformity", slices.Max(ratio)-slices.Min(ratio), "residual_accel_rad_s2", slices.Max(accel)*oddOmega*oddOmega,
		"bearing_swing_n", bearingSwing(sv), "outcome", string(s.Judgement.Outcome), "answer", s.Judgement.Answer)
}

// bearingSwing returns the swing of the force on the centre bearing in N; the force itself is
// held against rigid bodies where it is worked out.
func bearingSwing(sv *survey.Survey) float64 {
	d, err := sv.Driveline()
	if err != nil {
		panic(err)
	}
	return sv.Loads(d).Forces.Bearings[0].Force.Swing()
}

const (
	oddRPM   = 1830.0
	oddOmega = oddRPM * 2 * math.Pi / 60
)

// sampled is how closely the model's samples meet an extreme value, and its series the
// phase of an order that hardly exists.
var sampled = map[string]float64{
	"ratio_min": 1e-6, "ratio_max": 1e-6, "nonuniformity": 2e-6, "lead_max_deg": 1e-4, "lead_min_deg": 1e-4,
	"peak_accel_rad_s2": 1e-4, "residual_accel_rad_s2": 1e-4, "torque_min_nm": 1e-4, "torque_max_nm": 1e-4,
	"best_phases.0.phase_deg": 0.02, "best_phases.1.phase_deg": 0.02,
	"orders.1.phase_deg": 1e-6, "orders.2.phase_deg": 0.01, "orders.3.phase_deg": 5,
}

// Every field of check --json is what the model says, in the unit of its name and with
// its sign.
func TestDocument(t *testing.T) {
	t.Parallel()
	f := oddFindings(t, Options{Questions: []string{"really?"}})
	m := newModel(oddDown, oddRight, oddPhase)
	leads, names := m.leads(), []string{"one", "two", "three", "four"}
	e := expected{}
	e.put("", "name", "odd", "rpm", oddRPM, "second_order_hz", 61, "limit_set", f.Judgement.Set.Name,
		"outcome", string(f.Judgement.Outcome), "answer", f.Answer()[0])
	e.texts("questions", f.Questions)
	e.texts("remarks", f.Judgement.Remarks)

	endRatio, endAccel := motion(leads[3])
	for k, name := range names {
		e.put(fmt.Sprintf("shafts.%d.", k), "name", name, "down_deg", oddDown[k], "right_deg", oddRight[k], "phase_deg", oddPhase[k],
			"incline_deg", math.Atan(math.Tan(oddDown[k]*deg)*math.Cos(oddRight[k]*deg))/deg)

		ratio, accel := motion(leads[k])
		square, squareAccel := 0.0, 0.0
		for i := range ratio {
			square += (ratio[i] - 1) * (ratio[i] - 1) / modelSteps
			squareAccel += accel[i] * accel[i] / modelSteps
		}
		path := fmt.Sprintf("motion.%d.", k)
		e.put(path, "shaft", name, "ratio_min", slices.Min(ratio), "ratio_max", slices.Max(ratio), "ratio_mean", 1,
			"ratio_rms_deviation", math.Sqrt(square), "nonuniformity", slices.Max(ratio)-slices.Min(ratio),
			"lead_max_deg", slices.Max(leads[k])/deg, "lead_min_deg", slices.Min(leads[k])/deg,
			"peak_accel_rad_s2", slices.Max(accel)*oddOmega*oddOmega, "rms_accel_rad_s2", math.Sqrt(squareAccel)*oddOmega*oddOmega)
		for i, c := range orders(leads[k], 8) {
			if i < 2 || i%2 == 1 {
				continue
			}
			order := float64(i)
			e.put(fmt.Sprintf("%sorders.%d.", path, i/2-1), "order", i, "lead_deg", cmplx.Abs(c)/deg, "speed_percent", 100*order*cmplx.Abs(c),
				"accel_rad_s2", order*order*cmplx.Abs(c)*oddOmega*oddOmega, "phase_deg", 0)
			if k > 0 {
				e[fmt.Sprintf("%sorders.%d.phase_deg", path, i/2-1)] = -cmplx.Phase(c) / deg
			}
		}

		var coasting, coastingAccel []float64 // the last shaft turns evenly
		for i := range ratio {
			coasting = append(coasting, ratio[i]/endRatio[i])
			coastingAccel = append(coastingAccel, (accel[i]*endRatio[i]-ratio[i]*endAccel[i])/math.Pow(endRatio[i], 3)*oddOmega*oddOmega)
		}
		e.put(fmt.Sprintf("coasting.%d.", k), "shaft", name, "ratio_min", slices.Min(coasting), "ratio_max", slices.Max(coasting),
			"peak_accel_rad_s2", slices.Max(coastingAccel))
	}

	sum := complex(0, 0)
	for k, term := range m.terms() {
		sum += term
		normal := r3.Cross(m.axes[k], m.axes[k+1])
		e.put(fmt.Sprintf("joints.%d.", k), "name", string(rune('A'+k)), "kind", "cardan", "working_angle_deg", math.Sqrt(cmplx.Abs(term)),
			"side_angle_deg", oddDown[k+1]-oddDown[k], "top_angle_deg", oddRight[k+1]-oddRight[k],
			"plane_deg", math.Atan(normal.Z/normal.Y)/deg)
		e.put(fmt.Sprintf("second_order.terms.%d.", k), "joint", string(rune('A'+k)), "size_deg2", cmplx.Abs(term), "direction_deg", cmplx.Phase(term)/deg)
	}
	e.put("second_order.", "sum.size_deg2", cmplx.Abs(sum), "sum.direction_deg", cmplx.Phase(sum)/deg,
		"equivalent_angle_deg", math.Sqrt(cmplx.Abs(sum)), "exact_equivalent_angle_deg", left(leads[3]))
	for i, k := range []int{1, 2} {
		phase, least := bestPhase(m, k)
		e.put(fmt.Sprintf("second_order.best_phases.%d.", i), "shaft", names[k], "phase_deg", phase, "exact_equivalent_angle_deg", least)
	}

	for i, v := range f.Judgement.Verdicts {
		e.verdict(fmt.Sprintf("verdicts.%d.", i), v)
	}
	for i, x := range f.Judgement.Crossings {
		e.put(fmt.Sprintf("limits_reached.%d.", i), "subject", x.Subject, "quantity", x.Quantity, "value", x.Value, "unit", x.Unit, "rpm", x.RPM)
		if x.RPM > 0 { // else it is reached at any speed
			e.road(fmt.Sprintf("limits_reached.%d.", i), x.RPM)
		}
	}
	for i, x := range limits.Turnings(f.Survey) {
		path := fmt.Sprintf("frequencies.%d.", i)
		e.road(path, x.RPM)
		e.put(path, "rpm", x.RPM, "wheel_hz", x.RPM/60/3.31, "shaft_hz", x.RPM/60, "second_order_hz", x.RPM/30)
	}
	e.state(t, "poses.0.", "", f.Survey, f.Poses[0])
	e.state(t, "poses.1.", "deep", f.Survey.In(f.Survey.Poses[0]), f.Poses[1])
	e.loads(f, leads)
	e.hold(t, f.Document(), sampled)
}

// road adds the road speed at which the shafts turn at rpm, of a tyre that rolls as one
// that is 3 % smaller.
func (e expected) road(path string, rpm float64) {
	kmh := rpm / 60 / 3.31 * math.Pi * 0.97 * 655e-3 * 3.6
	e.put(path, "speed_kmh", kmh, "speed_mph", kmh/1.609344)
}

// bestPhase returns the phase of a shaft, in degrees, at which the least is left, and
// how much that is, by ever finer scans.
func bestPhase(m model, k int) (phase, least float64) {
	at := func(deg float64) float64 {
		m.phase[k] = deg * math.Pi / 180
		leads := m.leads()
		return left(leads[len(leads)-1])
	}
	was := m.phase[k]
	defer func() { m.phase[k] = was }()
	phase, least = 0, at(0)
	for step := 10.0; step > 1e-3; step /= 4 {
		centre := phase
		for i := -9; i <= 9; i++ {
			if v := at(centre + step*float64(i)); v < least {
				phase, least = centre+step*float64(i), v
			}
		}
	}
	return phase, least
}

// loads adds what torque does: a shaft that turns faster has less of it, since the
// power is the same on every shaft; the rest by the names of its fields.
func (e expected) loads(f *Findings, leads [][]float64) {
	l := f.Loads
	e.put("loads.", "torque_nm", 730, "assumed", false, "bearings_assumed", true)
	for k, name := range []string{"one", "two", "three", "four"} {
		ratio, _ := motion(leads[k])
		e.put(fmt.Sprintf("loads.shafts.%d.", k), "shaft", name, "torque_min_nm", 730/slices.Max(ratio), "torque_max_nm", 730/slices.Min(ratio))
	}
	for k, c := range l.Couples.Joints {
		e.put(fmt.Sprintf("loads.joints.%d.", k), "joint", string(rune('A'+k)), "driving_peak_nm", c.Driving.Peak(), "driven_peak_nm", c.Driven.Peak())
	}
	bearing := l.Forces.Bearings[0].Force
	e.put("loads.bearings.0.", "shaft", "two", "swing_n", bearing.Swing(), "swing_right_n", bearing.Right().Swing(), "swing_down_n", bearing.Down().Swing(),
		"steady_right_n", bearing.Right().Steady, "steady_down_n", bearing.Down().Steady, "hz", 61)
	e.put("loads.ends.0.", "shaft", "three", "force_max_n", l.Forces.Joints[1].Peak())
	quiet := l.Quiet
	e.put("loads.quiet_centre.", "joint", "B", "right", 1000*quiet.Right, "down", 1000*quiet.Down, "unit", "mm", "swing_n", quiet.Swing,
		"exact_equivalent_angle_deg", quiet.Left.Angle()/deg)
	e.texts("loads.remarks", f.LoadNotes())
}

// Every field of adjust --json is that of the result, what is left worked out by the
// model.
func TestCorrectionDocument(t *testing.T) {
	t.Parallel()
	f := oddFindings(t, Options{Correct: true})
	r := f.Correction
	if len(r.Plans) == 0 || len(r.Plans[0].Nudges) == 0 || len(r.SetAside) == 0 {
		t.Fatalf("%d plans, %d set aside: want some of each", len(r.Plans), len(r.SetAside))
	}
	e := expected{}
	e.put("", "name", "odd", "answer", r.Answer(), "fine", false, "changes_assumed", false, "combinations", float64(r.Tried))
	e.texts("not_tried", r.Refused)
	e.texts("remarks", r.Remarks)
	e.state(t, "before.0.", "", f.Survey, r.Before[0])
	for i, c := range r.Changes {
		e.put(fmt.Sprintf("changes.%d.", i), "change", c.Change, "on", c.On, "from", c.From, "to", c.To, "step", c.Step)
	}
	e.breaches("set_aside", r.SetAside)
	for i := range r.Plans {
		e.plan(t, fmt.Sprintf("plans.%d.", i), r, &r.Plans[i])
	}
	if r.Needed == nil {
		e["needed"] = nil
	} else {
		e.plan(t, "needed.", r, r.Needed)
	}
	e.hold(t, f.CorrectionDocument(), sampled)
}

func (e expected) plan(t *testing.T, path string, r *adjust.Result, p *adjust.Plan) {
	e.put(path, "kind", p.Kind(), "outcome", string(p.Outcome), "outcome_of_the_rest", string(p.Rest), "mirrored", p.Mirrored)
	for i, s := range p.Steps {
		e.put(fmt.Sprintf("%ssteps.%d.", path, i), "change", s.Change, "on", s.On, "value", s.Value, "unit", s.Unit,
			"beyond_range", s.Beyond, "instruction", s.Instruction)
	}
	e.state(t, path+"after.0.", "", p.Survey, p.After[0])
	e.breaches(path+"breaks", p.Breaks)
	e.room(path+"least_room.", p.Tightest)
	for i, n := range p.Nudges {
		e.put(fmt.Sprintf("%shalf_a_step.%d.", path, i), "change", n.Change, "on", n.On, "by", n.By)
		e.room(fmt.Sprintf("%shalf_a_step.%d.least_room.", path, i), n.Tightest)
	}
	if a := p.Travel; a == nil {
		e[path+"travel"] = nil
	} else {
		e.put(path+"travel.", "shaft", a.Shaft, "swing_deg", a.Deg, "height", a.Height, "quantity", a.Quantity)
	}
	e.texts(path+"missing_lengths", p.Missing)
	e.texts(path+"notes", r.Notes(p))
}

func (e expected) room(path string, t adjust.Tightest) {
	e.put(path, "pose", t.Pose, "subject", t.Subject, "quantity", t.Quantity, "value", t.Value, "limit", t.Limit, "unit", t.Unit, "margin", t.Margin)
}

func (e expected) breaches(path string, list []adjust.Breach) {
	if len(list) == 0 {
		e[path] = "[]"
	}
	for i, b := range list {
		e[fmt.Sprintf("%s.%d.pose", path, i)] = b.Pose
		e.verdict(fmt.Sprintf("%s.%d.", path, i), b.Verdict)
	}
}

// Every field of felt --json is that of the diagnosis.
func TestFeltDocument(t *testing.T) {
	t.Parallel()
	f := oddFindings(t, Options{})
	felt, err := limits.Diagnose(61.5, oddRPM, 0, f.Survey.Gearing())
	if err != nil {
		t.Fatal(err)
	}
	e := expected{}
	e.put("", "hz", 61.5, "rpm", oddRPM, "answer", felt.Answer, "angles_possible", true)
	for i, hz := range []float64{oddRPM / 60 / 3.31, oddRPM / 30 / 3.31, oddRPM / 60, oddRPM / 30} {
		e.put(fmt.Sprintf("rotations.%d.", i), "name", felt.Candidates[i].Name, "hz", hz, "off", 61.5/hz-1, "fits", i == 3, "possible", false)
	}
	e.hold(t, NewFeltDocument(felt), nil)
}
