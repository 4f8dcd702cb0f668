package main

import (
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestEveryNumberIsDefined holds examples/NUMBERS.md against the golden outputs: every
// column and key in them is defined there, and each that is defined occurs.
func TestEveryNumberIsDefined(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile(absolute(t, "examples/NUMBERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	met := map[string]bool{}
	for _, key := range definedKeys(string(text)) {
		if _, twice := met[key]; twice {
			t.Errorf("%s is defined twice", key)
		}
		met[key] = false
	}
	for _, key := range printedKeys(t) {
		if _, defined := met[key]; !defined {
			t.Errorf("%s is printed and not defined", key)
		}
		met[key] = true
	}
	for key, met := range met {
		if !met {
			t.Errorf("%s is defined and never printed", key)
		}
	}
}

var backticked = regexp.MustCompile("`([^`]+)`")

// definedKeys returns the keys that the page defines, such as "check motion.shaft": the
// command, the objects that the line before a table names, and what is quoted in the
// first column of the table.
func definedKeys(text string) []string {
	var keys, places []string
	for line := range strings.Lines(text) {
		switch {
		case strings.HasPrefix(line, "Where: "):
			places = nil
			command := ""
			for _, m := range backticked.FindAllStringSubmatch(line, -1) {
				switch m[1] {
				case "series", "sweep", "check", "adjust":
					command = m[1] + " "
				case ".":
					places = append(places, command)
				default:
					places = append(places, command+m[1]+".")
				}
			}
		case strings.HasPrefix(line, "| `"):
			column, _, _ := strings.Cut(line[1:], "|")
			for _, m := range backticked.FindAllStringSubmatch(column, -1) {
				for _, place := range places {
					keys = append(keys, place+m[1])
				}
			}
		}
	}
	return keys
}

// printedKeys returns the keys of all documents among the golden outputs.
func printedKeys(t *testing.T) []string {
	t.Helper()
	var keys []string
	err := filepath.WalkDir(filepath.Join(root, goldens), func(path string, entry fs.DirEntry, err error) error {
		if err != nil || filepath.Ext(path) != ".txt" {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		line, out, _ := strings.Cut(string(text), "\n")
		out, _, _ = strings.Cut(out, "--- ") // remarks and what was written
		switch command := strings.Fields(line)[2]; {
		case strings.Contains(line, "--help") || out == "":
		case command == "series" || command == "sweep":
			head, _, _ := strings.Cut(out, "\n")
			keys = append(keys, columnKeys(command, head, strings.Count(line, "--vary"))...)
		case strings.Contains(line, "--json") && (command == "check" || command == "adjust"):
			var document map[string]any
			if err := json.Unmarshal([]byte(out), &document); err != nil {
				t.Errorf("%s: %v", path, err)
			}
			keys = appendKeys(keys, command+" ", document)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return keys
}

var (
	counted   = regexp.MustCompile(`^(shaft|bearing)\d+_`)
	bracketed = regexp.MustCompile(`\(.*\)$`)
)

// columnKeys returns the columns in the head of a table, but for those of what is
// varied, without their shafts and joints.
func columnKeys(command, head string, varied int) []string {
	var keys []string
	for _, column := range strings.Split(head, ",")[varied:] {
		column = counted.ReplaceAllString(column, "${1}K_")
		keys = append(keys, command+" "+bracketed.ReplaceAllString(column, ""))
	}
	return keys
}

// appendKeys adds the keys of an object and of all that are in it.
func appendKeys(keys []string, under string, v any) []string {
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			keys = append(keys, under+key)
			keys = appendKeys(keys, under+key+".", inner)
		}
	case []any:
		for _, inner := range v {
			keys = appendKeys(keys, under, inner)
		}
	}
	return keys
}
