package survey

import (
	"maps"
	"slices"
	"strings"
	"testing"
)

func TestReadLimits(t *testing.T) {
	t.Parallel()
	const rules = `"limits": {"set": "machinery", "odd_joint_max_deg": 0.7, "nonuniformity": null}`
	for _, text := range []string{
		"{" + rules + "}",
		`{"name": "Shop rules", "note": "by the door", ` + rules + "}",
		`{"shafts": [{"down": 1}, {"down": 2}], ` + rules + "}",
	} {
		got, err := ReadLimits("rules.json", strings.NewReader(text))
		if err != nil || got.Set != "machinery" || !maps.Equal(got.Values, map[string]float64{LimitOddJointMax: 0.7}) || !slices.Equal(got.Off, []string{LimitNonuniformity}) {
			t.Errorf("%s: got %+v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		`{"limits": {"odd_joint_max": 1}}`:      `rules.json:1:13: limits.odd_joint_max: unknown field: want "odd_joint_max_deg"`,
		`{"name": "none"}`:                      "limits: missing",
		`{"limit": {}}`:                         `limit: unknown field: want "limits"`,
		`[]`:                                    "want an object",
		`{"limits": {"odd_joint_max_deg": -1}}`: "-1",
		`{"shafts": [{"down": 1}], "limits": {"set": "machinery"}}`: "shafts",
	} {
		if _, err := ReadLimits("rules.json", strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got error %v, want %q", text, err, want)
		}
	}
}
