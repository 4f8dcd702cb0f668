package adjust

import (
	"math"
	"slices"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
)

// stand is the driveline in one pose, before any change.
type stand struct {
	posed
	geometry geometry
	gauge    *limits.Gauge
	// allowance is how far the coverage interval of each judged quantity now
	// reaches from its value toward the limit, in parts of the limit.
	allowance []float64
	// aside are the judged quantities that are not to be brought within their
	// limits, because nothing can.
	aside []bool
}

func newStand(p posed, j *limits.Judgement) (*stand, error) {
	gauge, err := limits.NewGauge(p.survey)
	if err != nil {
		return nil, err
	}
	t := &stand{posed: p, geometry: newGeometry(p.survey), gauge: gauge}
	for _, v := range j.Verdicts {
		toward := v.High - v.Value
		if v.Sense == limits.AtLeast {
			toward = v.Value - v.Low
		}
		t.allowance = append(t.allowance, max(0, toward/v.Limit))
	}
	t.aside = make([]bool, len(t.allowance))
	return t, nil
}

// room is what is left to the limits, over all judged quantities and poses but
// those set aside.
type room struct {
	margin  float64 // the smallest
	guarded float64 // the smallest after the errors of the measurement took theirs
	// bends is the smallest guarded of what the working angles alone decide. No
	// clocking leaves more room than that.
	bends float64
	// excess is how far those set aside are beyond their limits, all together.
	excess float64
}

// impossible is the room of shafts that make no driveline.
var impossible = room{math.Inf(-1), math.Inf(-1), math.Inf(-1), math.Inf(1)}

// bench tries settings on the driveline, in all its poses at once, without
// allocating. It is for one goroutine at a time.
type bench []rig

type rig struct {
	*stand
	gauge  *limits.Gauge // a clone
	d      *kinematics.Driveline
	shafts []kinematics.Shaft
	values []float64
	best   []float64 // margin of each judged quantity in all that was tried
}

func newBench(stands []*stand) (bench, error) {
	b := make(bench, len(stands))
	for i, t := range stands {
		d, err := t.survey.Driveline()
		if err != nil {
			return nil, err
		}
		b[i] = rig{
			stand: t, gauge: t.gauge.Clone(), d: d, shafts: make([]kinematics.Shaft, d.Len()),
			best: slices.Repeat([]float64{math.Inf(-1)}, len(t.allowance)),
		}
	}
	return b, nil
}

// try returns the room that the settings leave.
func (b bench) try(settings []setting) room {
	least := room{math.Inf(1), math.Inf(1), math.Inf(1), 0}
	for i := range b {
		r := &b[i]
		if r.set(settings) != nil {
			return impossible
		}
		for q, v := range r.values {
			limit := &r.gauge.Judged[q].Limit
			m := limit.Margin(v)
			r.best[q] = max(r.best[q], m)
			if r.aside[q] {
				least.excess += max(0, -m)
				continue
			}
			least.margin = min(least.margin, m)
			least.guarded = min(least.guarded, m-r.allowance[q])
			if limit.ByAngles {
				least.bends = min(least.bends, m-r.allowance[q])
			}
		}
	}
	return least
}

// set measures the driveline after the settings.
func (r *rig) set(settings []setting) error {
	r.geometry.moved(r.shafts, settings)
	if err := r.d.Set(r.shafts); err != nil {
		return err
	}
	r.values = r.gauge.Measure(r.d, r.values)
	return nil
}
