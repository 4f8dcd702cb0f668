package plotting

import (
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/plotter"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
	"halfturn/plotting/page"
)

// judged returns a driveline read from a file, and its judgement, by these limits alone
// if there are any.
func judged(t *testing.T, file string, only map[string]float64) (*Case, *limits.Judgement) {
	t.Helper()
	s, err := survey.Read("a file", strings.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	if only != nil {
		s.Limits = survey.OnlyLimits(only)
	}
	c, err := NewCase(s)
	if err != nil {
		t.Fatal(err)
	}
	j, err := limits.Judge(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	return c, j
}

const (
	measuredVan = `{"name": "a van", "rpm": 1500, "reading_error_deg": 0.1, "limits": {"set": "machinery"},
		"shafts": [{"down": 3}, {"down": 5.5}, {"down": 3.2}], "joints": [{"name": "front joint"}, {"name": "rear joint"}]}`
	unhurriedVan = `{"name": "a van", "limits": {"set": "machinery"},
		"shafts": [{"down": 3}, {"down": 5.5}, {"down": 3.2}], "joints": [{"name": "front joint"}, {"name": "rear joint"}]}`
)

func TestAllowedAngles(t *testing.T) {
	t.Parallel()
	c, j := judged(t, measuredVan, nil)
	f, err := Allowed(c, j)
	if err != nil {
		t.Fatal(err)
	}
	p := f.Rows[0].Panels[0]
	want := j.Set.AnglesOf("", 3000)
	x, y := columns(curve(t, p, "allowed here"))
	for i, rpm := range want.RPM {
		if x[i] != rpm || y[i] != want.Value[i] {
			t.Fatalf("allowed: %v° at %v rev/min, want %v° at %v", y[i], x[i], want.Value[i], rpm)
		}
	}
	var verdicts []limits.Verdict
	for _, v := range j.Verdicts {
		if strings.Contains("front joint, rear joint", v.Subject) && v.LimitName == survey.LimitWorkingAngleMax {
			verdicts = append(verdicts, v)
		}
	}
	reach := p.Layers[len(p.Layers)-1].(page.Drawing).Reach
	if len(verdicts) != 2 || len(reach) != 4 {
		t.Fatalf("%d verdicts on angles and %d ends of intervals drawn, want 2 and 4", len(verdicts), len(reach))
	}
	slices.Reverse(verdicts) // the joints are drawn by rising angle
	for i, v := range verdicts {
		if v.Low >= v.High || reach[2*i] != (plotter.XY{X: 1500, Y: v.Low}) || reach[2*i+1] != (plotter.XY{X: 1500, Y: v.High}) {
			t.Errorf("%s: interval from %v to %v, want that of its verdict, %g° to %g° at 1500 rev/min", v.Subject, reach[2*i], reach[2*i+1], v.Low, v.High)
		}
	}
	svg := drawn(t, f)
	for _, want := range []string{"rear joint, front joint 2.30° to 2.50°", "a van", "with their uncertainty"} {
		if !strings.Contains(svg, want) {
			t.Errorf("figure does not say %q", want)
		}
	}
}

// Of each joint the limit is drawn that its verdict is by, the tightest if there are
// several.
func TestAllowedAnglesByRole(t *testing.T) {
	t.Parallel()
	const here, odd = "allowed here", "allowed for an odd joint"
	for _, test := range []struct {
		name, file string
		curves     []string // of each joint
		says       string
	}{
		{"one joint", `{"rpm": 1000, "shafts": [{"down": 0}, {"down": 10}]}`, []string{here}, "the only Cardan joint"},
		{"a pair", `{"rpm": 1000, "shafts": [{"down": 0}, {"down": 10}, {"down": 0}]}`, []string{here, here}, "to this driveline"},
		{"an odd one", `{"rpm": 1000, "shafts": [{"down": 2, "right": -3}, {"down": 9, "right": 6}, {"down": 17, "right": -8}, {"down": 5, "right": 4}]}`,
			[]string{odd, here, here}, "own limit: 0.5° at most"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			c, j := judged(t, test.file, nil)
			f, err := Allowed(c, j)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(f.Caption, test.says) {
				t.Errorf("caption %q: want it to say %q", f.Caption, test.says)
			}
			for k, name := range test.curves {
				want := math.Inf(1)
				for _, v := range j.Verdicts {
					if v.Subject == c.Joints[k] && v.Sense == limits.AtMost && v.Unit == "deg" {
						want = min(want, v.Limit)
					}
				}
				x, y := columns(curve(t, f.Rows[0].Panels[0], name))
				if at := slices.Index(x, 1000); at < 0 || y[at] != want {
					t.Errorf("%s: %q is not %g° at 1000 rev/min as in its verdict", c.Joints[k], name, want)
				}
			}
			if got, want := strings.Contains(drawn(t, f), "°, odd<"), slices.Contains(test.curves, odd); got != want {
				t.Errorf("an odd joint is named: %v, want %v", got, want)
			}
		})
	}
}

// Without a speed the joints are lines across all speeds, and what is certain has no
// bars.
func TestAllowedAnglesWithoutSpeed(t *testing.T) {
	t.Parallel()
	f, err := Allowed(judged(t, unhurriedVan, nil))
	if err != nil {
		t.Fatal(err)
	}
	rules, label := 0, ""
	for _, layer := range f.Rows[0].Panels[0].Layers {
		if r, ok := layer.(page.Rule); ok {
			rules, label = rules+1, label+r.Label
			if !near(r.At, 2.5, 1e-12) && !near(r.At, 2.3, 1e-12) {
				t.Errorf("rule %q at %g, want at 2.5 or 2.3", r.Label, r.At)
			}
		}
	}
	if want := "rear joint, front joint 2.30° to 2.50°"; rules != 2 || label != want {
		t.Errorf("%d rules with label %q, want one for each joint and %q", rules, label, want)
	}
	if strings.Contains(f.Caption, "Bars") {
		t.Errorf("caption %q tells of bars that are not there", f.Caption)
	}
}

// Limits in print of equal values are one curve; it names the first and counts the
// others.
func TestGrouped(t *testing.T) {
	t.Parallel()
	speeds := []float64{1, 2}
	got := grouped([]limits.Curve{
		{RPM: speeds, Value: []float64{3, 3}, Basis: "First maker, manual p. 3 (figure 4)"},
		{RPM: speeds, Value: []float64{5, 4}, Basis: "Navy table"},
		{RPM: speeds, Value: []float64{3, 3}, Basis: "Second maker"},
		{Basis: "not at these speeds"},
	})
	var names []string
	for _, g := range got {
		names = append(names, g.Basis)
	}
	if got, want := strings.Join(names, "; "), "First maker and 1 more; Navy table"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Limits that end as one carry all their numbers there, and the legend has the names.
func TestPrintedLimitsAreNumbered(t *testing.T) {
	t.Parallel()
	speeds := []float64{1, 2}
	var got []string
	for _, layer := range printedLimits([]limits.Curve{
		{RPM: speeds, Value: []float64{3, 3}, Basis: "First maker"},
		{RPM: speeds, Value: []float64{5, 2}, Basis: "Navy table"},
		{RPM: speeds, Value: []float64{6, 3}, Basis: "Second maker"},
	}) {
		c := layer.(page.Curve)
		got = append(got, c.Name+" ends in "+c.End)
	}
	if want := "1  First maker ends in 1, 3; 2  Navy table ends in 2; 3  Second maker ends in "; strings.Join(got, "; ") != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// However many joints there are, and wherever, no name covers another.
func TestAllowedAnglesOfManyJoints(t *testing.T) {
	t.Parallel()
	slopes := make([][2]float64, 12)
	for k := range slopes {
		slopes[k] = [2]float64{float64(k*k%7) * 1.5, float64(k*5%9) - 4}
	}
	for _, file := range []string{measuredVan, unhurriedVan} {
		_, j := judged(t, file, nil)
		c := newCase(t, 1500, slopes)
		f, err := Allowed(c, j)
		if err != nil {
			t.Fatal(err)
		}
		keepApart(t, inks(t, f))
	}
}

func TestResidual(t *testing.T) {
	t.Parallel()
	limited := func(to float64) map[string]float64 { return map[string]float64{survey.LimitResidualAccel: to} }
	for _, test := range []struct {
		name    string
		limits  map[string]float64
		band    bool
		caption string // begins with this
	}{
		{"crossing shown", limited(120), true, "Limit: 120 rad/s² ("},
		{"crossing beyond", limited(900), true, "Limit: 900 rad/s² ("},
		{"no limit", map[string]float64{}, false, "No limit of the acceleration applies."},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			c, j := judged(t, `{"name": "a van", "rpm": 2000, "reading_error_deg": 0.1, "shafts": [{"down": 0}, {"down": 5}, {"down": 1}]}`, test.limits)
			f, err := Residual(c, j)
			if err != nil {
				t.Fatal(err)
			}
			if !strings.HasPrefix(f.Caption, test.caption) || strings.Contains(f.Caption, "band") != test.band {
				t.Errorf("caption: got %q, want it to begin with %q, with a band: %v", f.Caption, test.caption, test.band)
			}
			p := f.Rows[0].Panels[0]
			// By theory ω²·(5² − 4²)·deg² is left, to 2 %.
			omega := 4000 * math.Pi / 30
			x, y := columns(curve(t, p, "left at the last shaft"))
			if end := y[len(y)-1]; x[len(x)-1] != 4000 || math.Abs(end/(omega*omega*9*math.Pi*math.Pi/180/180)-1) > 0.02 {
				t.Errorf("curve ends at %g rad/s² at %g rev/min", end, x[len(x)-1])
			}
			marked := 0
			for _, layer := range p.Layers {
				if r, ok := layer.(page.Rule); ok && r.Upright && r.At != 2000 { // the present speed
					marked++
					// Half way between two points of the curve it is the limit.
					at := int(r.At / 4000 * 240)
					if !(y[at] <= 120 && 120 <= y[at+1]) {
						t.Errorf("crossing marked at %g rev/min, between %g and %g rad/s²: want 120", r.At, y[at], y[at+1])
					}
				}
			}
			if want := map[string]int{"crossing shown": 1}[test.name]; marked != want {
				t.Errorf("%d crossings marked, want %d", marked, want)
			}
			if svg := drawn(t, f); !strings.Contains(svg, " rad/s² at 2000 rev/min") {
				t.Error("the present state is not named")
			}
			if test.name == "crossing shown" && !strings.Contains(drawn(t, f), ">limit 120 rad/s²<") {
				t.Error("the limit has no value with its unit")
			}
		})
	}
}
