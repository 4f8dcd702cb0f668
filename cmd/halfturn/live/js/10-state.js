// What is entered. `file` is the driveline that the page began with, or that came
// back when its parts were changed; `entered` is what stands in fields as typed, by
// path. Everything else on the page follows from these two.
const state = {
	file: null,      // null: nothing chosen yet
	entered: {},
	before: null,    // what a plan is tried on: {file, entered, lesson, complete, plan, carried, edited}
	lesson: '',      // of the class
	given: '',       // the FILE of the command, as text; '': none
	complete: null,  // the driveline as it was last answered
};
const undone = []; // states to go back to, the latest last
const UNDO = 100;

const $ = (selector, within = document) => within.querySelector(selector);
const $$ = (selector, within = document) => [...within.querySelectorAll(selector)];
const way = () => document.body.dataset.way;
const driveline = () => ({file: state.file, entered: state.entered});

// at returns the value at a path of a driveline file.
function at(file, path) {
	return path.split('.').reduce((value, key) => value?.[key], file);
}

// shown returns a value of the file as a field shows it.
function shown(value) {
	return value === undefined || value === null ? '' : Array.isArray(value) ? value.join('; ') : String(value);
}

const textOf = path => state.entered[path] ?? shown(at(state.file, path));

function enter(path, text) {
	state.entered = withText(state, path, text);
	if (state.before) carry(path, text);
	changed();
}

// withText returns what is entered into a driveline with a text at a path.
function withText({file, entered}, path, text) {
	const all = {...entered, [path]: text};
	if (text === shown(at(file, path))) delete all[path];
	return all;
}

const snapshot = () => ({file: state.file, entered: {...state.entered}, before: state.before, lesson: state.lesson});

// remember keeps what is entered now, to go back to.
function remember() {
	undone.push(snapshot());
	if (undone.length > UNDO) undone.shift();
	allowUndo();
}

const allowUndo = () => { $('[data-do="undo"]').disabled = !undone.length; };

// Entries outlast a locked telephone and a closed page. They are kept with the FILE
// that they were made on, and offered on that one only. While earlier ones are offered
// nothing takes their place.
const STORE = 'halfturn';

function store() {
	if (!undone.length || !$('#offer').hidden) return;
	try {
		localStorage.setItem(STORE, JSON.stringify({...snapshot(), ...place(), given: state.given, way: way(), when: Date.now()}));
	} catch { /* a browser may forbid it */ }
}

function stored() {
	try {
		return JSON.parse(localStorage.getItem(STORE));
	} catch {
		return null;
	}
}

// isWork reports whether a stored state differs from all that the page begins with.
function isWork({file, entered, before}) {
	if (!file) return false;
	const starts = [state.given, ...$$('[data-file]').map(button => button.dataset.file)].filter(Boolean);
	const same = text => JSON.stringify(JSON.parse(text)) === JSON.stringify(file);
	return Boolean(before) || Object.keys(entered).length > 0 || !starts.some(same);
}
