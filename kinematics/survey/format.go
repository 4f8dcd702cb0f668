package survey

import (
	"fmt"
	"slices"

	"halfturn/kinematics"
)

// This file is the driveline file: one table that says which fields there are,
// what each may hold by itself and what it means. Files are read, checked and
// written by it, misspelt names are guessed from it, and the schema is made of it.

const (
	minShafts   = 2
	maxShafts   = 64
	maxReadings = 100
	maxExtras   = 100 // changes, poses

	// Lengths and positions are in mm or in; none is beyond a kilometre of mm, and
	// a length below a micrometre is none.
	minLength = 1e-3
	maxLength = 1e6
)

func (s *Survey) format() object {
	return object{
		may("$schema", comment{note{new(string)}}, "Address of this schema, for editors."),
		may("name", text{&s.Name, ""}, "Name of the driveline, for headings."),
		may("note", note{&s.Note}, "Free text: where it was measured, by whom, what was felt."),
		may("units", choice[Unit]{&s.Units, Millimetre, Units}, "Unit of every length and position in this file."),
		may("rpm", number{&s.RPM, above(0, MaxRPM, "a speed", "rpm")},
			`Speed of the first shaft in rev/min. Give this or a speed in "road", not both.`),
		may("torque_nm", number{&s.TorqueNM, above(0, 1e6, "a torque", "N·m")},
			"Torque on the first shaft in N·m. Left out: loads are given per 100 N·m."),
		may("reading_error_deg", number{&s.ReadingErrorDeg, within(0, 45, "a half-width", "deg")},
			"Greatest error of placing the gauge once, for a slope or a heading, in degrees either way: 0.1 for a reading that is within ±0.1."),
		may("gauge_error_deg", number{&s.GaugeErrorDeg, within(0, 5, "a half-width", "deg")},
			"Greatest error of the gauge's own zero, in degrees either way: the same in every reading, and gone where the gauge is turned end for end."),
		may("gauge_resolution_deg", number{&s.GaugeResolutionDeg, above(0, 5, "a step", "deg")},
			"Least step that the gauge shows, in degrees."),
		may("phase_error_deg", number{&s.PhaseErrorDeg, within(0, 45, "a half-width", "deg")},
			"Greatest error of a phase, in degrees either way."),
		may("tape_error", number{&s.TapeError, s.lengths(0, 1000, "a half-width")},
			"Greatest error of one coordinate of a joint centre and of an offset, either way, in the unit of lengths."),
		must("shafts", list[Shaft]{&s.Shafts, minShafts, maxShafts, s.shaftFormat},
			"The shafts in the order of the power flow, from the driving shaft (gearbox output) to the driven one (axle pinion)."),
		may("joints", list[Joint]{&s.Joints, minShafts - 1, maxShafts - 1, s.jointFormat},
			"The joints between the shafts, one fewer than there are shafts. Left out: Cardan joints throughout."),
		may("road", optional[Road]{&s.Road, s.roadFormat},
			"What ties the speed of the driveline to the road: at most one speed, exactly one size of the tyre, the final drive."),
		may("limits", s.Limits.format(), "What is acceptable: a set of limits, and single limits that override it. null switches a limit off."),
		may("adjust", list[Change]{&s.Adjust, 1, maxExtras, s.changeFormat}, "What can be changed on the vehicle, and how far."),
		may("poses", list[Pose]{&s.Poses, 1, maxExtras, s.poseFormat}, "The driveline at other ride heights, or at other work."),
	}
}

func (s *Survey) shaftFormat(i int, sh *Shaft) codec {
	return slices.Concat(
		object{may("name", text{&sh.Name, impliedShaft(i)}, "Name of the shaft; left out: shaft 1, shaft 2 … Every shaft has its own.")},
		s.directionFormat(&sh.Slope, &sh.Heading),
		object{
			may("length", number{&sh.Length, s.length},
				"Distance between the joint centres. On the first shaft from the pivot of the engine mounts to the first joint, on the last from the last joint to the centre line of the axle. For corrections and loads, and beside an offset."),
			may("bearing", entered{&sh.Bearing, s.lengths(0, maxLength, "a distance")},
				"Distance of the shaft's centre bearing from its driving-end joint. Only on a shaft between two joints."),
			may("phase", readings(&sh.PhaseDeg, within(-360, 360, "a phase", "deg")),
				"How far the driven-end yoke ears are turned, clockwise, from the driving-end ears, in degrees; one reading or a list. Only on a shaft between two joints. Left out: taken as 0, in phase."),
		})
}

