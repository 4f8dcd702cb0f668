package kinematics_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/kinematics"
)

// benchmarkedJoints are the lengths of chain that are timed.
var benchmarkedJoints = []int{1, 3, 8}

// positions in the turn that is timed.
const positions = 720

// BenchmarkRevolution times lead, ratio and acceleration of every shaft behind a
// joint over a turn, into buffers that are there; without lead, the ratio and
// acceleration only.
func BenchmarkRevolution(b *testing.B) {
	for _, lead := range []bool{true, false} {
		for _, joints := range benchmarkedJoints {
			b.Run(fmt.Sprintf("lead=%v/joints=%d", lead, joints), func(b *testing.B) {
				motions := mustNew(b, uneven(joints), nil).Driving(nil)[1:]
				r := sample(b, positions, motions)
				for k := range r.Shafts {
					if !lead {
						r.Shafts[k].Lead = nil
					}
				}
				b.ReportAllocs()
				for b.Loop() {
					r.Sample(motions)
				}
				reportPerPosition(b, joints)
			})
		}
	}
}

// BenchmarkBareLoop is what BenchmarkRevolution is measured against: the least
// arithmetic that gives ratio and acceleration of as many joints at as many
// positions, without a trigonometric function and without a lead.
func BenchmarkBareLoop(b *testing.B) {
	sin, cos := make([]float64, positions), make([]float64, positions)
	for i := range positions {
		sin[i], cos[i] = math.Sincos(2 * math.Pi * float64(i) / positions)
	}
	for _, joints := range benchmarkedJoints {
		b.Run(fmt.Sprintf("joints=%d", joints), func(b *testing.B) {
			ratio, accel := make([][]float64, joints), make([][]float64, joints)
			for k := range joints {
				ratio[k], accel[k] = make([]float64, positions), make([]float64, positions)
			}
			for b.Loop() {
				for k := range joints {
					bareLoop(ratio[k], accel[k], sin, cos, 0.1+0.05*float64(k), 0.3*float64(k))
				}
			}
			reportPerPosition(b, joints)
		})
	}
}

func bareLoop(ratio, accel, sin, cos []float64, beta, azimuth float64) {
	sinMu, cosMu := math.Sincos(azimuth)
	cosBeta := math.Cos(beta)
	square := cosBeta * cosBeta
	for i := range ratio {
		s, c := sin[i]*cosMu-cos[i]*sinMu, cos[i]*cosMu+sin[i]*sinMu
		slow := 1 / (c*c + square*s*s)
		ratio[i] = cosBeta * slow
		accel[i] = 2 * (1 - square) * s * c * ratio[i] * slow
	}
}

// BenchmarkOrders times orders 2 to 8 of every shaft behind a joint.
func BenchmarkOrders(b *testing.B) {
	for _, joints := range benchmarkedJoints {
		b.Run(fmt.Sprintf("joints=%d", joints), func(b *testing.B) {
			motions := mustNew(b, uneven(joints), nil).Driving(nil)[1:]
			for b.Loop() {
				for _, m := range motions {
					m.Orders(8)
				}
			}
		})
	}
}

// BenchmarkCheck times everything that can be said of a driveline, from its
// slopes on.
func BenchmarkCheck(b *testing.B) {
	for _, joints := range benchmarkedJoints {
		b.Run(fmt.Sprintf("joints=%d", joints), func(b *testing.B) {
			shafts := uneven(joints)
			for b.Loop() {
				mustNew(b, shafts, nil).Analyse()
			}
		})
	}
}

// BenchmarkBearingSwing times what torque does to the centre bearings.
func BenchmarkBearingSwing(b *testing.B) {
	for _, joints := range benchmarkedJoints[1:] {
		b.Run(fmt.Sprintf("joints=%d", joints), func(b *testing.B) {
			d := mustNew(b, uneven(joints), nil)
			supports, _ := supported(rand.New(rand.NewPCG(1, 1)), joints+1)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := d.BearingSwing(1, supports); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// uneven returns the shafts of a chain in space whose joints do not cancel.
func uneven(joints int) []kinematics.Shaft {
	shafts := make([]kinematics.Shaft, joints+1)
	for k := range shafts {
		down, right := float64(k%3)*7, float64(k*5%7)*3
		shafts[k].Axis = kinematics.AxisFromSlopes(down*deg, right*deg)
		if k > 0 && k < joints {
			shafts[k].Phase = 0.3 * float64(k)
		}
	}
	return shafts
}

func reportPerPosition(b *testing.B, joints int) {
	each := float64(b.Elapsed().Nanoseconds()) / float64(b.N*joints*positions)
	b.ReportMetric(each, "ns/joint/position")
}
