// Our own engine: calc/interval, as the page uses it, compiled as the page's
// engine is. It is running before the clock starts.
export async function prepare() {
	await new Promise((done, failed) => {
		const script = document.createElement("script");
		script.src = "/wasm_exec.js";
		script.onload = done;
		script.onerror = failed;
		document.head.append(script);
	});
	const go = new Go();
	const { instance } = await WebAssembly.instantiateStreaming(fetch("/engine.wasm"), go.importObject);
	go.run(instance);
}

export function run(bytes, form) {
	benchRead(bytes, form === "feed" ? "feed.xml" : "year.csv");
}

export const result = () => ({ record: benchResult() });
