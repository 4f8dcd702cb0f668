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
	j := f.Judgement
	t := Table{Title: fmt.Sprintf("Verdicts by the set %q", j.Set.Name), Names: []int{39}}
	if len(j.Inputs) > 0 {
		t.Title += fmt.Sprintf(" (in brackets: %.0f %% coverage)", 100*limits.Coverage)
	}
	sources := f.Sources()
	for i, v := range j.Verdicts {
		if i == 0 || v.LimitName != j.Verdicts[i-1].LimitName {
			t.Add(fmt.Sprintf("%s: %s %s [%d]", v.Quantity, v.Sense, limits.Bounded(v.Limit, v.Unit), slices.Index(sources, v.Basis)+1))
		}
		t.addVerdict(v.Outcome, "  "+v.Subject, short(v.Value), interval(v))
	}
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

// Doubtful is the table of the verdicts that are not within, and of how many are.
func (f *Findings) Doubtful() Table {
	t := f.Verdicts()
	var kept []Row
	within := 0
	for i, row := range t.Rows {
		heading := len(row.Cells) == 1
		switch {
		case row.Outcome == limits.Within:
			within++
		case heading:
			group := t.Rows[i+1:]
			if end := slices.IndexFunc(group, func(r Row) bool { return len(r.Cells) == 1 }); end >= 0 {
				group = group[:end]
			}
			if !slices.ContainsFunc(group, func(r Row) bool { return r.Outcome != limits.Within }) {
				continue
			}
			limit, _, _ := strings.Cut(row.Cells[0], " [") // its source is not told
			kept = append(kept, Row{Cells: []string{limit}})
		default:
			kept = append(kept, row)
		}
	}
	if len(kept) > 0 {
		kept = append(kept, Row{Cells: []string{text.Count(within, "more verdict") + " within"}})
	}
	t.Rows = kept
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
