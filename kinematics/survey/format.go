package survey

import (
	"fmt"
	"slices"

	"halfturn/kinematics"
)

// This file is the format of a driveline file: which fields there are and what
// each may hold by itself. Reading, checking, writing and the suggestion for a
// misspelt name follow these tables; schema.json says the same to editors.

const (
	minShafts = 2
	maxShafts = 64
	maxExtras = 100 // changes, poses
)

var (
	rpmRule         = rule{above(0, MaxRPM), "rpm", fmt.Sprintf("a speed above 0 and at most %d rpm", MaxRPM)}
	slopeRule       = rule{between(-90, 90), "deg", "a slope between -90 and 90 deg"}
	headingRule     = rule{between(-90, 90), "deg", "a heading between -90 and 90 deg"}
	phaseRule       = rule{within(-360, 360), "deg", "a phase from -360 to 360 deg"}
	errorRule       = rule{within(0, 45), "deg", "a half-width from 0 to 45 deg"}
	turnedRule      = rule{between(-90, 90), "deg", "an inclination between -90 and 90 deg"}
	gaugeRule       = rule{within(0, 5), "deg", "a greatest error from 0 to 5 deg"}
	resolutionRule  = rule{above(0, 5), "deg", "a step above 0 and at most 5 deg"}
	torqueRule      = rule{above(0, 1e6), "N·m", "a torque above 0 and at most 1000000 N·m"}
	poseRPMRule     = rule{within(0, MaxRPM), "rpm", fmt.Sprintf("a speed from 0 to %d rpm", MaxRPM)}
	synchronousRule = rule{between(0, 90), "deg", "a bend between 0 and 90 deg"}
	kmhRule         = rule{above(0, 1000), "km/h", "a speed above 0 and at most 1000 km/h"}
	mphRule         = rule{above(0, 1000), "mph", "a speed above 0 and at most 1000 mph"}
	finalDriveRule  = rule{above(0, 1000), "", "a ratio above 0 and at most 1000"}
	limitRule       = rule{above(0, 1e9), "", "a limit above 0 and at most 1e9"}
)

// Rules for lengths in the unit u; none is longer than a kilometre of millimetres.

func lengthRule(u Unit) rule {
	return rule{above(0, 1e6), string(u), "a length above 0 and at most 1000000 " + string(u)}
}

func positionRule(u Unit) rule {
	return rule{within(-1e6, 1e6), string(u), "a position from -1000000 to 1000000 " + string(u)}
}

func bearingRule(u Unit) rule {
	return rule{within(0, 1e6), string(u), "a distance from 0 to 1000000 " + string(u)}
}

func tapeRule(u Unit) rule {
	return rule{within(0, 1000), string(u), "a half-width from 0 to 1000 " + string(u)}
}

// changeRules are for the ends and the steps of a change.
func (s *Survey) changeRules(change string) (end, step rule) {
	size, unit := s.ChangeReach(change), s.ChangeUnit(change)
	return rule{within(-size, size), unit, fmt.Sprintf("a change from %.0f to %.0f %s", -size, size, unit)},
		rule{within(0, size), unit, fmt.Sprintf("a step from 0 (any value) to %.0f %s", size, unit)}
}

func (s *Survey) format() object {
	return object{
		may("$schema", dropped{note{text{new(string), ""}}}), // for editors
		may("name", text{&s.Name, ""}),
		may("note", note{text{&s.Note, ""}}),
		may("units", choice[Unit]{&s.Units, Millimetre, Units}),
		may("rpm", number{&s.RPM, rpmRule}),
		may("torque_nm", number{&s.TorqueNM, torqueRule}),
		may("reading_error_deg", number{&s.ReadingErrorDeg, errorRule}),
		may("gauge_error_deg", number{&s.GaugeErrorDeg, gaugeRule}),
		may("gauge_resolution_deg", number{&s.GaugeResolutionDeg, resolutionRule}),
		may("phase_error_deg", number{&s.PhaseErrorDeg, errorRule}),
		may("tape_error", number{&s.TapeError, tapeRule(s.Units)}),
		must("shafts", list[Shaft]{&s.Shafts, minShafts, maxShafts, s.shaftFormat}),
		may("joints", list[Joint]{&s.Joints, minShafts - 1, maxShafts - 1, s.jointFormat}),
		may("road", optional[Road]{&s.Road, s.roadFormat}),
		may("limits", s.Limits.format()),
		may("adjust", list[Change]{&s.Adjust, 1, maxExtras, s.changeFormat}),
		may("poses", list[Pose]{&s.Poses, 1, maxExtras, s.poseFormat}),
	}
}

