// Measuring: one reading after the other.

let current = 0;
let going = false; // Next was pressed before what is entered was answered

const steps = () => $$('.step');

function openStep(i, focus = true) {
	const all = steps();
	if (i >= all.length) return finish();
	current = Math.max(0, i);
	going = false;
	all.forEach((step, k) => { step.hidden = k !== current; });
	document.body.dataset.finished = 'false';
	if (!focus) return;
	store();
	scrollTo(0, 0);
	$('h2', all[current])?.focus();
}

const finished = () => document.body.dataset.finished === 'true';

// place is how far the readings have come.
const place = () => ({current, finished: finished()});

function goTo(place) {
	current = place.current ?? 0;
	document.body.dataset.finished = String(Boolean(place.finished));
}

// placeSteps shows the step that was open, or beside the answer a list of them.
function placeSteps() {
	if (!finished()) return openStep(Math.min(current, steps().length - 1), false);
	$('#readings ol').replaceChildren(...steps().map((step, i) => {
		step.hidden = true;
		const [item, button] = [document.createElement('li'), document.createElement('button')];
		button.type = 'button';
		button.className = 'text';
		button.dataset.step = i;
		button.textContent = $('h2', step).textContent;
		item.append(button, ' ', $$('[data-field]', step).map(read).filter(Boolean).join('; '));
		return item;
	}));
}

$('#readings').addEventListener('click', event => {
	const button = event.target.closest('[data-step]');
	if (button) openStep(Number(button.dataset.step));
});

// finish shows the answer, which the readings were for.
function finish() {
	document.body.dataset.finished = 'true';
	placeSteps();
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
		if (words.length && !undirected(field, field.value.trim()) && !words.some(w => w.checked)) return wait(field, 'Which way? Choose one of the two.', words[0]);
	}
	const wrong = $('[aria-invalid]', step);
	going = wrong && document.body.dataset.settled === 'false'; // the mark may be of what stood there before
	if (going) return;
	if (wrong) return wrong.focus();
	openStep(current + 1);
}

// wait stays at the step and asks; the bar of Back and Next must not hide it.
function wait(field, message, wanted = field) {
	field.dataset.asked = message; // until something is entered
	const place = $('#' + field.id + '-fault');
	place.textContent = message;
	say(message);
	wanted.focus();
	place.scrollIntoView({block: 'center'});
}

// skip goes on without a reading; a step that has one does not offer it.
const skip = () => openStep(current + 1);
