// Showing answers.

let axes = {};     // where panels stand and what they show, held while a slider moves
let axesFor = '';  // size of the figures that they are for
let tracks = {};   // of marks on curves

function show(answer, request) {
	const refused = Object.keys(answer.faults).length > 0;
	if (request.inputs) placeInputs(answer.parts.inputs);
	if (answer.seq === seq) showFaults(answer.faults, answer.remarks); // not of what was typed over
	for (const id of ['answer', 'angles', 'details', 'card']) showPart(id, answer.parts[id] ?? '');
	if (refused) refuse(answer.faults);
	showFigures(answer.figures, refused ? [] : request.figures);
	Object.assign(axes, answer.axes);
	Object.assign(tracks, answer.tracks);
	if (way() === 'class') mark();
	if (!refused) state.complete = answer.file;
	fitSliders(answer.file);
	if (request.moving || answer.seq !== seq) return;
	document.body.dataset.settled = 'true';
	store();
	showLink();
	headPaper();
	if (!answerHeld()) say(refused ? $('#answer').textContent : answer.spoken);
	if (refused) showPart('plans', '');
	else if (way() === 'class') fetchFrames();
	else lookForPlans();
	if (going && way() === 'measure') next();
}

// showPart replaces a part but for what a person has opened in it.
function showPart(id, html) {
	const part = $('#' + id);
	const open = $$('details', part).map(d => d.open);
	const focused = part.contains(document.activeElement) && document.activeElement !== part;
	part.innerHTML = html;
	$$('details', part).forEach((d, i) => { d.open = open[i] ?? d.open; });
	if (focused) $('button, summary', part)?.focus();
}

// headPaper says at the top of a print what it is of.
function headPaper() {
	$('#paper-name').textContent = textOf('name') || 'Driveline without a name';
	$('#paper-worn').textContent = $('#worn').hidden ? '' : $('#worn p').textContent;
}

// showFaults puts what is wrong beside its field, or what is to be asked. A field that
// nothing was ever put into is only marked as wanted.
function showFaults(faults, remarks) {
	const fields = $$('[data-field]');
	const told = new Map(); // by field
	for (const [path, fault] of Object.entries(faults)) {
		const own = path.replace(/\.turned\.0$/, '.incline'); // the first of a pair, when measuring
		const field = fields.find(f => f.dataset.field === own) ??
			fields.find(f => path.startsWith(f.dataset.field + '.')) ??
			(path && fields.find(f => f.dataset.field.startsWith(path + '.') && /\.(down|incline|turned)$/.test(f.dataset.field)));
		if (field) told.set(field, fault);
	}
	for (const field of fields) {
		const fault = told.get(field) ?? '';
		const blank = field.value.trim() === '' && !(field.dataset.field in state.entered);
		field.toggleAttribute('data-wanted', fault !== '' && blank);
		if (fault && !blank) field.setAttribute('aria-invalid', 'true');
		else field.removeAttribute('aria-invalid');
		const message = field.dataset.asked ?? (blank ? '' : fault || (remarks[field.dataset.field] ?? ''));
		const place = $('#' + field.id + '-fault');
		place.textContent = inWords(field, message);
		place.classList.toggle('asks', !fault);
	}
}

// refuse says what is missing where the answer was.
function refuse(faults) {
	const wanted = $$('[data-wanted]').map(f => {
		const part = f.closest('fieldset, .step');
		return $('legend, h2', part)?.textContent ?? f.labels[0].textContent.trim();
	});
	const p = document.createElement('p');
	p.className = 'first';
	if (wanted.length) p.textContent = `No answer yet. Still to be entered: ${wanted.join(', ')}.`;
	else if ($('[aria-invalid]')) p.textContent = 'No answer: something entered cannot be right. It is marked.';
	else p.textContent = 'No answer: ' + Object.entries(faults).map(([path, fault]) => (path ? path + ': ' : '') + fault).join('; ');
	$('#answer').replaceChildren(p);
}

// showFigures shows what was drawn. A figure that was left out may lag behind.
function showFigures(drawn, wanted) {
	const place = $('#figures');
	for (const figure of $$('[data-figure]', place)) if (!wanted.includes(figure.dataset.figure)) figure.remove();
	for (const name of wanted) {
		let figure = $(`[data-figure="${name}"]`, place);
		if (!figure) {
			figure = document.createElement('figure');
			figure.dataset.figure = name;
			figure.append(figureHead(name), document.createElement('div'));
			place.append(figure);
		}
		figure.toggleAttribute('data-stale', !(name in drawn));
		if (name in drawn) figure.lastChild.innerHTML = drawn[name];
	}
}

function figureHead(name) {
	const caption = document.createElement('figcaption');
	const box = $(`#chooser input[value="${name}"]`);
	caption.append(box?.parentElement.title ?? 'before and after');
	for (const format of box ? ['svg', 'png', 'pdf'] : []) {
		const button = document.createElement('button');
		button.type = 'button';
		button.className = 'text';
		button.dataset.keep = format;
		button.textContent = format.toUpperCase();
		button.setAttribute('aria-label', `Keep the figure ${name} as ${format.toUpperCase()}`);
		caption.append(button);
	}
	return caption;
}

function figuresShown() {
	if (way() === 'class') return [lesson()?.dataset.figures || 'speed'];
	const names = $$('#chooser input:checked').map(box => box.value);
	return state.before ? ['correction', ...names] : names;
}

// widthOfFigures is the room within a card.
const widthOfFigures = () => Math.floor(($('#figures').clientWidth || document.body.clientWidth - 24) - CARD);
const CARD = 26;

// large is the size of a figure that a class sees: as high as leaves room for the
// lesson above it, in letters that can be read from the last row.
const large = () => ({height: Math.max(360, document.documentElement.clientHeight * 0.58), text: Math.max(12, Math.round(widthOfFigures() / 46))});