func (s *Survey) directionFormat(sl *Slope, h *Heading) object {
	heading := between(-90, 90, "a heading", "deg")
	offset := s.lengths(-maxLength, maxLength, "a run sideways")
	return append(
		oneOfThese(
			may("down", measured{ByDown, &sl.By, readings(&sl.Deg, slope)},
				"Side-view slope in degrees, positive where the shaft falls toward its driven end; one reading or a list of repeated readings."),
			may("incline", measured{ByIncline, &sl.By, readings(&sl.Deg, slope)},
				"The slope as an inclinometer laid along the shaft reads it, in degrees: tan(incline) = tan(down)·cos(right)."),
			may("turned", measured{ByTurned, &sl.By, list[float64]{(*[]float64)(&sl.Deg), 2, 2, reading(slope)}},
				"The slope as an inclinometer laid along the shaft reads it, then turned end for end: both in degrees, positive where the shaft falls toward its driven end, as read from the same side. Their mean counts."),
		),
		oneOfThese(
			may("right", measured{ByRight, &h.By, readings(&h.Values, heading)},
				"Top-view heading in degrees, positive where the shaft drifts to the right toward its driven end; one reading or a list. Left out, and no offset: taken as straight along."),
			may("offset", measured{ByOffset, &h.By, readings(&h.Values, offset)},
				"Instead of right: how far the driven end stands to the right of the driving end, by tape, in the unit of lengths. Needs the length of the shaft."),
		)...)
}

func (s *Survey) jointFormat(i int, j *Joint) codec {
	return object{
		may("name", text{&j.Name, impliedJoint(i)}, "Name of the joint; left out: joint 1, joint 2 … Every joint has its own."),
		may("kind", choice[kinematics.Kind]{&j.Kind, kinematics.Cardan, kinematics.Kinds}, "How the joint passes rotation on."),
		may("synchronous_deg", number{&j.SynchronousDeg, between(0, 90, "a bend", "deg")},
			"Only on a double-cardan joint: the bend in degrees at which its centring makes it exactly synchronous. Left out: synchronous at every bend."),
		may("at", optional[Point]{&j.At, s.pointFormat},
			"Joint centre, from any fixed origin. Give it for every joint or for none; the shafts between two joints then have no slopes."),
		may("companion", names(&j.Companions),
			"Name of the joint that is meant to cancel this one, or a list of them for a group that cancels as a whole. Left out: found from the chain."),
	}
}

func (s *Survey) pointFormat(p *Point) object {
	position := s.lengths(-maxLength, maxLength, "a position")
	return object{
		must("along", number{&p.Along, position}, "Along the power flow, level."),
		must("right", number{&p.Right, position}, "To the right, level."),
		must("down", number{&p.Down, position}, "Down."),
	}
}

func (s *Survey) roadFormat(r *Road) object {
	return slices.Concat(
		oneOfThese(
			may("speed_kmh", number{&r.SpeedKMH, above(0, 1000, "a speed", "km/h")}, "Road speed in km/h."),
			may("speed_mph", number{&r.SpeedMPH, above(0, 1000, "a speed", "mph")}, "Road speed in miles an hour."),
		),
		oneOfThese(
			must("tyre", tyreSize{text{&r.Tyre, ""}}, "Size of the tyre, such as 235/60R16 or 31x10.5R15."),
			must("tyre_diameter", number{&r.TyreDiameter, s.length}, "Diameter of the unloaded tyre, in the unit of lengths."),
			must("rolling_radius", number{&r.RollingRadius, s.length},
				"Effective radius of the rolling tyre: distance rolled in one turn over 2π, in the unit of lengths."),
		),
		object{must("final_drive", number{&r.FinalDrive, above(0, 1000, "a ratio", "")},
			"Turns of the last shaft for one turn of the wheels, such as 3.73.")})
}

