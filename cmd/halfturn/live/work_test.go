package live

import (
	"fmt"
	"strings"
	"testing"
)

// measured opens the page at a width and enters the readings of a single joint, with the
// gauge turned once more at the first shaft, up to the answer.
func measured(t *testing.T, address string, width, height int) *tab {
	t.Helper()
	p := open(t, address+"#measure", width, height)
	p.wait(`document.body?.dataset.way`) // the script runs
	p.click(`[data-arrangement="single-joint"]`)
	p.settled()
	p.click(`#joints [data-do="step-next"]`)
	for i, slope := range []string{"3,8", "9"} {
		step := fmt.Sprintf("#shaft-%d-slope ", i)
		p.enter(fmt.Sprintf("shafts.%d.incline", i), slope)
		p.click(step + `input[value="down"]`)
		if i == 0 {
			p.click(step + `.again summary`)
			p.enter("shafts.0.turned", "4,2")
			p.click(step + `.again input[value="down"]`)
		}
		p.click(step + `[data-do="step-next"]`)
	}
	p.wait(`!document.querySelector('#speed').hidden`)
	p.enter("rpm", "2800")
	p.click(`#speed [data-do="step-next"]`)
	for _, step := range []string{"torque", "gauge", "name"} {
		p.click(fmt.Sprintf(`#%s [data-do="skip"]`, step))
	}
	if got := p.agrees().Survey.Shafts[0].Slope.Mean(); got != 4 {
		p.t.Fatalf("3.8° and 4.2°: the slope is %v", got)
	}
	return p
}

// A step that holds a reading offers no way to lose it.
func TestFilledStepIsNotSkipped(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := measured(t, address, 390, 844)
	p.click(`nav [data-way="measure"]`)
	p.settled()
	for _, step := range []string{"name", "gauge", "torque", "speed", "shaft-1-slope"} {
		p.wait(fmt.Sprintf(`!document.querySelector('#%s').hidden`, step))
		offered := p.eval(fmt.Sprintf(`(document.querySelector('#%[1]s [data-do="skip"]')?.getBoundingClientRect().width ?? 0) > 0 ||
			document.querySelector('#%[1]s').innerText.includes('Skip')`, step))
		if filled := step == "speed" || step == "shaft-1-slope"; offered != fmt.Sprint(!filled) {
			t.Errorf("%s: skipping is offered: %s", step, offered)
		}
		p.click(fmt.Sprintf(`#%s [data-do="step-back"]`, step))
	}
	p.wait(`!document.querySelector('#shaft-0-slope').hidden`)
	if got := p.eval(`document.querySelector('#shaft-0-slope .again').open`); got != "true" {
		t.Error("the second reading counts and is folded away")
	}
	p.quiet(address)
}

// Both readings with the gauge turned stand in the field of the bench, and what is typed
// there stands instead of both.
func TestTurnedAtTheBench(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := measured(t, address, 390, 844)
	p.click(`nav [data-way="bench"]`)
	p.agrees()
	const field = `[data-field="shafts.0.turned"]`
	if got := p.eval(fmt.Sprintf(`document.querySelector('%s').value`, field)); got != "3,8; 4,2" {
		t.Errorf("the bench shows %q", got)
	}
	p.enter("shafts.0.turned", "5; 6")
	if got := p.agrees().Survey.Shafts[0].Slope.Mean(); got != 5.5 {
		t.Errorf("typed 5; 6: the slope is %v", got)
	}
	p.click(`nav [data-way="measure"]`)
	p.agrees() // the answer is still open
	p.click(`nav [data-way="measure"]`)
	p.wait(`document.querySelector('[data-field="shafts.0.incline"]')`)
	if got := p.eval(`document.querySelector('[data-field="shafts.0.incline"]').value + ' and ' + document.querySelector('[data-field="shafts.0.turned"]').value`); got != "5 and 6" {
		t.Errorf("measuring shows %s", got)
	}
	p.quiet(address)
}

