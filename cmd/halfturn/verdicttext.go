package main

import (
	"fmt"
	"io"
	"slices"

	"halfturn/kinematics/limits"
)

// writeVerdicts prints the verdicts, those by the same limit together, with the
// sources of the limits below and then the remarks.
func writeVerdicts(w io.Writer, j *limits.Judgement) {
	if len(j.Verdicts) > 0 {
		title := fmt.Sprintf("Verdicts by the set %q", j.Set.Name)
		if len(j.Inputs) > 0 {
			title += fmt.Sprintf(" (in brackets: %.0f %% coverage)", 100*limits.Coverage)
		}
		fmt.Fprintln(w, "\n"+title)
	}
	groups, sources := groupVerdicts(j)
	var t table
	for _, g := range groups {
		t = append(t, []string{g.Limit})
		for _, v := range g.Verdicts {
			t = append(t, []string{"  " + brief(v.Subject, 37), short(v.Value), interval(v), verdictWord(v.Outcome)})
		}
	}
	t.write(w)
	writeSources(w, sources)
	for _, advice := range settlements(j) {
		fmt.Fprint(w, wrap("  - ", advice))
	}
	for _, remark := range remarks(j) {
		fmt.Fprint(w, wrap("  - ", remark))
	}
}

// writeSources prints who prints the limits, numbered from 1.
func writeSources(w io.Writer, sources []string) {
	for i, source := range sources {
		fmt.Fprint(w, wrap(fmt.Sprintf("  [%d] ", i+1), source))
	}
}

// verdictGroup holds the verdicts by one limit.
type verdictGroup struct {
	Limit    string // what is bounded, by what, and the number of its source
	Verdicts []limits.Verdict
}

// groupVerdicts returns the verdicts, those by the same limit together, and the
// sources of the limits, of which the first has the number 1.
func groupVerdicts(j *limits.Judgement) (groups []verdictGroup, sources []string) {
	for i, v := range j.Verdicts {
		if !slices.Contains(sources, v.Basis) {
			sources = append(sources, v.Basis)
		}
		if i == 0 || v.Name != j.Verdicts[i-1].Name {
			number := slices.Index(sources, v.Basis) + 1
			groups = append(groups, verdictGroup{Limit: fmt.Sprintf("%s: %s %s [%d]", v.Quantity, v.Sense, limits.Bounded(v.Limit, v.Unit), number)})
		}
		last := &groups[len(groups)-1]
		last.Verdicts = append(last.Verdicts, v)
	}
	return groups, sources
}

// settlements says for each verdict that is too close to call what to measure
// better.
func settlements(j *limits.Judgement) []string {
	var list []string
	for _, v := range j.Verdicts {
		if v.Settle != nil {
			list = append(list, fmt.Sprintf("To settle the %s at %s: %s.", v.Quantity, v.Subject, v.Settle))
		}
	}
	return list
}

// remarks returns what there is to say beside the verdicts.
func remarks(j *limits.Judgement) []string {
	var list []string
	if slices.ContainsFunc(j.Verdicts, belowInterval) {
		list = append(list, "A remainder near zero can hardly be less than it is as measured: its interval lies above it.")
	}
	return append(list, j.Remarks...)
}

// belowInterval reports whether the value as measured is less than nearly all
// that the reading errors could make of it.
func belowInterval(v limits.Verdict) bool { return v.Value < v.Low }

// interval prints the coverage interval, which need not be centred on the value;
// nothing where no error was given.
func interval(v limits.Verdict) string {
	if v.Uncertainty == 0 {
		return ""
	}
	return fmt.Sprintf("(%s to %s)", short(v.Low), short(v.High))
}

// verdictWord marks what needs attention by capitals, and is short enough for a
// table.
func verdictWord(o limits.Outcome) string {
	switch o {
	case limits.Over:
		return "OVER"
	case limits.Under:
		return "UNDER"
	case limits.TooClose:
		return "too close"
	default:
		return string(o)
	}
}

// writeCrossings prints the lowest speed at which each kind of limit is reached.
func writeCrossings(w io.Writer, j *limits.Judgement) {
	if len(j.Crossings) == 0 {
		return
	}
	fmt.Fprintln(w, "\nSpeeds at which limits are reached")
	crossings(j).shortened(31, nameWidth).write(w)
}

// crossings is the table of the lowest speed at which each kind of limit is
// reached.
func crossings(j *limits.Judgement) table {
	road := slices.ContainsFunc(j.Crossings, func(x limits.Crossing) bool { return x.KMH > 0 })
	head := []string{"limit", "of", "rev/min"}
	if road {
		head = append(head, "km/h", "mph")
	}
	t := table{head}
	told := map[string]bool{}
	for _, x := range j.Crossings {
		if told[x.Quantity] {
			continue
		}
		told[x.Quantity] = true
		row := []string{x.Quantity, x.Subject, speedFrom(x.RPM)}
		if road {
			row = append(row, speedFrom(x.KMH), speedFrom(x.MPH))
		}
		t = append(t, row)
	}
	return t
}

// speedFrom prints the speed from which a limit is broken.
func speedFrom(v float64) string {
	if v == 0 {
		return "any"
	}
	return fmt.Sprintf("%.0f", v)
}
