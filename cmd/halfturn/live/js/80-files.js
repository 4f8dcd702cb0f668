// Files to open and to keep, and the link that carries the state.

function openFile() {
	$('#file').value = '';
	$('#file').click();
}

$('#file').addEventListener('change', async event => {
	const [chosen] = event.target.files;
	if (!chosen) return;
	let file;
	try {
		file = JSON.parse(await chosen.text());
		if (file === null || typeof file !== 'object' || Array.isArray(file)) throw new Error('want an object');
	} catch (error) {
		return notice(`${chosen.name} is no driveline file: ${error.message}`);
	}
	remember();
	begin({way: way() === 'measure' ? 'bench' : way(), file});
});

function keep(blob, name) {
	const link = document.createElement('a');
	link.href = URL.createObjectURL(blob);
	link.download = name;
	link.click();
	setTimeout(() => URL.revokeObjectURL(link.href), 60e3);
}

// stem is the name of what is kept, as far as every file system takes it.
function stem() {
	const name = textOf('name').replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '').slice(0, 60) || 'driveline';
	return state.before ? name + '-reckoned' : name;
}

function saveFile() {
	const file = document.body.dataset.settled === 'true' && state.complete || state.file;
	keep(new Blob([JSON.stringify(file, null, 2) + '\n'], {type: 'application/json'}), stem() + '.json');
}

async function keepFrom(path, body, name) {
	try {
		const response = await ask(path, {...driveline(), ...body});
		keep(await response.blob(), name);
	} catch (error) {
		notice(`Nothing kept: ${error.message}`);
	}
}

const keepReport = () => keepFrom('/report', {}, stem() + '.html');
const keepFigure = (name, format) => keepFrom('/figure', {figures: [name], format}, `${stem()}-${name}.${format}`);

function notice(text) {
	$('#notice p').textContent = text;
	$('#notice').hidden = false;
}

// The link holds the state in its fragment, which no server sees.
function encode(value) {
	const bytes = new TextEncoder().encode(JSON.stringify(value));
	const text = Array.from(bytes, b => String.fromCharCode(b)).join('');
	return btoa(text).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

function decode(text) {
	const bytes = Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), c => c.charCodeAt(0));
	return JSON.parse(new TextDecoder().decode(bytes));
}

// An address that carries a state follows what is entered.
function showLink() {
	const {file, entered, lesson} = state;
	$('#link').href = '#' + encode({way: way(), file, entered, lesson});
	if (linked()) history.replaceState(null, '', $('#link').href);
}

$('#link').addEventListener('click', event => {
	event.preventDefault();
	history.replaceState(null, '', $('#link').href);
	$('#menu').open = false;
	notice('The address of this page carries the driveline now: copy it, or keep it as a bookmark.');
});

// linked returns the state that the address carries; null: none.
function linked() {
	try {
		const carried = decode(location.hash.slice(1));
		return carried?.file ? carried : null;
	} catch {
		return null;
	}
}