// A plan is tried on beside the answer; the readings outlast a reload then, too.
func TestPlanWhileMeasuring(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := measured(t, address, 390, 844)
	p.click(`nav [data-way="bench"]`)
	p.agrees()
	p.click(`[data-do="joint-more"]`)
	p.settled()
	p.wait(`document.querySelector('[data-field="shafts.1.down"]')`)
	p.enter("shafts.1.down", "8")
	p.enter("shafts.1.length", "1000")
	p.agrees()
	p.click(`nav [data-way="measure"]`)
	p.settled()
	p.wait(`document.querySelector('[data-plan="1"] button')`)
	p.click(`[data-plan="1"] button`)
	p.wait(`document.querySelector('#card table')`)
	p.settled()
	if got := p.eval(`document.querySelectorAll('.step:not([hidden])').length + document.body.dataset.finished`); got != "0true" {
		t.Errorf("trying a plan on leads away from the answer: %s", got)
	}
	p.call("Page.reload", map[string]any{}, nil)
	p.wait(`document.querySelector('#offer') && !document.querySelector('#offer').hidden`)
	p.click(`[data-do="resume"]`)
	p.wait(`document.querySelector('#card table')`)
	p.click(`#worn button`)
	p.wait(`document.querySelector('#worn').hidden`)
	if got := p.agrees().Survey.Shafts[0].Slope.Mean(); got != 4 {
		t.Errorf("after a reload, taken off: the slope is %v, want 4", got)
	}
	p.quiet(address)
}

// What is entered beside a plan outlasts it; what is entered over it is told.
func TestEditsBesideAPlan(t *testing.T) {
	address := serve(t, testConfig(t, "two-piece.json"))
	p := open(t, address, 1280, 800)
	p.agrees()
	p.wait(`document.querySelector('[data-plan="1"] button')`)
	p.eval(`window.measured = Object.fromEntries([...document.querySelectorAll('[data-field]')].map(f => [f.dataset.field, f.value]))`)
	p.click(`[data-plan="1"] button`)
	p.agrees()
	changed := p.eval(`[...document.querySelectorAll('[data-field]')].find(f => f.value !== window.measured[f.dataset.field]).dataset.field`)
	p.enter("rpm", "3000")
	p.agrees()
	if got := p.text("#worn p"); !strings.HasPrefix(got, "Plan 1 is tried on") {
		t.Errorf("the speed is no part of the plan: %q", got)
	}
	p.enter(changed, "1,5")
	p.agrees()
	if got := p.text("#worn p"); !strings.HasPrefix(got, "Plan 1, changed by hand since, is tried on") {
		t.Errorf("%s was changed: %q", changed, got)
	}
	p.click(`#worn button`)
	p.wait(`document.querySelector('#worn').hidden`)
	f := p.agrees()
	if rpm := f.Survey.ShaftRPM(); rpm != 3000 {
		t.Errorf("taken off, the speed is %v, want 3000", rpm)
	}
	p.quiet(address)
}

// An arrangement that is chosen beside the offer does not take the place of what is
// offered.
func TestOfferOutlastsAnotherDriveline(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := measured(t, address, 390, 844)
	p.call("Page.reload", map[string]any{}, nil)
	p.wait(`document.querySelector('#offer') && !document.querySelector('#offer').hidden`)
	p.click(`[data-arrangement="two-piece"]`)
	p.settled()
	p.call("Page.reload", map[string]any{}, nil)
	p.wait(`document.querySelector('#offer') && !document.querySelector('#offer').hidden`)
	p.click(`[data-do="resume"]`)
	if got := p.agrees().Survey.Shafts[0].Slope.Mean(); got != 4 {
		t.Errorf("gone on with: the slope is %v, want 4", got)
	}
	p.quiet(address)
}

// A class begins with a lesson, and with no question before it.
func TestClassFromNothing(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#bench", 1400, 900)
	p.wait(`document.body?.dataset.way`) // the script runs
	p.click(`nav [data-way="class"]`)
	p.agrees()
	if got := p.eval(`document.querySelector('#choose').hidden`); got != "true" {
		t.Error("the choice of an arrangement stays in the class")
	}
	p.quiet(address)
}

