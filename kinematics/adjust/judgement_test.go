package adjust

import (
	"bytes"
	"encoding/json"
	"os"
	"slices"
	"testing"

	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// scenario is a case of testdata/judgement.json: what a good technician concludes.
type scenario struct {
	Name, Why string
	Driveline json.RawMessage
	Adjust    *struct {
		Only      []string
		LeftMax   float64 `json:"left_max_deg"`
		PartsMax  int     `json:"parts_max"`
		FirstStep float64 `json:"first_step"`
		NoChange  bool    `json:"no_change"`
	}
}

func scenarios(t *testing.T) []scenario {
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

// TestScenarios holds plan 1 to what is asked of it, and every plan of every
// scenario to what is asked of all.
func TestScenarios(t *testing.T) {
	t.Parallel()
	asked := 0
	for _, c := range scenarios(t) {
		s, err := survey.Read(c.Name, bytes.NewReader(c.Driveline))
		if err != nil {
			t.Fatal(err)
		}
		var opts Options
		if c.Adjust != nil {
			asked++
			opts.Only = c.Adjust.Only
		}
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			r := search(t, s, opts)
			checkPlans(t, r)
			switch want := c.Adjust; {
			case want == nil:
			case want.NoChange:
				if !r.Fine || len(r.Plans) > 0 {
					t.Errorf("got fine %v and %d plans, want that nothing needs to be changed", r.Fine, len(r.Plans))
				}
			case len(r.Plans) == 0:
				t.Error("got no plan")
			default:
				p := &r.Plans[0]
				if left := p.After[0].ExactEquivalentDeg; want.LeftMax > 0 && left > want.LeftMax {
					t.Errorf("%v leaves %v deg, want at most %v", p.Steps, left, want.LeftMax)
				}
				if len(p.Steps) > want.PartsMax {
					t.Errorf("%d parts, want at most %d", len(p.Steps), want.PartsMax)
				}
				if got := p.Steps[0].Value; want.FirstStep != 0 && got != want.FirstStep {
					t.Errorf("first step %v, want %v", got, want.FirstStep)
				}
			}
		})
	}
	if asked < 4 {
		t.Errorf("%d scenarios ask for a plan: want 4 to show anything", asked)
	}
}

// checkPlans holds that no plan breaks a limit or makes a broken one noticeably
// worse, and that one which leaves more than there is mends a limit.
func checkPlans(t *testing.T, r *Result) {
	t.Helper()
	for i, p := range r.Plans {
		if r.Fine && i > 0 {
			t.Errorf("plan %d of a driveline that is fine", i+1)
		}
		mended := 0
		for pose, before := range r.Before {
			for k, was := range before.Judgement.Verdicts {
				now := p.After[pose].Judgement.Verdicts[k]
				if now.Margin() < -1e-6 && now.Margin() < min(0, was.Margin())-max(0.02, 0.02/now.Limit) {
					t.Errorf("plan %d, %s: %v of %v, was %v", i+1, now.LimitName, now.Value, now.Limit, was.Value)
				}
				if broken(was.Outcome) && !broken(now.Outcome) {
					mended++
				}
			}
		}
		if left, was := p.After[0].ExactEquivalentDeg, r.Before[0].ExactEquivalentDeg; mended == 0 && left > about(was, aboutDeg) {
			t.Errorf("plan %d mends nothing and leaves %v deg instead of %v", i+1, left, was)
		}
	}
}

