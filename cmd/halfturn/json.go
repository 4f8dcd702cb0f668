package main

import "encoding/json"

// writeJSON prints a document for programs.
func writeJSON(c *console, doc any) error {
	enc := json.NewEncoder(c.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(doc)
}
