package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/spf13/pflag"

	"halfturn/cmd/halfturn/text"
)

// flagWidth is how much of a line the names of flags take.
const flagWidth = 26

// flagText lists flags in the order of their declaration, what each does beside
// its name or, if that is long, below it.
func flagText(flags *pflag.FlagSet) string {
	var b strings.Builder
	flags.VisitAll(func(f *pflag.Flag) {
		value, does := pflag.UnquoteUsage(f)
		if f.Value.Type() == "bool" {
			value = ""
		} else if f.DefValue != "" && f.DefValue != "0" && f.DefValue != "[]" {
			does += fmt.Sprintf(" (default %s)", f.DefValue)
		}
		name := "  --" + f.Name
		if f.Shorthand != "" {
			name = fmt.Sprintf("  -%s, --%s", f.Shorthand, f.Name)
		}
		name = strings.TrimRight(name+" "+value, " ")
		if utf8.RuneCountInString(name) > flagWidth-2 {
			b.WriteString(name + "\n")
			name = ""
		}
		b.WriteString(text.Wrap(fmt.Sprintf("%-*s", flagWidth, name), does))
	})
	return b.String()
}
