// Asking the server. One request is under way at a time; of those that come
// meanwhile the newest waits and the others are dropped.

// ask is the only place where the page asks anything.
async function ask(path, body, signal) {
	const response = await fetch(path, {
		method: 'POST', signal, cache: 'no-store',
		headers: {'Content-Type': 'application/json'},
		body: JSON.stringify(body),
	});
	if (!response.ok) throw Object.assign(new Error(await response.text()), {told: true});
	return response;
}

let seq = 0;          // of what is entered
let busy = false;
let waiting = null;   // options of the request that waits
let held = false;     // a pointer holds a slider
let last = -1e9;      // when something was entered last
let resting = 0;      // timer
const REST = 120;     // ms without a change, after which nothing moves
const AGAIN = 1000;   // ms until a server that is gone is asked again

// changed is called whenever something is entered.
function changed(options = {}) {
	seq++;
	document.body.dataset.settled = 'false';
	abandonPlans();
	const now = performance.now();
	const moving = held || now - last < REST;
	last = now;
	clearTimeout(resting);
	if (moving) resting = setTimeout(() => want({}), REST);
	want({moving, ...options});
}

// rest asks for the whole answer where a hurried one was given.
function rest() {
	held = false;
	clearTimeout(resting);
	if (document.body.dataset.settled === 'false') want({});
}

function want(options) {
	if (!state.file) return;
	waiting = {inputs: waiting?.inputs, ...options};
	if (!busy) run();
}

async function run() {
	busy = true;
	while (waiting) {
		const options = waiting;
		waiting = null;
		const request = compose(options);
		const asked = way();
		try {
			const response = await ask('/answer', request);
			const answer = await response.json();
			if (way() === asked) show(answer, request); // else another is waiting already
		} catch (error) {
			withdraw(error);
			waiting = {...options, ...waiting};
			await new Promise(done => setTimeout(done, AGAIN));
		}
	}
	busy = false;
}

function compose({moving = false, inputs = false}) {
	const size = {width: widthOfFigures(), ...way() === 'class' && large()};
	if (JSON.stringify(size) !== axesFor) [axes, axesFor] = [{}, JSON.stringify(size)];
	return {
		...driveline(),
		before: state.before ? {file: state.before.file, entered: state.before.entered} : undefined,
		figures: figuresShown(),
		...size,
		axes: way() === 'class' || moving ? axes : {},
		start: way() === 'class' && Object.keys(state.entered).length ? state.file : undefined,
		inputs: inputs ? way() : '',
		lesson: state.lesson,
		moving, seq,
	};
}

const PARTS = ['answer', 'angles', 'card', 'plans', 'figures', 'details'];

const clear = () => PARTS.forEach(id => $('#' + id).replaceChildren());

// withdraw takes the answer off the page where there is nobody to answer.
function withdraw(error) {
	clear();
	const p = document.createElement('p');
	p.className = 'gone';
	p.textContent = error.told ? `halfturn failed on this: ${error.message}` :
		'halfturn does not answer: it has ended, or the network is gone. What you entered is kept, and the page tries again.';
	$('#answer').append(p);
	say(p.textContent);
	if (!error.told && !(error instanceof TypeError)) throw error; // a fault of this script
}

// say tells a screen reader, at rest only.
function say(text) {
	if ($('#status').textContent !== text) $('#status').textContent = text;
}
