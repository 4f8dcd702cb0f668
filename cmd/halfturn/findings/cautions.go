package findings

// Cautions are shown wherever somebody may act on the result.
const Cautions = `Before you measure or change anything: engine off, gear in neutral, nothing
turning; wheels chocked; the vehicle on rated stands on firm level ground with
the suspension at ride height, and never under a vehicle on a jack alone. Mark
yokes and shafts before you part them. Torque fasteners as the maker says. The
maker's specification and local rules overrule this program, and a qualified
person decides.

The model knows rigid shafts and ideal joints only. It leaves out joint play,
bending, unbalance, rubber couplings and mounts, and torsional resonance.
`

// ShortCaution ends the output of what somebody may act on.
const ShortCaution = "Engine off, wheels chocked, rated stands, ride height. The maker's specification overrules this; a qualified person decides. See halfturn --help."
