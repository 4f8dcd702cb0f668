package adjust

import (
	"slices"
	"strings"
	"testing"
)

func TestParseQuantities(t *testing.T) {
	t.Parallel()
	s := twoPiece()
	got, err := ParseQuantities(s, "working_angle_deg", "margin", "residual_accel_rad_s2(axle pinion)")
	var columns []string
	for _, q := range got {
		columns = append(columns, q.Column())
	}
	want := []string{"working_angle_deg(front joint)", "working_angle_deg(centre joint)", "working_angle_deg(pinion joint)", "margin", "residual_accel_rad_s2(axle pinion)"}
	if !slices.Equal(columns, want) || err != nil {
		t.Errorf("got %q and error %v, want %q", columns, err, want)
	}
	if _, err := ParseQuantities(s, "noise"); err == nil || !strings.Contains(err.Error(), `"noise": want one of margin, working_angle_deg`) {
		t.Errorf("got error %v, want the keys there are", err)
	}
}
