// Plans: what to change, tried on and taken off.

let search = null;     // under way
let searched = '';     // the driveline that the plans on the page are for
let drivelines = [];   // of the plans
let cure = '';         // the best of them in a sentence

// abandonPlans ends a search for what is no longer entered; the server notices.
function abandonPlans() {
	search?.abort();
	search = null;
}

// lookForPlans looks for what to change in the driveline as entered. While a plan is
// tried on, the plans stay those of the driveline beneath it.
async function lookForPlans() {
	if (state.before) return;
	const subject = JSON.stringify(driveline());
	if (subject !== searched) {
		showPart('plans', '<p class="fine">Looking for what to change …</p>');
		search = new AbortController();
		const {signal} = search;
		try {
			const response = await ask('/plans', {...driveline(), seq}, signal);
			const found = await response.json();
			if (signal.aborted) return;
			[searched, drivelines, cure] = [subject, found.drivelines ?? [], found.parts.cure ?? ''];
			showPart('plans', found.parts.plans ?? '');
		} catch (error) {
			if (!signal.aborted) showPart('plans', '');
			return;
		}
	}
	const line = $('#cure');
	if (line) line.innerHTML = cure;
	markWorn();
}

// tryOn puts a plan on, or takes it off where it is on already.
function tryOn(number) {
	if (state.before?.plan === number) return takeOff();
	if (!state.before && searched !== JSON.stringify(driveline())) return; // not of what is entered
	remember();
	const before = state.before ?? {...snapshot(), complete: state.complete, carried: {}};
	Object.assign(state, {
		file: drivelines[number - 1], entered: {...before.carried}, before: {...before, plan: number, edited: false},
	});
	markWorn();
	changed({inputs: true});
}

// carry enters what is no part of the plan that is tried on beneath it too, so that
// both are compared alike and it outlasts the plan.
function carry(path, text) {
	const {before} = state;
	if (planned(path)) state.before = {...before, edited: true};
	else state.before = {...before, entered: withText(before, path, text), carried: {...before.carried, [path]: text}};
	markWorn();
}

// planned reports whether the plan that is tried on changes what stands at a path: of a
// shaft anything, for its angle may be read in another way.
function planned(path) {
	const [subject] = path.match(/^shafts\.\d+/) ?? [path];
	const [beneath, on] = [state.before.complete, state.file].map(file => JSON.stringify(at(file, subject)));
	return beneath !== on || way() === 'measure' && at(state.file, subject)?.turned !== undefined;
}

function takeOff() {
	const {file, entered, lesson} = state.before;
	remember();
	Object.assign(state, {file, entered, lesson, before: null});
	markWorn();
	changed({inputs: true});
}

function markWorn() {
	const worn = state.before?.plan;
	for (const plan of $$('[data-plan]')) {
		const on = plan.dataset.plan === String(worn);
		plan.classList.toggle('on', on);
		const button = $('button', plan);
		button.setAttribute('aria-pressed', on);
		button.firstChild.textContent = on ? 'Take off' : 'Try on';
	}
	$('#worn').hidden = !state.before;
	if (!state.before) return;
	const name = state.before.edited ? `Plan ${worn}, changed by hand since,` : `Plan ${worn}`;
	$('#worn p').textContent = `${name} is tried on. What is shown is reckoned, not measured.`;
}

$('#plans').addEventListener('click', event => {
	const plan = event.target.closest('[data-plan]');
	if (plan) tryOn(Number(plan.dataset.plan));
});
