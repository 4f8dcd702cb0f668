package live

import (
	"context"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/findings"
)

// widths are those of a telephone and of a screen.
var widths = []int{360, 1280}

// carried returns what there is to say of the driveline that the link of the page
// carries.
func (p *tab) carried() *findings.Findings {
	p.t.Helper()
	_, fragment, _ := strings.Cut(p.eval(`document.querySelector('#link').href`), "#")
	text, err := base64.RawURLEncoding.DecodeString(fragment)
	must(p.t, err)
	req := new(request)
	must(p.t, json.Unmarshal(text, req))
	f, err := new(answer).find(context.Background(), req, findings.Options{})
	must(p.t, err)
	if f == nil {
		p.t.Fatalf("the driveline is refused: %s", text)
	}
	return f
}

// agrees wants the page to say of its driveline what check --json says, and returns it.
func (p *tab) agrees() *findings.Findings {
	p.t.Helper()
	p.settled()
	f := p.carried()
	doc := f.Document()
	if got := p.text("#answer"); !strings.Contains(got, strings.Join(strings.Fields(doc.Answer), " ")) {
		p.t.Errorf("answer: got %q, want %q in it", got, doc.Answer)
	}
	for k, joint := range doc.Joints {
		want := fmt.Sprintf("%.2f°", joint.WorkingAngleDeg)
		if got := p.text(fmt.Sprintf(`[data-joint="%d"]`, k)); got != want {
			p.t.Errorf("joint %d: got %s, want %s", k, got, want)
		}
	}
	if got := p.eval(`document.querySelectorAll('[data-joint]').length`); got != fmt.Sprint(len(doc.Joints)) {
		p.t.Errorf("got %s angles, want %d", got, len(doc.Joints))
	}
	return f
}

// fits wants nothing wider than the page, controls large enough for a thumb and names
// for all of them.
func (p *tab) fits() {
	p.t.Helper()
	if got := p.eval(`document.documentElement.scrollWidth - innerWidth`); strings.TrimLeft(got, "-0123456789") != "" || got[0] != '-' && got != "0" {
		p.t.Errorf("the page is %s px wider than the window", got)
	}
	small := p.eval(`[...document.querySelectorAll('button, select, input:not([type="radio"]):not([type="checkbox"]), summary, label:has(input)')]
		.map(e => [e, e.getBoundingClientRect()]).filter(([e, r]) => r.width && (r.height < 43.5 || r.width < 43.5))
		.map(([e, r]) => e.outerHTML.slice(0, 80) + ' ' + r.width + '×' + r.height).join('\n')`)
	if small != "" {
		p.t.Errorf("too small for a thumb:\n%s", small)
	}
	var tree struct {
		Nodes []struct {
			Ignored    bool
			Role, Name struct{ Value any }
		}
	}
	p.call("Accessibility.getFullAXTree", map[string]any{}, &tree)
	for _, n := range tree.Nodes {
		switch n.Role.Value {
		case "button", "textbox", "slider", "combobox", "checkbox", "radio", "link", "image", "img":
			if name, _ := n.Name.Value.(string); !n.Ignored && strings.TrimSpace(name) == "" {
				p.t.Errorf("a %v without a name", n.Role.Value)
			}
		}
	}
}

func TestBench(t *testing.T) {
	for _, width := range widths {
		t.Run(fmt.Sprint(width), func(t *testing.T) {
			address := serve(t, testConfig(t, "two-piece.json"))
			p := open(t, address, width, 800)
			p.agrees()
			for _, name := range []string{"views", "speed", "vectors"} {
				p.wait(fmt.Sprintf(`document.querySelector('[data-figure="%s"]:not([data-stale]) svg')`, name))
			}
			p.fits()

			before := p.text(`[data-joint="1"]`)
			p.enter("shafts.2.down", "4,9°")
			f := p.agrees()
			if got := f.Survey.Shafts[2].Slope.Mean(); got != 4.9 {
				t.Errorf("4,9° is read as %v", got)
			}
			if p.text(`[data-joint="1"]`) == before {
				t.Error("the angle stayed as it was")
			}

			// By keyboard: to the slider behind the field, and one step on.
			p.press("Tab")
			p.press("Tab")
			p.press("ArrowRight")
			if got := p.agrees().Survey.Shafts[2].Slope.Mean(); got != 5 {
				t.Errorf("a step of the slider: got %v, want 5", got)
			}
			p.click(`[data-nudge="-1"]`)
			if got := p.agrees().Survey.Shafts[0].Slope.Mean(); got != 3.4 {
				t.Errorf("the button −: got %v, want 3.4", got)
			}
			for range 3 {
				p.click(`[data-do="undo"]`)
				p.settled()
			}
			if got := p.agrees().Survey.Shafts[2].Slope.Mean(); got != 6.1 {
				t.Errorf("undone: got %v, want 6.1", got)
			}
			p.quiet(address)
		})
	}
}

// A refusal stands beside its field, and no old answer beside it.
func TestRefusal(t *testing.T) {
	address := serve(t, testConfig(t, "two-piece.json"))
	p := open(t, address, 360, 800)
	p.settled()
	for text, want := range map[string]string{"ninety": "want degrees", "95": "want a slope between"} {
		p.enter("shafts.1.down", text)
		p.settled()
		if got := p.text("#in-shafts-1-down-fault"); !strings.Contains(got, want) {
			t.Errorf("%s: got %q beside the field, want %q", text, got, want)
		}
		if got := p.eval(`document.activeElement.getAttribute('aria-invalid')`); got != "true" {
			t.Errorf("%s: aria-invalid is %s", text, got)
		}
		if got := p.text("#answer"); strings.Contains(got, "Too close") || p.eval(`document.querySelectorAll('[data-joint], figure').length`) != "0" {
			t.Errorf("%s: an old answer is left: %q", text, got)
		}
	}
	p.enter("shafts.1.down", "3.8")
	p.agrees()
	if got := p.text("#in-shafts-1-down-fault"); got != "" {
		t.Errorf("the fault is still told: %q", got)
	}
	p.quiet(address)
}

func TestPlanTriedOnAndTakenOff(t *testing.T) {
	address := serve(t, testConfig(t, "two-piece.json"))
	p := open(t, address, 1280, 800)
	measured := p.agrees().Document()
	p.wait(`document.querySelector('[data-plan="1"] button')`)
	p.click(`[data-plan="1"] button`)
	tried := p.agrees().Document()
	if tried.SecondOrder.ExactEquivalentAngleDeg == measured.SecondOrder.ExactEquivalentAngleDeg {
		t.Error("the plan changes nothing")
	}
	p.wait(`document.querySelector('#card table') && document.querySelector('[data-figure="correction"] svg')`)
	if got := p.eval(`document.querySelector('[data-plan="1"] button').getAttribute('aria-pressed')`); got != "true" {
		t.Errorf("aria-pressed is %s", got)
	}
	p.click(`[data-plan="1"] button`)
	if got := p.agrees().Document(); fmt.Sprint(got.Joints) != fmt.Sprint(measured.Joints) {
		t.Error("taken off, it is not as measured")
	}
	p.wait(`document.querySelector('#worn').hidden && !document.querySelector('#card table')`)
	p.quiet(address)
}
