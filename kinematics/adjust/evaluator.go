package adjust

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"halfturn/kinematics"
	"halfturn/kinematics/limits"
	"halfturn/kinematics/survey"
)

// evaluator finds out what a driveline is like after settings, in all its poses
// at once and without allocating. It is for one goroutine at a time.
type evaluator []*evaluated

// evaluated is the driveline in one pose.
type evaluated struct {
	posed
	last     string   // name of the last shaft
	paired   bool     // whether the last two joints are companions
	geometry geometry // before any change
	gauge    *limits.Gauge
	loaded   bool                 // the swing of a bearing is judged
	supports []kinematics.Support // before any change
	held     []kinematics.Support
	shafts   []kinematics.Shaft
	d        *kinematics.Driveline
	driving  []kinematics.Motion
	values   []float64 // of what the gauge judges
	most     []float64 // the largest margin of each in all that makes nothing worse
}

func newEvaluator(poses []posed) (evaluator, error) {
	var e evaluator
	for _, p := range poses {
		d, err := p.survey.Driveline()
		if err != nil {
			return nil, err
		}
		gauge, err := limits.NewGauge(p.survey)
		if err != nil {
			return nil, err
		}
		supports, _ := p.survey.Supports()
		n := d.Len()
		e = append(e, &evaluated{
			posed: p,
			last:  p.survey.Shafts[n-1].Name, paired: slices.Contains(gauge.Roles.Pairs(), [2]int{n - 3, n - 2}),
			geometry: newGeometry(p.survey), shafts: make([]kinematics.Shaft, n), d: d,
			gauge: gauge, most: slices.Repeat([]float64{math.Inf(-1)}, len(gauge.Judged)),
			loaded: slices.ContainsFunc(gauge.Judged, ofBearing), supports: supports, held: slices.Clone(supports),
		})
	}
	return e, nil
}

func ofBearing(j limits.Judged) bool { return j.Limit.Name == survey.LimitBearingSwing }

// set makes the settings; ok is false where they make no driveline.
func (e evaluator) set(settings []setting) (ok bool) {
	for _, p := range e {
		if !p.set(settings) {
			return false
		}
	}
	return true
}

func (p *evaluated) set(settings []setting) (ok bool) {
	p.geometry.moved(p.shafts, settings)
	return p.measure()
}

// measure measures the shafts as they stand.
func (p *evaluated) measure() (ok bool) {
	if p.d.Set(p.shafts) != nil {
		return false
	}
	p.driving = p.d.Driving(p.driving)
	if p.loaded {
		p.hold(p.gauge)
	}
	p.values = p.gauge.Measure(p.d, p.values)
	return true
}

// hold stretches the supports with the shafts as they stand, for a gauge to measure
// by.
func (p *evaluated) hold(g *limits.Gauge) {
	metre := 1000 / p.survey.Units.Millimetres(1)
	for k, before := range p.supports {
		p.held[k] = before
		if p.geometry.known[k] {
			p.held[k] = before.Stretched(r3.Norm(p.shafts[k].Axis) / metre)
		}
	}
	g.Hold(p.held)
}

// swing returns the greatest swing of the force on any centre bearing, in N for each
// 100 N·m on the first shaft, to what can be told apart; 0 where there is none or a
// length is missing.
func (p *evaluated) swing() float64 {
	const torque, finest = 100, 10 // parts of a N
	p.hold(p.gauge)
	swing, err := p.d.BearingSwing(torque, p.held)
	if err != nil {
		return 0
	}
	return math.Round(swing*finest) / finest
}

// onSprings reports whether the last shaft is taken to be that of an axle on
// springs: where the limits are those of vehicles.
func onSprings(s *survey.Survey) bool { return sprung(s.Limits.Set) }

func sprung(set string) bool { return set != survey.SetMachinery && set != survey.SetSlowHeavy }

// left returns the equivalent angle left at the last shaft, rad.
func (p *evaluated) left() float64 { return p.driving[len(p.driving)-1].Angle() }

// mirrored reports whether the shafts before and behind the last one between two
// joints lean toward each other rather than run parallel: the two joints there
// bend the same way.
func (p *evaluated) mirrored() bool {
	if !p.paired {
		return false
	}
	n := len(p.shafts)
	unit := func(v r3.Vec) r3.Vec { return r3.Scale(1/math.Sqrt(r3.Norm2(v)), v) } // faster than r3.Unit, which allows for overflow
	before, between, behind := unit(p.shafts[n-3].Axis), unit(p.shafts[n-2].Axis), unit(p.shafts[n-1].Axis)
	return r3.Dot(r3.Sub(between, before), r3.Sub(behind, between)) > 0
}

// keep takes note of what settings that make nothing worse have come to.
func (p *evaluated) keep() {
	for k, v := range p.values {
		p.most[k] = max(p.most[k], p.gauge.Judged[k].Limit.Margin(v))
	}
}
