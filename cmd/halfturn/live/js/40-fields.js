// The fields: texts, sliders, choices.

// placeInputs puts the fields of a way on the page and what is entered into them.
function placeInputs(html) {
	const focused = document.activeElement?.id;
	$('#inputs').innerHTML = html;
	state.file.shafts?.forEach((_, i) => way() === 'measure' ? partTurned(i) : joinTurned(i));
	for (const field of $$('[data-field]')) fillField(field, textOf(field.dataset.field));
	for (const choice of $$('[data-choice]')) choice.value = textOf(choice.dataset.choice) || choice.options[0].value;
	for (const slider of $$('[data-slide]')) {
		const reading = mean(at(state.file, slider.dataset.slide));
		if (reading !== undefined) slider.dataset.base = reading;
	}
	if (focused) document.getElementById(focused)?.focus();
	for (const again of $$('.again')) again.open = $('[data-field]', again).value !== '';
	if (way() === 'measure') placeSteps();
}

// A reading along a shaft and the one with the gauge turned end for end stand in two
// fields of measuring, and in one of the bench.
const pairOf = i => [`shafts.${i}.incline`, `shafts.${i}.turned`];

function partTurned(i) {
	const [along, turned] = pairOf(i);
	const readings = textOf(turned).split(';');
	if (readings.length === 2) Object.assign(state.entered, {[along]: readings[0].trim(), [turned]: readings[1].trim()});
}

function joinTurned(i) {
	const [along, turned] = pairOf(i);
	const [first, second] = [textOf(along), textOf(turned)];
	if (!first || !second || second.includes(';')) return;
	delete state.entered[along];
	state.entered[turned] = `${first}; ${second}`;
}

// fillField parts a text for a field that has buttons for its direction; a narrow field
// without them has a sign instead.
function fillField(field, text) {
	const words = wordsOf(field);
	if (words.length) {
		const own = ownWord(words, text);
		if (own) text = text.replaceAll(' ' + own.value, '').replaceAll(SIGN, '$1');
		const pick = own ?? (undirected(field, text) ? undefined : words[0]);
		for (const w of words) w.checked = w === pick;
	} else if (SIGNED.test(field.dataset.field)) {
		text = text.replace(/ (down|right|clockwise)\b/g, '').replace(/([\d.,]+) (up|left|anticlockwise)\b/g, '−$1');
	}
	field.value = text;
	delete field.dataset.asked;
	markChoice(field);
}

const SIGN = /(^|;)\s*[-−–]\s*/g;

// ownWord returns the direction that a text says by itself, by a word or a sign.
function ownWord(words, text) {
	const said = words.find(w => text.toLowerCase().endsWith(' ' + w.value));
	return said ?? (text.search(SIGN) === 0 ? words[1] : undefined);
}

// choicesOf returns the buttons for values that most have.
const choicesOf = field => $$('[data-set]', field.closest('.reading') ?? field);

const markChoice = field => choicesOf(field).forEach(b => b.setAttribute('aria-pressed', b.dataset.set === field.value));

// undirected reports whether a text needs no direction: none, zero, or one of the
// choices, such as a quarter turn.
function undirected(field, text) {
	return Number(text.replace(',', '.')) === 0 || choicesOf(field).some(b => b.dataset.set === text);
}

// inWords says what is told of a field in the words of its buttons, about what was typed.
function inWords(field, told) {
	const words = wordsOf(field);
	if (!words.length) return told;
	for (const w of words) told = told.replaceAll(` ${w.value}"`, '"').replace(new RegExp(` or [\\d.]+ ${w.value}`), '');
	return told.replace(/enter (-?)([\d.]+) deg/, (_, minus, size) =>
		`enter ${size}, ${words[minus ? 1 : 0].parentElement.textContent.trim()}`);
}

const SIGNED = /\.(down|incline|turned|right|offset|phase)$/;

const wordsOf = field => $$('input[type="radio"]', field.closest('.reading') ?? field);

// read returns what a field says, with its direction at every reading.
function read(field) {
	const text = field.value.trim();
	const words = wordsOf(field);
	const word = words.find(w => w.checked);
	if (!word || text === '' || ownWord(words, text)) return text;
	return text.split(';').map(reading => `${reading.trim()} ${word.value}`).join('; ');
}

const tidy = v => Number(v.toFixed(4));

const mean = value => Array.isArray(value) ? tidy(value.reduce((a, b) => a + b, 0) / value.length) : value;

