// The class: lessons, and yokes that turn in time with the curve.

const lesson = () => $(`[data-lesson="${state.lesson}"]`);

function openLesson(button) {
	remember();
	axes = {};
	Object.assign(state, {file: JSON.parse(button.dataset.file), entered: {}, before: null, lesson: button.dataset.lesson});
	$('#lesson-see').open = false;
	showLesson();
	markWorn();
	changed({inputs: true});
}

function showLesson() {
	const button = lesson();
	$('#lesson-title').textContent = button?.dataset.title ?? 'Your driveline';
	$('#lesson-ask').textContent = button?.dataset.ask ?? '';
	$('#lesson-see p').textContent = button?.dataset.see ?? '';
	$('#lesson-see').hidden = !button;
}

// answerHeld reports whether a lesson still leaves its question to the class.
const answerHeld = () => way() === 'class' && Boolean(lesson()) && !$('#lesson-see').open;

function turnPage(by) {
	const all = $$('[data-lesson]');
	const button = all[all.indexOf(lesson()) + by];
	if (button) openLesson(button);
}

// Frames of half a turn, fetched at rest; the yokes look the same after it.
let frames = [];
let framesOf = '';
let playing = 0;
const FRAMES = 36;
const TURN = 6000; // ms
const STEP = 15;   // degrees

async function fetchFrames() {
	const subject = JSON.stringify(driveline());
	if (subject === framesOf) return;
	const width = $('#frame').clientWidth;
	try {
		const response = await ask('/turning', {...driveline(), frames: FRAMES, width, text: Math.max(12, Math.round(width / 36))});
		const turn = await response.json();
		if (subject !== JSON.stringify(driveline())) return;
		framesOf = subject;
		frames = turn.frames.map(svg => {
			const holder = document.createElement('template');
			holder.innerHTML = svg;
			return holder.content.firstElementChild;
		});
		showTheta();
	} catch { /* the next answer tries again */ }
}

// mark puts a mark on every curve where the turn stands.
function mark() {
	const theta = Number($('#theta').value);
	for (const figure of $$('[data-figure]')) {
		const svg = $('svg', figure);
		(tracks[figure.dataset.figure] ?? []).forEach((track, i) => {
			const place = theta / 360 * (track.length - 1);
			const [from, to] = [track[Math.floor(place)], track[Math.ceil(place)]];
			const part = place - Math.floor(place);
			let circle = $$('.mark', svg)[i];
			if (!circle) {
				circle = document.createElementNS('http://www.w3.org/2000/svg', 'circle');
				circle.setAttribute('class', 'mark');
				circle.setAttribute('r', 6);
				svg.append(circle);
			}
			circle.setAttribute('cx', from[0] + part * (to[0] - from[0]));
			circle.setAttribute('cy', from[1] + part * (to[1] - from[1]));
		});
	}
}

function showTheta() {
	const theta = Math.round(Number($('#theta').value));
	$('#theta-out').textContent = `${theta}°`;
	mark();
	if (frames.length) $('#frame').replaceChildren(frames[Math.floor(theta / 180 * frames.length) % frames.length]);
}

// play turns on, or by one step for who wants less motion.
function play(on) {
	if (on && matchMedia('(prefers-reduced-motion: reduce)').matches) {
		const slider = $('#theta');
		slider.value = (Number(slider.value) + STEP) % 360;
		return showTheta();
	}
	const button = $('[data-do="play"]');
	button.setAttribute('aria-pressed', on);
	button.textContent = on ? 'Pause' : 'Play';
	cancelAnimationFrame(playing);
	if (!on) return;
	const slider = $('#theta');
	let theta = Number(slider.value);
	let before = performance.now();
	const turn = now => {
		theta = (theta + (now - before) * 360 / TURN) % 360;
		before = now;
		slider.value = theta;
		showTheta();
		playing = requestAnimationFrame(turn);
	};
	playing = requestAnimationFrame(turn);
}

$('#theta').addEventListener('input', showTheta);
$('#lessons').addEventListener('click', event => {
	const button = event.target.closest('[data-lesson]');
	if (button) openLesson(button);
});

// A presenter's clicker sends PageUp and PageDown; no slider must have them.
addEventListener('keydown', event => {
	if (way() !== 'class' || (event.key !== 'PageUp' && event.key !== 'PageDown')) return;
	event.preventDefault();
	event.stopPropagation();
	turnPage(event.key === 'PageDown' ? 1 : -1);
}, true);