// The question for the direction is to be seen on a telephone, with its two answers.
func TestDirectionIsAskedInSight(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#measure", 360, 740)
	p.wait(`document.body?.dataset.way`) // the script runs
	p.click(`[data-arrangement="one-piece"]`)
	p.settled()
	for _, step := range []string{"joints", "units"} {
		p.click(fmt.Sprintf(`#%s [data-do="skip"]`, step))
	}
	p.enter("shafts.0.incline", "3,9")
	p.settled()
	p.click(`#shaft-0-slope [data-do="step-next"]`)
	got := p.eval(`{
		const box = e => document.querySelector('#shaft-0-slope ' + e).getBoundingClientRect();
		const [asked, words, bar] = ['.fault', '.words', '.move'].map(box);
		asked.height > 0 && words.top >= 0 && asked.bottom <= bar.top && bar.bottom <= innerHeight
	}`)
	if got != "true" {
		t.Error("the question or its answers are out of sight or behind the bar")
	}
	p.quiet(address)
}

// A reading is refused or asked about in the words of the buttons beside it.
func TestDirectionsInWords(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#measure", 390, 844)
	p.wait(`document.body?.dataset.way`) // the script runs
	p.click(`[data-arrangement="single-joint"]`)
	p.settled()
	p.click(`#joints [data-do="step-next"]`)
	const step = "#shaft-0-slope "
	p.click(step + `input[value="down"]`)
	for _, test := range []struct{ text, chosen, told string }{
		{"95", "down", "Then enter 5, rises toward the driven end"},
		{"87", "down", "read on a flange face? Then enter 3, falls toward the driven end"},
		{"−5", "up", ""},
		{"3,9 down", "down", ""},
		{"ninety", "down", `"ninety": want degrees, such as 3.9`},
	} {
		p.enter("shafts.0.incline", test.text)
		p.settled()
		if got := p.eval(fmt.Sprintf(`document.querySelector('%sinput:checked').value`, step)); got != test.chosen {
			t.Errorf("%s: %s is chosen, want %s", test.text, got, test.chosen)
		}
		if got := p.text(step + ".fault"); !strings.Contains(got, test.told) || test.told == "" && got != "" || strings.Contains(got, `down"`) {
			t.Errorf("%s: told %q, want %q", test.text, got, test.told)
		}
	}
	p.click(step + `.again summary`)
	p.enter("shafts.0.turned", "4")
	p.enter("shafts.0.incline", "95")
	p.settled()
	if got := p.eval(`[...document.querySelectorAll('#shaft-0-slope [aria-invalid]')].map(f => f.dataset.field).join()`); got != "shafts.0.incline" {
		t.Errorf("95 and, turned, 4: marked is %q", got)
	}
	p.enter("shafts.0.incline", "−5")
	p.click(step + `input[value="down"]`)
	p.settled()
	if got := p.eval(`document.querySelector('[data-field="shafts.0.incline"]').value`); got != "5" {
		t.Errorf("−5, then falls: the field holds %q", got)
	}
	p.quiet(address)
}

// From the answer every reading can be gone back to, and the page is resumed where it was
// left.
func TestBackToAReading(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := measured(t, address, 390, 844)
	p.click(`#readings summary`)
	if got := p.text("#readings"); !strings.Contains(got, "3,8 down; 4,2 down") {
		t.Errorf("the readings: %q", got)
	}
	p.click(`#readings [data-step="2"]`)
	p.wait(`!document.querySelector('#shaft-1-slope').hidden`)
	p.call("Page.reload", map[string]any{}, nil)
	p.wait(`document.querySelector('#offer') && !document.querySelector('#offer').hidden`)
	p.click(`[data-do="resume"]`)
	p.wait(`document.querySelector('#shaft-1-slope')?.hidden === false`)
	p.quiet(address)
}