// TestTechnician asks of vehicles of real shape, all lengths known, what a
// technician would do about them. They are invented.
func TestTechnician(t *testing.T) {
	t.Parallel()
	onePiece := []float64{650, 1350, 300}
	twoPiece := []float64{680, 940, 1270, 330}
	tests := []struct {
		name    string
		down    []float64
		lengths []float64
		error   float64
		phase   float64
		want    []string // what plan 1 touches; nil: nothing is urged
		value   float64  // of its first step
	}{
		{"the pinion low: turn it up until it is parallel", []float64{3, 6.1, 1.1}, onePiece, 0.05, 0, []string{"wedge"}, 2},
		{"the pinion in line with the shaft: parallel, not mirrored", []float64{3, 5.3, 5.25}, onePiece, 0.05, 0, []string{"wedge"}, -2},
		{"the pair out of match behind a good odd joint", []float64{4.3, 4.6, 1.9, 3}, twoPiece, 0.05, 0, []string{"wedge"}, 1.5},
		{"the same by a gauge that cannot prove the odd joint", []float64{4.3, 4.6, 1.9, 3}, twoPiece, 0.2, 0, []string{"wedge"}, 1.5},
		{"the odd joint dead straight: one shim, though it leaves more", []float64{3, 3, 5, 3}, twoPiece, 0.02, 0, []string{"mount"}, 1},
		{"welded out of phase: back by as much", []float64{3, 7, 3}, onePiece, 0.05, 18, []string{"clocking"}, -18},
		{"the textbook line", []float64{3.9, 4.2, 6.2, 4.2}, twoPiece, 0.05, 0, nil, 0},
		{"all but the odd joint right: the bearing up, the pinion after it", []float64{3, 3.9, 6, 3.9}, twoPiece, 0.05, 0, []string{"wedge", "bearing-height"}, -0.5},
		{"matched, and too steep: the mount down, the pinion after it", []float64{0, 9, 0}, onePiece, 0.05, 0, []string{"wedge", "mount"}, 2},
		{"too steep for anything", []float64{0, 14, 0}, onePiece, 0.05, 0, nil, 0},
		{"half a degree out, felt by nobody", []float64{3, 6, 2.6}, onePiece, 0.05, 0, nil, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			s := &survey.Survey{RPM: 2800, ReadingErrorDeg: tt.error}
			for k, down := range tt.down {
				sh := survey.Shaft{Slope: survey.Down(down), Length: tt.lengths[k]}
				if k == 1 {
					sh.PhaseDeg = survey.Readings{tt.phase}
				}
				s.Shafts = append(s.Shafts, sh)
			}
			r := search(t, s, Options{})
			checkPlans(t, r)
			var touched []string
			for _, p := range r.Plans[:min(1, len(r.Plans))] {
				for _, step := range p.Steps {
					touched = append(touched, step.Change)
				}
			}
			if !slices.Equal(touched, tt.want) || tt.want != nil && r.Plans[0].Steps[0].Value != tt.value {
				t.Errorf("got %v, %q, want %v of %v", touched, r.Answer(), tt.want, tt.value)
			}
			if tt.want != nil && tt.error < 0.1 && r.Plans[0].Outcome != limits.Within {
				t.Errorf("got %s, want within", r.Plans[0].Outcome)
			}
		})
	}
}

// TestBothWays has a pinion that may be turned either way: both are shown, the
// mirrored one second, with what ends it, though it leaves less at this height.
func TestBothWays(t *testing.T) {
	t.Parallel()
	s := onePiece(3, 5.3, 5.25)
	s.RPM = 2600
	r := search(t, s, Options{Only: []string{survey.ChangeWedge}})
	if len(r.Plans) != 2 || r.Plans[0].Mirrored || !r.Plans[1].Mirrored {
		t.Fatalf("got %d plans, want the parallel one and the mirrored one", len(r.Plans))
	}
	parallel, mirrored := &r.Plans[0], &r.Plans[1]
	if parallel.After[0].ExactEquivalentDeg < mirrored.After[0].ExactEquivalentDeg || parallel.Travel != nil {
		t.Errorf("the parallel one leaves %v deg, ended by %+v, the mirrored one %v: the test shows nothing",
			parallel.After[0].ExactEquivalentDeg, parallel.Travel, mirrored.After[0].ExactEquivalentDeg)
	}
	// A shaft that swings by x opens one joint by x and closes the other: the
	// difference, d as it is, grows by 2x until it is 0.5 deg.
	angles := mirrored.After[0].WorkingAngleDeg
	want := (0.5 - max(angles[0]-angles[1], angles[1]-angles[0])) / 2
	if got := mirrored.Travel; got == nil || got.Deg < want || got.Deg > want+0.0501 { // told in twentieths of a degree
		t.Errorf("got %+v, want some %.2f deg", got, want)
	}
	machine := *s
	machine.Limits.Set = survey.SetMachinery
	machine.Limits.Values = map[string]float64{survey.LimitCompanionDifference: 0.5}
	if r := search(t, &machine, Options{Only: []string{survey.ChangeWedge}}); len(r.Plans) != 2 || !r.Plans[0].Mirrored {
		t.Errorf("a machine, which has no springs: got %+v, want first what leaves less", r.Plans)
	}
}
