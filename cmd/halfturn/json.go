package main

import "encoding/json"

// writeJSON prints a document for programs.
func writeJSON(c *console, doc any) error {
	enc := json.NewEncoder(c.out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(doc)
}

// mapped returns f of every element; never nil, so that JSON shows an empty list.
func mapped[T, D any](list []T, f func(T) D) []D {
	docs := make([]D, 0, len(list))
	for _, v := range list {
		docs = append(docs, f(v))
	}
	return docs
}
