// The fastest way to read a file of seconds that was found: one buffer of 1 MiB
// handed to the browser and back, and a loop over the bytes that knows the form,
// 2024-03-01 00:00:00,0.7380. It checks nothing.
import { dayOf } from "./days.js";

const stream = window.stream = { state: "idle", breathe: false };

document.querySelector("#file").addEventListener("change", async (e) => {
	stream.state = "busy";
	const begin = performance.now();
	const loop = new Loop();
	const reader = e.target.files[0].stream().getReader({ mode: "byob" });
	let buffer = new ArrayBuffer(1 << 20), busySince = performance.now();
	for (;;) {
		const { value, done } = await reader.read(new Uint8Array(buffer));
		if (done) break;
		loop.take(value);
		buffer = value.buffer;
		if (stream.breathe && performance.now() - busySince > 10) {
			await macrotask();
			busySince = performance.now();
		}
	}
	stream.came = loop.result();
	stream.ms = performance.now() - begin;
	stream.state = "done";
});

const channel = new MessageChannel();
function macrotask() {
	return new Promise((done) => {
		channel.port1.onmessage = () => done();
		channel.port2.postMessage(0);
	});
}

class Loop {
	rows = 0;
	first = 0;
	day = 0;
	key = -1;
	sum = 0;
	due = -1;
	days = [];
	gaps = [];
	rest = new Uint8Array(256);
	resting = 0;
	begun = false;

	// take reads a chunk; the bytes of an unfinished row wait for the next.
	take(b) {
		let from = 0;
		const end = b.lastIndexOf(10) + 1;
		if (end === 0) return this.wait(b, 0);
		if (!this.begun) {
			from = b.indexOf(10) + 1;
			this.begun = true;
		} else if (this.resting) {
			from = b.indexOf(10) + 1;
			this.wait(b.subarray(0, from), 0);
			this.read(this.rest, 0, this.resting);
			this.resting = 0;
		}
		this.read(b, from, end);
		this.wait(b, end);
	}

	wait(b, from) {
		this.rest.set(b.subarray(from), this.resting);
		this.resting += b.length - from;
	}

	read(b, i, n) {
		let { rows, day, key, sum, due } = this;
		while (i < n) {
			const k = (b[i] * 1000 + b[i + 1] * 100 + b[i + 2] * 10 + b[i + 3]) * 10000 + b[i + 5] * 1000 + b[i + 6] * 100 + b[i + 8] * 10 + b[i + 9];
			if (k !== key) {
				const then = day;
				day = dayOf(b[i] * 1000 + b[i + 1] * 100 + b[i + 2] * 10 + b[i + 3] - 53328, b[i + 5] * 10 + b[i + 6] - 528, b[i + 8] * 10 + b[i + 9] - 528);
				if (key < 0) this.first = day;
				else for (let d = then; d < day; d++, sum = 0) this.days.push(sum);
				key = k;
			}
			const second = day * 86400 + (b[i + 11] * 10 + b[i + 12] - 528) * 3600 + (b[i + 14] * 10 + b[i + 15] - 528) * 60 + b[i + 17] * 10 + b[i + 18] - 528;
			if (second !== due && due >= 0) this.gaps.push([due, second]);
			due = second + 1;
			i += 20;
			let v = 0, c;
			while ((c = b[i++]) !== 10) if (c >= 48) v = v * 10 + c - 48;
			sum += v;
			rows++;
		}
		this.rows = rows;
		this.day = day;
		this.key = key;
		this.sum = sum;
		this.due = due;
	}

	result() {
		// A tenth of a watt over a second is 1e5 / 3600 µWh.
		const days = [...this.days, this.sum].map((v) => Math.round(v * 1e5 / 3600));
		return { rows: this.rows, first: this.first, days, gaps: this.gaps };
	}
}