// fitSliders sets every slider to what is entered. Those of the bench reach to both
// sides of a reading: that of the file, or the one that was typed last.
function fitSliders(file) {
	for (const slider of $$('[data-slide]')) {
		const value = mean(at(file, slider.dataset.slide)) ?? 0;
		const {from, to, base = value} = slider.dataset;
		if (held && slider === document.activeElement) continue;
		let middle = 'around' in slider.dataset ? Number(base) : 0;
		if (value < middle + Number(from) || value > middle + Number(to)) middle = 'around' in slider.dataset ? value : 0;
		if ('around' in slider.dataset) slider.dataset.base = middle;
		slider.min = Math.min(tidy(middle + Number(from)), value);
		slider.max = Math.max(tidy(middle + Number(to)), value);
		slider.value = value;
		slider.setAttribute('aria-valuetext', String(value));
	}
}

// slide moves an angle to a value of its slider.
function slide(slider, value) {
	const text = String(tidy(value));
	slider.setAttribute('aria-valuetext', text);
	$(`[data-field="${slider.dataset.slide}"]`).value = text;
	enter(slider.dataset.slide, text);
}

function nudge(button) {
	const slider = $('[data-slide]', button.parentElement);
	const value = tidy(Number(slider.value) + Number(button.dataset.nudge) * Number(slider.step));
	remember();
	if (value > Number(slider.max)) slider.max = value;
	if (value < Number(slider.min)) slider.min = value;
	slider.value = value;
	slide(slider, value);
}

const inputs = $('#inputs');
let armed = false; // the next change begins something to undo

inputs.addEventListener('submit', event => event.preventDefault());
inputs.addEventListener('focusin', () => { armed = true; });
inputs.addEventListener('change', () => { armed = true; });
inputs.addEventListener('input', event => {
	const target = event.target;
	if (armed) remember();
	armed = false;
	if (target.matches('[data-slide]')) slide(target, Number(target.value));
	else if (target.matches('[data-choice]')) choose(target);
	else if (target.matches('[data-switch]')) switchTo(target);
	else {
		const field = target.matches('[data-field]') ? target : $('[data-field]', target.closest('.reading'));
		const slider = $('[data-slide]', field.parentElement);
		if (slider) delete slider.dataset.base;
		delete field.dataset.asked;
		direct(field, target);
		markChoice(field);
		enter(field.dataset.field, read(field));
	}
});
inputs.addEventListener('pointerdown', event => {
	if (!event.target.matches('[data-slide]')) return;
	held = armed = true;
});
for (const end of ['pointerup', 'pointercancel']) addEventListener(end, () => { if (held) rest(); });
inputs.addEventListener('click', event => {
	const button = event.target.closest('button');
	if (button?.dataset.nudge) nudge(button);
	if (button?.dataset.set) {
		const field = $('[data-field]', button.closest('.reading'));
		remember();
		fillField(field, button.dataset.set);
		enter(field.dataset.field, read(field));
	}
});

// direct lets a text and the buttons for its direction say the same: what was said last.
function direct(field, target) {
	const words = wordsOf(field);
	const own = ownWord(words, field.value.trim());
	if (!own) return;
	if (target === field) own.checked = true;
	else field.value = field.value.replaceAll(' ' + own.value, '').replaceAll(SIGN, '$1');
}

// choose enters a choice, on which other fields may depend.
function choose(select) {
	state.entered[select.dataset.choice] = select.value;
	restructure(file => file);
}

// switchTo enters a slope or a heading of a shaft under another name.
function switchTo(select) {
	const names = [...select.options].map(option => option.value);
	restructure(file => {
		const shaft = at(file, select.dataset.switch.slice(0, -1));
		const value = names.map(name => shaft[name]).find(v => v !== undefined) ?? null;
		for (const name of names) delete shaft[name];
		shaft[select.value] = value;
		return file;
	});
}

// restructure changes which parts the driveline has. What is entered goes into the
// file first, as far as it can be read.
async function restructure(change) {
	try {
		const response = await ask('/answer', {...driveline(), figures: [], seq});
		const answer = await response.json();
		const entered = Object.fromEntries(Object.entries(state.entered).filter(([path]) => path in answer.faults));
		remember();
		if (state.before) notice(`This is plan ${state.before.plan} no longer: it stands for itself now.`);
		Object.assign(state, {file: change(answer.file), entered, before: null});
		markWorn();
		changed({inputs: true});
	} catch (error) {
		withdraw(error);
	}
}

function jointMore(file) {
	const joints = file.joints ?? file.shafts.slice(1).map(() => ({}));
	file.shafts.splice(-1, 0, {});
	joints.splice(-1, 0, {});
	return {...file, joints};
}

function jointLess(file) {
	if (file.shafts.length < 3) return file;
	file.shafts.splice(-2, 1);
	file.joints?.splice(-2, 1);
	return file;
}
