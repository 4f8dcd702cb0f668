package survey

import "bytes"

// Schema returns the JSON Schema (draft 2020-12) of the driveline file, with which
// an editor completes and checks a file while it is written. It is made from the
// table that files are read by; what several fields say together is checked by
// Read alone.
func Schema() []byte {
	root := jsonObject(
		"$schema", "https://json-schema.org/draft/2020-12/schema",
		"title", "halfturn driveline",
		"description", "A chain of shafts and Cardan joints as measured. Stand at the driving end and look along the power flow: down is positive, right is positive, clockwise is positive. Angles are in degrees.")
	root.items = append(root.items, newSurvey().format().schema().items...)
	var b bytes.Buffer
	printNode(&b, root, "", true)
	b.WriteByte('\n')
	return b.Bytes()
}
