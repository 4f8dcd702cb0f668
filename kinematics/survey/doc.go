// Package survey is a driveline as measured: the driveline file, read strictly,
// and the step from its degrees, millimetres and inches to the exact model of
// package kinematics.
//
// # The file
//
// A driveline file is one JSON object (RFC 8259, UTF-8, at most 1 MiB):
//
//	{
//	  "name": "Two-piece rear driveline",
//	  "rpm": 2800,
//	  "reading_error_deg": 0.1,
//	  "shafts": [
//	    {"name": "gearbox output", "down": 3.4},
//	    {"name": "front shaft", "down": 3.8, "length": 940},
//	    {"name": "rear shaft", "down": [6.1, 6.0, 6.2], "right": 1.2, "length": 1270},
//	    {"name": "axle pinion", "incline": 4}
//	  ]
//	}
//
// Shafts stand in the order of the power flow, and between each two of them a
// joint. Stand at the driving end and look along the flow: down is positive,
// right is positive, clockwise is positive. A slope is a side-view slope, "down",
// or what an inclinometer reads, "incline", or what it reads before and after it is
// "turned" end for end; a heading is an angle in the top view, "right", or the run
// sideways by tape, "offset". Each is one reading or a list of them. Where every
// joint has a position, "at", the shafts between two joints take their direction
// from the positions and have no slopes.
//
// Not entered is not zero: a shaft without a slope or positions is refused. A
// heading or a phase that is not entered counts as 0 but can be told from an
// entered one.
//
// The other fields are described in the [Schema], which an editor can use.
//
// # Faults
//
// Nothing is guessed. Unknown, misspelt and repeated fields, wrong types, numbers
// out of range and drivelines that cannot be are faults, and all that can be
// found are reported in one go, each as a [Fault] with its place in the file.
package survey
