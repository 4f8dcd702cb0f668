package kinematics

import (
	"strings"
	"testing"
)

// A kind that nobody has written a rule for must not pass as another.
func TestKindWithoutRulePanics(t *testing.T) {
	t.Parallel()
	defer func() {
		if text, _ := recover().(string); !strings.Contains(text, `no rule for a joint of kind "rubber"`) {
			t.Errorf("got panic %q, want one that names the kind", text)
		}
	}()
	Joint{Kind: "rubber"}.rule()
}

func TestEveryRuleIsComplete(t *testing.T) {
	t.Parallel()
	if len(Kinds) != len(rules) {
		t.Errorf("%d kinds and %d rules", len(Kinds), len(rules))
	}
	for _, r := range rules {
		if r.kind == "" || r.turn == nil || r.term == nil || r.straight == 0 || r.couple == nil {
			t.Errorf("got %+v, want every field", r)
		}
	}
}
