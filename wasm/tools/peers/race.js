// One tab holds one contender, a module that exports
//
//	prepare(bytes)      what happens before the clock starts: libraries, workers
//	run(bytes, form)    the task; gives, or promises, what the file came to:
//	                    { rows, first, days, gaps } as in wasm/tools/gen
//	result(came)        optional: brings it into that form, after the clock stopped
//
// The harness in wasm/e2e calls enter once and lap for each run.
const race = window.race = {};

race.enter = async (name, file, form) => {
	race.contender = await import(`/peers/${name}.js`);
	race.form = form;
	race.bytes = new Uint8Array(await (await fetch(file)).arrayBuffer());
	await race.contender.prepare?.(race.bytes, form);
};

// lap runs the task once and gives its time in milliseconds.
race.lap = async () => {
	const begin = performance.now();
	const came = race.contender.run(race.bytes, race.form);
	race.came = came instanceof Promise ? await came : came;
	return performance.now() - begin;
};

race.result = () => JSON.stringify(race.contender.result ? race.contender.result(race.came) : race.came);
