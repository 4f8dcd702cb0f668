package kinematics_test

import (
	"math"
	"slices"
	"testing"

	"halfturn/kinematics"
)

func sample(t testing.TB, n int, motions []kinematics.Motion) *kinematics.Revolution {
	t.Helper()
	r, err := kinematics.NewRevolution(n)
	if err != nil {
		t.Fatal(err)
	}
	r.Sample(motions)
	return r
}

func TestSampleAgreesWithAt(t *testing.T) {
	t.Parallel()
	shafts := inPlane(2, 30, -5, 20)
	shafts[1].Phase, shafts[2].Phase = 25*deg, -70*deg
	motions := mustNew(t, shafts, nil).Driving(nil)
	for _, n := range []int{96, 97, 98} { // with and without a position at half a turn
		r := sample(t, n, motions)
		for k, m := range motions {
			for i, theta := range r.Theta {
				want := m.At(theta)
				got := kinematics.State{Lead: r.Shafts[k].Lead[i], Ratio: r.Shafts[k].Ratio[i], Accel: r.Shafts[k].Accel[i]}
				// Two ways to the same sine differ by rounding of θ − μ: some 1e-16
				// times the slope of the curves, which stays below 10 here.
				if math.Abs(got.Lead-want.Lead) > 1e-14 || math.Abs(got.Ratio-want.Ratio) > 1e-14 || math.Abs(got.Accel-want.Accel) > 2e-14 {
					t.Fatalf("shaft %d at %v rad, %d positions: got %v, want %v", k+1, theta, n, got, want)
				}
			}
		}
	}
}

// A shaft that turns uniformly has no minus zero that would be printed.
func TestZeroHasNoSign(t *testing.T) {
	t.Parallel()
	track := sample(t, 72, mustNew(t, inPlane(0, 5), nil).Driving(nil)[:1]).Shafts[0]
	for i := range track.Accel {
		if math.Signbit(track.Lead[i]) || math.Signbit(track.Accel[i]) {
			t.Errorf("position %d: got lead %v and acceleration %v, want 0", i, track.Lead[i], track.Accel[i])
		}
	}
}

func TestSampleLeavesOutTheLead(t *testing.T) {
	t.Parallel()
	motions := mustNew(t, inPlane(0, 5, 1), nil).Driving(nil)
	want := sample(t, 72, motions)
	got := sample(t, 72, motions[:2])
	got.Shafts[0].Lead, got.Shafts[1].Lead = nil, nil
	got.Sample(motions[1:])
	if track := got.Shafts[0]; track.Lead != nil || !slices.Equal(track.Ratio, want.Shafts[1].Ratio) || !slices.Equal(track.Accel, want.Shafts[1].Accel) {
		t.Errorf("got %v, want the ratio and acceleration of %v and no lead", track, want.Shafts[1])
	}
}

func TestFewPositions(t *testing.T) {
	t.Parallel()
	m, err := kinematics.SingleJoint(20*deg, 0.3)
	if err != nil {
		t.Fatal(err)
	}
	for n := 1; n <= 12; n++ {
		r := sample(t, n, []kinematics.Motion{m})
		for i, theta := range r.Theta {
			// Rounding of θ − μ, as above.
			if got, want := r.Shafts[0].Ratio[i], m.At(theta).Ratio; math.Abs(got-want) > 1e-15 {
				t.Errorf("position %d of %d: ratio %v, want %v", i, n, got, want)
			}
		}
	}
}

func TestSampleReusesItsBuffers(t *testing.T) {
	motions := mustNew(t, inPlane(0, 5, 1), nil).Driving(nil)
	r := sample(t, 72, motions)
	if n := testing.AllocsPerRun(10, func() { r.Sample(motions) }); n != 0 {
		t.Errorf("got %v allocations, want none", n)
	}
}

func TestExtremesAgreeWithAFineGrid(t *testing.T) {
	t.Parallel()
	for _, beta := range []float64{0.3, 5, 20, 45, 80, 89} {
		m, err := kinematics.SingleJoint(beta*deg, 0.7)
		if err != nil {
			t.Fatal(err)
		}
		const n = 1 << 18
		track := sample(t, n, []kinematics.Motion{m}).Shafts[0]
		for _, v := range []struct {
			name string
			got  float64
			grid []float64
			high float64
		}{
			{"MaxRatio", m.MaxRatio(), track.Ratio, 1},
			{"MinRatio", -m.MinRatio(), track.Ratio, -1},
			{"MaxLead", m.MaxLead(), track.Lead, 1},
			{"PeakAccel", m.PeakAccel(), track.Accel, 1},
		} {
			best := math.Inf(-1)
			for _, x := range v.grid {
				best = math.Max(best, v.high*x)
			}
			// A grid misses a peak of width cos β by (step/width)²/2.
			missed := math.Pow(2*math.Pi/n/math.Cos(beta*deg), 2) * 4
			if best > v.got+1e-15+1e-14*math.Abs(v.got) || best < v.got-math.Abs(v.got)*(missed+1e-14) {
				t.Errorf("%v deg: %s: got %v, the grid has %v", beta, v.name, v.got, best)
			}
		}
		if got, want := m.Nonuniformity(), m.MaxRatio()-m.MinRatio(); math.Abs(got-want) > 1e-15*(1+want) {
			t.Errorf("%v deg: Nonuniformity: got %v, want %v", beta, got, want)
		}
	}
}

// The states of a turn one by one are those of the revolution, with the same zeros.
func TestAtStep(t *testing.T) {
	t.Parallel()
	shafts := inPlane(2, 30, -5, 20)
	shafts[1].Phase = 25 * deg
	motions := mustNew(t, shafts, nil).Driving(nil)
	const n = 24
	r := sample(t, n, motions)
	for k, m := range motions {
		for i := range n {
			got, track := m.AtStep(i, n), r.Shafts[k]
			for _, v := range [][2]float64{{got.Lead, track.Lead[i]}, {got.Ratio, track.Ratio[i]}, {got.Accel, track.Accel[i]}} {
				if math.Abs(v[0]-v[1]) > 1e-15 || v[1] == 0 && v[0] != 0 { // rounding of the same formulas
					t.Errorf("shaft %d, position %d: got %v, want %v", k+1, i, v[0], v[1])
				}
			}
		}
	}
}
