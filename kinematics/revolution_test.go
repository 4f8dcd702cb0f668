package kinematics_test

import (
	"math"
	"slices"
	"strings"
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
	if _, err := got.Orders(1, 8); err == nil || !strings.Contains(err.Error(), "shaft 2") {
		t.Errorf("orders without a lead: got error %v, want one that names shaft 2", err)
	}
}

// One joint has closed forms for everything that is integrated. With
// q = tan²(β/2) the ratio is 1 + 2·Σ(−q)^i·cos(2iφ), so
//
//	RMS deviation = √(2q²/(1 − q²)),  RMS acceleration = √(8·Σ i²·q^{2i})
func TestIntegralsOfOneJoint(t *testing.T) {
	t.Parallel()
	for _, beta := range []float64{0, 0.1, 3, 12, 25, 45, 70} {
		m, err := kinematics.SingleJoint(beta*deg, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		got := sample(t, 720, []kinematics.Motion{m}).Integrals(0)
		q := math.Pow(math.Tan(beta*deg/2), 2)
		rms, accel := math.Sqrt(2*q*q/(1-q*q)), 0.0
		for i := 1; i < 400; i++ {
			accel += 8 * math.Pow(float64(i)*math.Pow(q, float64(i)), 2)
		}
		// Rounding of 720 ratios near 1 and of accelerations up to 50.
		const tol = 1e-14
		if math.Abs(got.MeanRatio-1) > tol {
			t.Errorf("%v deg: mean ratio %v, want 1", beta, got.MeanRatio)
		}
		if math.Abs(got.AccelClosure) > 10*tol {
			t.Errorf("%v deg: acceleration integrates to %v, want 0", beta, got.AccelClosure)
		}
		if math.Abs(got.RMSDeviation-rms) > tol*(1+rms) {
			t.Errorf("%v deg: RMS deviation %v, want %v", beta, got.RMSDeviation, rms)
		}
		if want := math.Sqrt(accel); math.Abs(got.RMSAccel-want) > tol*(1+want) {
			t.Errorf("%v deg: RMS acceleration %v, want %v", beta, got.RMSAccel, want)
		}
	}
}

// The lead of one joint is the series Σ(−1)^i·(1/i)·tan^{2i}(β/2)·sin(2iφ).
func TestOrdersOfOneJoint(t *testing.T) {
	t.Parallel()
	for _, n := range []int{64, 360, 720} {
		for _, beta := range []float64{0.5, 8, 25} {
			const azimuth = 0.4
			m, err := kinematics.SingleJoint(beta*deg, azimuth)
			if err != nil {
				t.Fatal(err)
			}
			orders, err := sample(t, n, []kinematics.Motion{m}).Orders(0, 8)
			if err != nil {
				t.Fatal(err)
			}
			for i, o := range orders {
				m := float64(2 * (i + 1))
				lead := 2 / m * math.Pow(math.Tan(beta*deg/2), m)
				// Rounding of the transform: some 1e-17 of leads below 0.05 and
				// 1e-16 of ratios about 1.
				if math.Abs(o.Lead-lead) > 1e-16 || math.Abs(o.Speed-m*lead) > 1e-15 || math.Abs(o.Accel-m*m*lead) > 1e-15 {
					t.Errorf("n = %d, %v deg, order %d: got %v %v %v, want %v times 1, m, m²", n, beta, o.Number, o.Lead, o.Speed, o.Accel, lead)
				}
				if lead < 1e-10 {
					continue // its phase is rounding already
				}
				// (−1)^i·sin(2i(θ−μ)) as amplitude·cos(mθ − phase).
				want := m*azimuth + math.Pi/2 + float64(i+1)*math.Pi
				if math.Abs(math.Remainder(o.Phase-want, 2*math.Pi)) > 1e-16/lead {
					t.Errorf("n = %d, %v deg, order %d: phase %v, want %v", n, beta, o.Number, o.Phase, want)
				}
			}
		}
	}
}

func TestOrdersRefusesOrdersBeyondTheSteps(t *testing.T) {
	t.Parallel()
	r := sample(t, 24, mustNew(t, inPlane(0, 5), nil).Driving(nil))
	for _, highest := range []int{-2, 0, 12, 100} {
		if _, err := r.Orders(1, highest); err == nil {
			t.Errorf("highest order %d of 24 positions: got no error", highest)
		}
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
