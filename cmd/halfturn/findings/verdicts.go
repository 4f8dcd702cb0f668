package findings

import (
	"fmt"
	"slices"
	"strings"

	"halfturn/cmd/halfturn/text"
	"halfturn/kinematics/limits"
)

// Verdicts is the table of the verdicts, those by the same limit together below
// what is bounded, by what, and the number of its source in Sources.
func (f *Findings) Verdicts() Table {
	sources := f.Sources()
	return f.grouped(f.Judgement.Verdicts, func(v limits.Verdict) string {
		return fmt.Sprintf(" [%d]", slices.Index(sources, v.Basis)+1)
	})
}

// grouped is the table of verdicts, those by the same limit together below it and what
// cite says of its source.
func (f *Findings) grouped(verdicts []limits.Verdict, cite func(limits.Verdict) string) Table {
	t := Table{Title: fmt.Sprintf("Verdicts by the set %q", f.Judgement.Set.Name), Names: []int{39}}
	if len(f.Judgement.Inputs) > 0 {
		t.Title += fmt.Sprintf(" (in brackets: %.0f %% coverage)", 100*limits.Coverage)
	}
	for i, v := range verdicts {
		if i == 0 || v.LimitName != verdicts[i-1].LimitName {
			t.Add(fmt.Sprintf("%s: %s %s%s", v.Quantity, v.Sense, limits.Bounded(v.Limit, v.Unit), cite(v)))
		}
		t.addVerdict(v.Outcome, "  "+v.Subject, short(v.Value), interval(v))
	}
	return t
}

// mostDoubtful is how many verdicts doubtful shows.
const mostDoubtful = 6

// doubtful is the table of the verdicts that are not within, and of how many there are
// besides.
func (f *Findings) doubtful() Table {
	all := f.Judgement.Verdicts
	doubtful := slices.DeleteFunc(slices.Clone(all), func(v limits.Verdict) bool { return v.Outcome == limits.Within })
	shown := doubtful[:min(len(doubtful), mostDoubtful)]
	t := f.grouped(shown, func(limits.Verdict) string { return "" })
	if len(shown) == 0 {
		return t
	}
	besides := text.Count(len(all)-len(doubtful), "more verdict") + " within"
	if hidden := len(doubtful) - len(shown); hidden > 0 {
		besides = fmt.Sprintf("%d more not within, %d within", hidden, len(all)-len(doubtful))
	}
	t.Add(besides + "; --full has all, with their sources")
	return t
}

// VerdictList is the table of the verdicts for wide media: one to a line.
func (f *Findings) VerdictList() Table {
	t := Table{
		Head:  []string{"limit", "of", "value", "interval", "allowed", "by", "verdict"},
		Names: []int{0, 0},
	}
	sources := f.Sources()
	for _, v := range f.Judgement.Verdicts {
		t.addVerdict(v.Outcome, v.Quantity, v.Subject, short(v.Value), interval(v),
			fmt.Sprintf("%s %s", v.Sense, limits.Bounded(v.Limit, v.Unit)), fmt.Sprintf("[%d]", slices.Index(sources, v.Basis)+1))
	}
	return t
}

// Sources are who prints the limits, in the order of the verdicts.
func (f *Findings) Sources() []string {
	var sources []string
	for _, v := range f.Judgement.Verdicts {
		if !slices.Contains(sources, v.Basis) {
			sources = append(sources, v.Basis)
		}
	}
	return sources
}

// ToSettle says of the verdicts that are too close to call what would settle them,
// those with the same advice together, but for what the answer says already.
func (f *Findings) ToSettle() []string {
	var advice []string
	about := make(map[string][]string)
	for _, v := range f.Judgement.Verdicts {
		if v.Settle == nil || strings.Contains(f.Judgement.Answer, v.Settle.String()) {
			continue
		}
		a := v.Settle.String()
		if about[a] == nil {
			advice = append(advice, a)
		}
		about[a] = append(about[a], v.About())
	}
	for i, a := range advice {
		advice[i] = fmt.Sprintf("%s: %s", strings.Join(about[a], ", "), a)
	}
	return advice
}

// Remarks are what there is to say beside the verdicts.
func (f *Findings) Remarks() []string { return f.Judgement.Remarks }

// interval prints the coverage interval, which need not be centred on the value;
// nothing where no error was given.
func interval(v limits.Verdict) string {
	if v.Uncertainty == 0 {
		return ""
	}
	if v.Low == 0 {
		return fmt.Sprintf("(up to %s)", short(v.High))
	}
	return fmt.Sprintf("(%s to %s)", short(v.Low), short(v.High))
}

// outcomeWord marks what needs attention by capitals, and is short enough for a
// table.
func outcomeWord(o limits.Outcome) string {
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

// Crossings is the table of the lowest speed at which each kind of limit is
// reached.
func (f *Findings) Crossings() Table {
	all := f.Judgement.Crossings
	t := Table{Title: "Speeds at which limits are reached", Head: []string{"limit", "of", "rev/min"}, Names: []int{31, nameWidth}}
	road := slices.ContainsFunc(all, func(x limits.Crossing) bool { return x.KMH > 0 })
	if road {
		t.Head = append(t.Head, "km/h", "mph")
	}
	told := map[string]bool{}
	for _, x := range all {
		if told[x.Quantity] {
			continue
		}
		told[x.Quantity] = true
		row := []string{x.Quantity, x.Subject, speedFrom(x.RPM)}
		if road {
			row = append(row, speedFrom(x.KMH), speedFrom(x.MPH))
		}
		t.Add(row...)
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
