package survey

import (
	"bytes"
	_ "embed"
)

//go:embed schema.json
var schema []byte

// Schema returns the JSON Schema (draft 2020-12) of the driveline file, with which
// an editor completes and checks a file while it is written. What several fields
// say together is checked by Read alone.
func Schema() []byte { return bytes.Clone(schema) }