func (s *Survey) shaftFormat(i int, sh *Shaft) slot {
	return slices.Concat(
		object{may("name", text{&sh.Name, impliedShaft(i)})},
		s.directionFormat(&sh.Slope, &sh.Heading),
		object{
			may("length", number{&sh.Length, lengthRule(s.Units)}),
			may("bearing", maybe{&sh.Bearing, bearingRule(s.Units)}),
			may("phase", readings{&sh.PhaseDeg, phaseRule}),
		})
}

func (s *Survey) directionFormat(sl *Slope, h *Heading) object {
	return object{
		may("down", method{ByDown, &sl.By, readings{&sl.Deg, slopeRule}}),
		may("incline", method{ByIncline, &sl.By, readings{&sl.Deg, slopeRule}}),
		may("turned", method{ByTurned, &sl.By, readings{&sl.Deg, turnedRule}}),
		may("right", method{ByRight, &h.By, readings{&h.Values, headingRule}}),
		may("offset", method{ByOffset, &h.By, readings{&h.Values, positionRule(s.Units)}}),
	}
}

func (s *Survey) jointFormat(i int, j *Joint) slot {
	return object{
		may("name", text{&j.Name, impliedJoint(i)}),
		may("kind", choice[kinematics.Kind]{&j.Kind, kinematics.Cardan, kinematics.Kinds}),
		may("synchronous_deg", number{&j.SynchronousDeg, synchronousRule}),
		may("at", optional[Point]{&j.At, s.pointFormat}),
		may("companion", names{&j.Companions}),
	}
}

func (s *Survey) pointFormat(p *Point) object {
	return object{
		must("along", number{&p.Along, positionRule(s.Units)}),
		must("right", number{&p.Right, positionRule(s.Units)}),
		must("down", number{&p.Down, positionRule(s.Units)}),
	}
}

func (s *Survey) roadFormat(r *Road) object {
	return object{
		may("speed_kmh", number{&r.SpeedKMH, kmhRule}),
		may("speed_mph", number{&r.SpeedMPH, mphRule}),
		may("tyre", text{&r.Tyre, ""}),
		may("tyre_diameter", number{&r.TyreDiameter, lengthRule(s.Units)}),
		may("rolling_radius", number{&r.RollingRadius, lengthRule(s.Units)}),
		must("final_drive", number{&r.FinalDrive, finalDriveRule}),
	}
}

func (l *Limits) format() object {
	o := object{may("set", choice[string]{&l.Set, "", SetNames})}
	for _, name := range LimitNames {
		o = append(o, may(name, limit{l, name}))
	}
	return o
}

func (s *Survey) changeFormat(_ int, c *Change) slot {
	end, step := s.changeRules(c.Change)
	return object{
		must("change", choice[string]{&c.Change, "", Changes}),
		must("on", text{&c.On, ""}),
		must("from", number{&c.From, end}),
		must("to", number{&c.To, end}),
		may("step", number{&c.Step, step}),
	}
}

func (s *Survey) poseFormat(_ int, p *Pose) slot {
	return object{
		must("name", text{&p.Name, ""}),
		may("kind", choice[PoseKind]{&p.Kind, "", PoseKinds}),
		may("rpm", maybe{&p.RPM, poseRPMRule}),
		may("limits", p.Limits.format()),
		may("shafts", list[PoseShaft]{&p.Shafts, 1, maxShafts, s.poseShaftFormat}),
		may("joints", list[PoseJoint]{&p.Joints, 1, maxShafts - 1, s.poseJointFormat}),
	}
}

func (s *Survey) poseShaftFormat(_ int, sh *PoseShaft) slot {
	return slices.Concat(
		object{must("name", text{&sh.Name, ""})},
		s.directionFormat(&sh.Slope, &sh.Heading))
}

func (s *Survey) poseJointFormat(_ int, j *PoseJoint) slot {
	return object{
		must("name", text{&j.Name, ""}),
		must("at", optional[Point]{&j.At, s.pointFormat}),
	}
}

func impliedShaft(i int) string { return fmt.Sprintf("shaft %d", i+1) }
func impliedJoint(i int) string { return fmt.Sprintf("joint %d", i+1) }
