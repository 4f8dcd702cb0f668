package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"halfturn/kinematics/limits"
)

// writeVerdicts prints the verdicts, those by the same limit together, with the
// sources of the limits below and then the remarks.
func writeVerdicts(w io.Writer, j *limits.Judgement) {
	if len(j.Verdicts) > 0 {
		fmt.Fprintf(w, "\nVerdicts by the set %q (in brackets: %.0f %% coverage)\n", j.Set.Name, 100*limits.Coverage)
	}
	var bases []string
	var t table
	for i, v := range j.Verdicts {
		if !slices.Contains(bases, v.Basis) {
			bases = append(bases, v.Basis)
		}
		if i == 0 || v.Name != j.Verdicts[i-1].Name {
			t = append(t, []string{fmt.Sprintf("%s: %s %s [%d]", v.Quantity, v.Sense, bound(v), slices.Index(bases, v.Basis)+1)})
		}
		t = append(t, []string{"  " + brief(v.Subject, 37), short(v.Value), interval(v), verdictWord(v.Outcome)})
	}
	t.write(w)
	for i, basis := range bases {
		fmt.Fprint(w, wrap(fmt.Sprintf("[%d] %s", i+1, basis), "  "))
	}
	for _, v := range j.Verdicts {
		if v.Settle != nil {
			fmt.Fprint(w, wrap(fmt.Sprintf("To settle the %s of %s: %s.", v.Quantity, v.Subject, v.Settle), "  "))
		}
	}
	for _, remark := range j.Remarks {
		fmt.Fprint(w, wrap("- "+remark, "  "))
	}
}

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

// bound prints the limit of a verdict with no more digits than it has.
func bound(v limits.Verdict) string {
	if v.Unit == "deg" {
		return fmt.Sprintf("%.4g°", v.Limit)
	}
	return strings.TrimSpace(fmt.Sprintf("%.5g %s", v.Limit, v.Unit))
}

// writeCrossings prints the lowest speed at which each kind of limit is reached.
func writeCrossings(w io.Writer, j *limits.Judgement) {
	if len(j.Crossings) == 0 {
		return
	}
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
		row := []string{brief(x.Quantity, 30), brief(x.Subject, nameWidth), speedFrom(x.RPM)}
		if road {
			row = append(row, speedFrom(x.KMH), speedFrom(x.MPH))
		}
		t = append(t, row)
	}
	fmt.Fprintln(w, "\nSpeeds at which limits are reached")
	t.write(w)
}

// speedFrom prints the speed from which a limit is broken.
func speedFrom(v float64) string {
	if v == 0 {
		return "any"
	}
	return fmt.Sprintf("%.0f", v)
}