// A print says what it is of, that a plan is not measured, and the cautions.
func TestPrint(t *testing.T) {
	address := serve(t, testConfig(t, "two-piece.json"))
	p := open(t, address, 1280, 800)
	p.agrees()
	p.wait(`document.querySelector('[data-plan="1"] button')`)
	p.click(`[data-plan="1"] button`)
	name := p.agrees().Survey.Name
	if got := p.eval(`document.querySelector('#paper').getBoundingClientRect().height`); got != "0" {
		t.Error("the head of a print is on the screen")
	}
	p.call("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil)
	for _, want := range []string{name, "Plan 1 is tried on", "reckoned, not measured", "never under a vehicle on a jack alone"} {
		if got := p.text("#paper"); !strings.Contains(got, want) {
			t.Errorf("no %q in %q", want, got)
		}
	}
	if got := p.eval(`document.querySelector('#paper').getBoundingClientRect().top < document.querySelector('#answer').getBoundingClientRect().top &&
		document.querySelector('#details').getBoundingClientRect().height === 0`); got != "true" {
		t.Error("the head is not first, or folded details are printed")
	}
	p.quiet(address)
}

// A lesson leaves its question to the class, on one screen with the yokes.
func TestLessonAsksFirst(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#class", 1400, 900)
	p.agrees()
	p.wait(`document.querySelector('#frame svg')`)
	shown := `document.querySelector('#answer').getBoundingClientRect().height > 0`
	if p.eval(shown) != "false" || p.text("#status") != "" {
		t.Errorf("the answer stands beside the question, or is told: %q", p.text("#status"))
	}
	for _, part := range []string{`[data-figure]`, `[data-do="play"]`, `#frame svg`, `#theta`} {
		if got := p.eval(fmt.Sprintf(`document.querySelector('%s').getBoundingClientRect().bottom <= innerHeight`, part)); got != "true" {
			t.Errorf("%s is below the screen", part)
		}
	}
	p.click(`#lesson-see summary`)
	p.wait(shown)
	p.press("PageDown")
	p.agrees()
	if p.eval(shown) != "false" {
		t.Error("the next lesson answers at once")
	}
	p.quiet(address)
}

// The link takes the address along, which follows what is entered from then on.
func TestAddressFollows(t *testing.T) {
	address := serve(t, testConfig(t, "two-piece.json"))
	p := open(t, address, 1280, 800)
	p.agrees()
	p.click(`#menu summary`)
	p.click(`#link`)
	p.wait(`location.hash.length > 100 && !document.querySelector('#notice').hidden && !document.querySelector('#menu').open`)
	p.enter("rpm", "3000")
	p.agrees()
	if got := p.eval(`location.href === document.querySelector('#link').href`); got != "true" {
		t.Error("the address holds what was entered before")
	}
	p.call("Page.reload", map[string]any{}, nil)
	if rpm := p.agrees().Survey.ShaftRPM(); rpm != 3000 {
		t.Errorf("by its address: %v rev/min, want 3000", rpm)
	}
	if got := p.eval(`document.querySelector('[data-do="undo"]').disabled`); got != "true" {
		t.Error("there is nothing to undo, and it is offered")
	}
	p.quiet(address)
}

// A choice that has no direction chooses none, and is enough.
func TestChoiceWithoutDirection(t *testing.T) {
	address := serve(t, testConfig(t, ""))
	p := open(t, address+"#measure", 390, 844)
	p.wait(`document.body?.dataset.way`) // the script runs
	p.click(`[data-arrangement="one-piece"]`)
	p.settled()
	for _, step := range []string{"joints", "units"} {
		p.click(fmt.Sprintf(`#%s [data-do="skip"]`, step))
	}
	for i, slope := range []string{"3", "5"} {
		step := fmt.Sprintf("#shaft-%d-slope ", i)
		p.enter(fmt.Sprintf("shafts.%d.incline", i), slope)
		p.click(step + `input[value="down"]`)
		p.settled()
		p.click(step + `[data-do="step-next"]`)
	}
	for _, step := range []string{"length", "sideways"} {
		p.click(fmt.Sprintf(`#shaft-1-%s [data-do="skip"]`, step))
	}
	p.click(`#shaft-1-phase [data-set="90"]`)
	p.settled()
	if got := p.eval(`document.querySelector('#shaft-1-phase input:checked') === null && document.querySelector('#shaft-1-phase [data-set="90"]').ariaPressed`); got != "true" {
		t.Errorf("a quarter turn: chosen is %s", got)
	}
	p.click(`#shaft-1-phase [data-do="step-next"]`)
	p.wait(`!document.querySelector('#shaft-2-slope').hidden`)
	p.quiet(address)
}
