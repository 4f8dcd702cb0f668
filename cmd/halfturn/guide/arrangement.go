package guide

import "halfturn/kinematics"

// Arrangement is a driveline of which nothing is known yet but its parts.
type Arrangement struct {
	ID, Name string
	About    string // how to tell it, one line
	Shafts   []string
	Joints   []Joint
}

// Joint is a joint of an Arrangement.
type Joint struct {
	Name string
	Kind kinematics.Kind
}

// Arrangements are those that are guided through.
var Arrangements = []Arrangement{
	{
		"one-piece", "One piece", "one shaft from the gearbox to the axle, a joint at each end",
		[]string{"gearbox output", "propeller shaft", "axle pinion"},
		[]Joint{{"front joint", kinematics.Cardan}, {"rear joint", kinematics.Cardan}},
	},
	{
		"two-piece", "Two pieces", "two shafts with a centre bearing, three joints",
		[]string{"gearbox output", "front shaft", "rear shaft", "axle pinion"},
		[]Joint{{"front joint", kinematics.Cardan}, {"centre joint", kinematics.Cardan}, {"rear joint", kinematics.Cardan}},
	},
	{
		"three-piece", "Three pieces", "three shafts with two bearings, four joints",
		[]string{"gearbox output", "front shaft", "middle shaft", "rear shaft", "axle pinion"},
		[]Joint{
			{"front joint", kinematics.Cardan}, {"second joint", kinematics.Cardan},
			{"third joint", kinematics.Cardan}, {"rear joint", kinematics.Cardan},
		},
	},
	{
		"single-joint", "Single joint", "two shafts and the one joint between them, as in a steering column",
		[]string{"driving shaft", "driven shaft"},
		[]Joint{{"joint", kinematics.Cardan}},
	},
	{
		"double-cardan", "Double-cardan at the transfer case", "two crosses in one yoke at the transfer case, one at the axle",
		[]string{"transfer case output", "propeller shaft", "axle pinion"},
		[]Joint{{"double joint", kinematics.DoubleCardan}, {"axle joint", kinematics.Cardan}},
	},
}

// File returns the arrangement as the tree of a driveline file, in which every
// reading is still missing.
func (a Arrangement) File() map[string]any {
	var shafts, joints []any
	for _, name := range a.Shafts {
		shafts = append(shafts, map[string]any{"name": name})
	}
	for _, j := range a.Joints {
		joint := map[string]any{"name": j.Name}
		if j.Kind != kinematics.Cardan {
			joint["kind"] = string(j.Kind)
		}
		joints = append(joints, joint)
	}
	return map[string]any{"shafts": shafts, "joints": joints}
}
