package main

import (
	"strings"
	"testing"

	"halfturn/kinematics/proof"
)

func TestVerify(t *testing.T) {
	t.Parallel()
	code, stdout, stderr := invoke("", "verify")
	if code != exitDone || stderr != "" {
		t.Errorf("got exit %d and remarks %q", code, stderr)
	}
	requireWidth(t, stdout)
	for _, want := range []string{
		"\n  45°, 20° past            S1-09      1.266     1.26611   +1.1e-04  0.0005   [4]\n",
		"\n [4] Universiti Tenaga Nasional,",
		" values agree, 0 are off.\n",
	} {
		if !strings.Contains(stdout, want) {
			t.Errorf("output lacks %q", want)
		}
	}
	if code, _, stderr := invoke("", "verify", "x"); code != exitUsage || !strings.Contains(stderr, "takes no operand") {
		t.Errorf("with an operand: got exit %d and remarks %q", code, stderr)
	}
}

func TestVerifyTellsWhatIsOff(t *testing.T) {
	t.Parallel()
	good := proof.Check{Group: "Ratio", What: "good", Source: "here", Printed: "1.5", Want: 1.5, Ours: 1.52, Tolerance: 0.05}
	bad := proof.Check{Group: "Ratio", What: "bad", Source: "there", Printed: "2", Want: 2, Ours: 3, Tolerance: 0.5, Where: "180°"}
	var out strings.Builder
	err := verify(&out, []proof.Check{good, bad})
	if err == nil || err.Error() != "1 of 2 values are off" {
		t.Errorf("got error %v, want that 1 of 2 values are off", err)
	}
	for _, want := range []string{
		"\nRatio\n  good ",
		"\n! bad ",
		" [2] there\n",
		"! Ratio, bad: ours is 3: want 2 within 0.5; worst at 180°\n",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("output lacks %q:\n%s", want, out.String())
		}
	}
	if !strings.HasSuffix(out.String(), "\n1 values agree, 1 are off.\n") {
		t.Errorf("last line is not the summary:\n%s", out.String())
	}
}
