// Runs a task once cold and then warm, and prints what it took and came to.
//
//	node polars.mjs FILE LAPS
export async function race(task) {
	const [file, laps] = process.argv.slice(2);
	const times = [];
	let result;
	for (let i = 0; i <= +laps; i++) {
		const begin = performance.now();
		result = await task(file);
		times.push(performance.now() - begin);
	}
	console.log(JSON.stringify({ times, megabytes: Math.round(process.resourceUsage().maxRSS / 1024), result }));
}
