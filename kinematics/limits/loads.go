package limits

import (
	"math"

	"halfturn/kinematics"
	"halfturn/kinematics/survey"
)

// loads is what torque does to the centre bearings: at which torque, and how the shafts
// are held.
type loads struct {
	torque   float64 // N·m
	assumed  bool    // none is given
	supports []kinematics.Support
	held     []int // shafts with a centre bearing; nil where a length is missing
}

func loadsOf(s *survey.Survey) loads {
	var l loads
	l.torque, l.assumed = s.Torque()
	l.supports, _ = s.Supports()
	if _, err := kinematics.FreeShaft(l.supports); err == nil {
		l.held = heldIn(l.supports)
	}
	return l
}

// heldIn returns the shafts with a centre bearing.
func heldIn(supports []kinematics.Support) []int {
	var held []int
	for k, s := range supports {
		if s.Held {
			held = append(held, k)
		}
	}
	return held
}

// swings appends the swing of every centre bearing of a driveline; NaN where the
// supports do not fit it.
func (l loads) swings(d *kinematics.Driveline, dst []complex128) []complex128 {
	swings, err := d.BearingSwings(dst, l.torque, l.supports)
	for err != nil && len(swings) < len(l.held) {
		swings = append(swings, complex(math.NaN(), 0))
	}
	return swings
}

// Hold changes how the shafts are held, in metres and with the same bearings: where
// lengths are not those of the survey that the gauge was made for.
func (g *Gauge) Hold(supports []kinematics.Support) { g.loads.supports = supports }

// loadedBearings are those of which the swing can be told at the torque that is given,
// unloadedBearings those of which it can be told for each 100 N·m only.
func loadedBearings(l layout) []part   { return centreBearings(l, false) }
func unloadedBearings(l layout) []part { return centreBearings(l, true) }

func centreBearings(l layout, assumed bool) []part {
	loads := loadsOf(l.Survey)
	if loads.assumed != assumed {
		return nil
	}
	var list []part
	for _, k := range loads.held {
		list = append(list, part{swinging, k})
	}
	return list
}

// noLoads says what is not judged for want of a torque or a length.
func (w *wording) noLoads() []string {
	l := w.gauge.loads
	if !w.gauge.Set.limits(survey.LimitBearingSwing) || len(heldIn(l.supports)) == 0 {
		return nil
	}
	switch {
	case l.assumed:
		return []string{"No torque is given, so the bearing swing is not judged."}
	case l.held == nil:
		return []string{"Not every length between two joints is given, so the bearing swing is not judged."}
	}
	return nil
}
