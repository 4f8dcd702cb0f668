// Measuring: one reading after the other.

let current = 0;

const steps = () => $$('.step');

function openStep(i, focus = true) {
	const all = steps();
	if (i >= all.length) return finish();
	current = Math.max(0, i);
	all.forEach((step, k) => { step.hidden = k !== current; });
	document.body.dataset.finished = 'false';
	if (!focus) return;
	scrollTo(0, 0);
	$('h2', all[current])?.focus();
}

// finish shows the answer, which the readings were for.
function finish() {
	for (const step of steps()) step.hidden = true;
	document.body.dataset.finished = 'true';
	scrollTo(0, 0);
	$('#answer').focus();
	changed();
}

// next goes on where the reading is there; it must be, or be skipped.
function next() {
	const step = steps()[current];
	const fields = $$('[data-field]', step);
	if (fields[0]?.value.trim() === '' && !$('[data-do="skip"]', step)) return wait(fields[0], 'This reading is needed.');
	for (const field of fields) {
		const words = wordsOf(field);
		const zero = Number(field.value.replace(',', '.')) === 0; // or empty
		if (words.length && !zero && !words.some(w => w.checked)) return wait(field, 'Which way? Choose one of the two.');
	}
	const wrong = $('[aria-invalid]', step);
	if (wrong) return wrong.focus();
	openStep(current + 1);
}

function wait(field, message) {
	field.dataset.asked = message; // until something is entered
	$('#' + field.id + '-fault').textContent = message;
	say(message);
	field.focus();
}

function skip() {
	remember();
	for (const field of $$('[data-field]', steps()[current])) {
		fillField(field, '');
		enter(field.dataset.field, '');
	}
	openStep(current + 1);
}