func (l *Limits) format() limitSet {
	o := object{may("set", choice[string]{&l.Set, "", SetNames}, "Name of the set of limits to start from.")}
	for _, row := range limitFields {
		o = append(o, may(row.name, limit{l, row.name}, row.doc))
	}
	return limitSet{o}
}

func (s *Survey) changeFormat(_ int, c *Change) codec {
	upTo := func(lowest float64, what string) rule { // lowest in parts of the reach
		return func() bounds {
			reach := s.ChangeReach(c.Change)
			return within(lowest*reach, reach, what, s.ChangeUnit(c.Change))()
		}
	}
	ends := upTo(-1, "a change")
	return object{
		must("change", choice[string]{&c.Change, "", Changes}, changeDocs()),
		must("on", text{&c.On, ""}, "Name of the shaft or joint that is changed."),
		must("from", number{&c.From, ends}, "Least possible change, in degrees or the unit of lengths; 0 is as measured, negative the other way."),
		must("to", number{&c.To, ends}, "Greatest possible change, not below \"from\"."),
		may("step", number{&c.Step, upTo(0, "a step")},
			"Steps from \"from\" on, such as the thickness of a shim or 360 divided by the teeth of a spline. Left out: the usual step."),
	}
}

func (s *Survey) poseFormat(_ int, p *Pose) codec {
	return object{
		must("name", text{&p.Name, ""}, "Name of the pose, such as full droop or laden."),
		may("kind", choice[PoseKind]{&p.Kind, "", PoseKinds},
			"cruise: driven like this for hours, all limits hold. load: under power or braking, limits on accelerations and greatest angles hold. travel: droop, bump, a tight turn, greatest angles hold."),
		may("rpm", entered{&p.RPM, within(0, MaxRPM, "a speed", "rpm")},
			"Speed of the first shaft in this pose, in rev/min; 0: it stands still. Left out: as in the driveline."),
		may("limits", p.Limits.format(), "Limits of this pose, before those of the driveline."),
		may("shafts", list[PoseShaft]{&p.Shafts, 1, maxShafts, s.poseShaftFormat}, "Shafts whose slope or heading is another."),
		may("joints", list[PoseJoint]{&p.Joints, 1, maxShafts - 1, s.poseJointFormat}, "Joints whose position is another."),
	}
}

func (s *Survey) poseShaftFormat(_ int, sh *PoseShaft) codec {
	return slices.Concat(
		object{must("name", text{&sh.Name, ""}, "Name of the shaft, as above.")},
		s.directionFormat(&sh.Slope, &sh.Heading))
}

func (s *Survey) poseJointFormat(_ int, j *PoseJoint) codec {
	return object{
		must("name", text{&j.Name, ""}, "Name of the joint, as above."),
		must("at", optional[Point]{&j.At, s.pointFormat}, "Its centre in this pose."),
	}
}

func (s *Survey) length() bounds { return s.lengths(minLength, maxLength, "a length")() }

// lengths are within bounds in the unit of lengths, which stands first in the table.
func (s *Survey) lengths(low, high float64, what string) rule {
	return func() bounds { return within(low, high, what, string(s.Units))() }
}

func readings(dst *Readings, r rule) several[float64] {
	return several[float64]{list[float64]{(*[]float64)(dst), 1, maxReadings, reading(r)}, "a number or a list of readings"}
}

func reading(r rule) func(int, *float64) codec {
	return func(_ int, v *float64) codec { return number{v, r} }
}

func names(dst *[]string) several[string] {
	one := func(_ int, v *string) codec { return text{v, ""} }
	return several[string]{list[string]{dst, 1, maxShafts - 2, one}, "a name or a list of names"}
}

func impliedShaft(i int) string { return fmt.Sprintf("shaft %d", i+1) }
func impliedJoint(i int) string { return fmt.Sprintf("joint %d", i+1) }
