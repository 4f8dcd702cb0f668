// Package scene draws the yokes, crosses and shafts of a driveline in space.
//
// A Row is a run of joints, built of convex solids that turn with the driveline; a View
// projects it, true to scale and without perspective; a Picture puts it on a page. What
// hides what is told by the planes that part solids, so that the order is right for any
// driveline whose parts could be put together.
//
// The unit of length is the distance of an ear from the centre of its cross. The frame
// is that of package kinematics.
package scene
