// The ways, the buttons, and what the page begins with.

function openWay(name) {
	document.body.dataset.way = name;
	for (const button of $$('nav [data-way]')) {
		if (button.dataset.way === name) button.setAttribute('aria-current', 'page');
		else button.removeAttribute('aria-current');
	}
	inputs.replaceChildren();
	play(false);
	axes = {};
	$('#lessons').hidden = $('#turning').hidden = name !== 'class';
	$('#choose').hidden = Boolean(state.file) || name === 'class';
	if (name === 'class' && !state.file) return openLesson($('[data-lesson]'));
	showLesson();
	markWorn();
	if (state.file) return changed({inputs: true});
	clear();
	document.body.dataset.settled = 'true';
}

// begin puts a driveline on the page in the place of the one that is there.
function begin({way: name, file, entered = {}, before = null, lesson = '', ...place}) {
	Object.assign(state, {file, entered, before, lesson});
	goTo(place);
	openWay(name);
}

function undo() {
	const earlier = undone.pop();
	allowUndo();
	if (earlier) begin({way: way(), ...earlier, ...place()});
}

const actions = {
	undo, skip, open: openFile, save: saveFile, report: keepReport,
	print: () => print(),
	new: () => {
		remember();
		begin({way: way() === 'class' ? 'bench' : way(), file: null});
	},
	resume: () => {
		remember();
		$('#offer').hidden = true;
		begin(kept);
	},
	leave: () => {
		$('#offer').hidden = true;
		store();
	},
	close: () => { $('#notice').hidden = true; },
	'take-off': takeOff,
	'joint-more': () => restructure(jointMore),
	'joint-less': () => restructure(jointLess),
	'step-back': () => openStep(current - 1),
	'step-next': next,
	back: () => turnPage(-1),
	next: () => turnPage(1),
	play: () => play($('[data-do="play"]').getAttribute('aria-pressed') !== 'true'),
};

document.addEventListener('click', event => {
	const button = event.target.closest('button');
	if (!button) return;
	const {do: action, way: name, keep: format, arrangement, file} = button.dataset;
	if (button.closest('#menu')) $('#menu').open = false;
	if (action) actions[action]();
	if (name) {
		if (name === way()) goTo({current}); // from the answer to the readings
		openWay(name);
	}
	if (format) keepFigure(button.closest('[data-figure]').dataset.figure, format);
	if (arrangement) {
		remember();
		begin({way: way(), file: JSON.parse(file)});
	}
});
$('#chooser').addEventListener('change', () => changed());

let width = 0;
addEventListener('resize', () => {
	if (!state.file || Math.abs(widthOfFigures() - width) < 8) return;
	width = widthOfFigures();
	changed();
});
addEventListener('hashchange', () => {
	const carried = linked();
	if (carried) begin(carried);
});

state.given = document.body.dataset.start;

const asked = ['measure', 'bench', 'class'].find(way => location.hash === '#' + way);
if (linked()) begin(linked());
else if (state.given) begin({way: asked ?? 'bench', file: JSON.parse(state.given)});
else openWay(asked ?? (innerWidth < 700 ? 'measure' : 'bench'));

const kept = stored();
if (kept?.given === state.given && !linked() && isWork(kept)) {
	$('#offer p').textContent = `You entered something here on ${new Date(kept.when).toLocaleString()}. Until you choose, nothing new is kept.`;
	$('#offer').hidden = false;
}
