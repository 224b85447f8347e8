// The yardstick: one loop over the bytes, for each form its own, which knows
// where the digits stand. Dates become days only where they change, sums are
// integers, nothing is made for a row. It checks nothing.
import { dayOf, perUnit } from "./days.js";

export function run(bytes, form) {
	switch (form) {
	case "ampm": return ampm(bytes);
	case "dayfirst": return dayfirst(bytes);
	case "epoch": return epoch(bytes);
	case "register": return register(bytes);
	case "offset": return iso(bytes, 9, perUnit(form));
	default: return iso(bytes, 0, perUnit(form));
	}
}

// iso reads 2024-03-01 00:00, then skips so many bytes, then the figure.
function iso(b, skip, unit) {
	const days = [], gaps = [], n = b.length;
	let i = b.indexOf(10) + 1, rows = 0, first = 0, day = 0, key = -1, sum = 0, due = -1;
	while (i < n) {
		const k = (b[i] * 1000 + b[i + 1] * 100 + b[i + 2] * 10 + b[i + 3]) * 10000 + b[i + 5] * 1000 + b[i + 6] * 100 + b[i + 8] * 10 + b[i + 9];
		if (k !== key) {
			const then = day;
			day = dayOf(b[i] * 1000 + b[i + 1] * 100 + b[i + 2] * 10 + b[i + 3] - 53328, b[i + 5] * 10 + b[i + 6] - 528, b[i + 8] * 10 + b[i + 9] - 528);
			if (key < 0) first = day;
			else for (let d = then; d < day; d++, sum = 0) days.push(sum * unit);
			key = k;
		}
		const minute = day * 1440 + b[i + 11] * 600 + b[i + 12] * 60 + b[i + 14] * 10 + b[i + 15] - 32208;
		if (minute !== due && due >= 0) gaps.push([due * 60, minute * 60]);
		due = minute + 1;
		i += 17 + skip;
		let v = 0, c;
		while (i < n && (c = b[i++]) !== 10) if (c >= 48) v = v * 10 + c - 48;
		sum += v;
		rows++;
	}
	days.push(sum * unit);
	return { rows, first, days: days.map(Math.round), gaps };
}

// dayfirst reads 01.03.2024 00:00;0,0123.
function dayfirst(b) {
	const days = [], gaps = [], n = b.length;
	let i = b.indexOf(10) + 1, rows = 0, first = 0, day = 0, key = -1, sum = 0, due = -1;
	while (i < n) {
		const k = (b[i + 6] * 1000 + b[i + 7] * 100 + b[i + 8] * 10 + b[i + 9]) * 10000 + b[i + 3] * 1000 + b[i + 4] * 100 + b[i] * 10 + b[i + 1];
		if (k !== key) {
			const then = day;
			day = dayOf(b[i + 6] * 1000 + b[i + 7] * 100 + b[i + 8] * 10 + b[i + 9] - 53328, b[i + 3] * 10 + b[i + 4] - 528, b[i] * 10 + b[i + 1] - 528);
			if (key < 0) first = day;
			else for (let d = then; d < day; d++, sum = 0) days.push(sum * 100_000);
			key = k;
		}
		const minute = day * 1440 + b[i + 11] * 600 + b[i + 12] * 60 + b[i + 14] * 10 + b[i + 15] - 32208;
		if (minute !== due && due >= 0) gaps.push([due * 60, minute * 60]);
		due = minute + 1;
		i += 17;
		let v = 0, c;
		while (i < n && (c = b[i++]) !== 10) if (c >= 48) v = v * 10 + c - 48;
		sum += v;
		rows++;
	}
	days.push(sum * 100_000);
	return { rows, first, days, gaps };
}

// ampm reads 3/1/2024 12:00 AM,0.0123.
function ampm(b) {
	const days = [], gaps = [], n = b.length;
	let i = b.indexOf(10) + 1, rows = 0, first = 0, day = 0, key = -1, sum = 0, due = -1;
	while (i < n) {
		let m = b[i++] - 48, d, h;
		if (b[i] !== 47) m = m * 10 + b[i++] - 48;
		d = b[++i] - 48;
		if (b[++i] !== 47) d = d * 10 + b[i++] - 48;
		const y = b[i + 1] * 1000 + b[i + 2] * 100 + b[i + 3] * 10 + b[i + 4] - 53328;
		i += 6;
		const k = (y * 100 + m) * 100 + d;
		if (k !== key) {
			const then = day;
			day = dayOf(y, m, d);
			if (key < 0) first = day;
			else for (let d = then; d < day; d++, sum = 0) days.push(sum * 100_000);
			key = k;
		}
		h = b[i++] - 48;
		if (b[i] !== 58) h = h * 10 + b[i++] - 48;
		if (h === 12) h = 0;
		if (b[i + 4] === 80) h += 12;
		const minute = day * 1440 + h * 60 + b[i + 1] * 10 + b[i + 2] - 528;
		if (minute !== due && due >= 0) gaps.push([due * 60, minute * 60]);
		due = minute + 1;
		i += 7;
		let v = 0, c;
		while (i < n && (c = b[i++]) !== 10) if (c >= 48) v = v * 10 + c - 48;
		sum += v;
		rows++;
	}
	days.push(sum * 100_000);
	return { rows, first, days, gaps };
}

// epoch reads 1709251200,0.0123; the local clock is that of UTC.
function epoch(b) {
	const days = [], gaps = [], n = b.length;
	let i = b.indexOf(10) + 1, rows = 0, first = 0, next = 0, sum = 0, due = -1, c;
	while (i < n) {
		let t = 0, v = 0;
		while ((c = b[i++]) !== 44) t = t * 10 + c - 48;
		while (i < n && (c = b[i++]) !== 10) if (c >= 48) v = v * 10 + c - 48;
		if (t !== due) {
			if (due >= 0) gaps.push([due, t]);
			else next = ((first = Math.floor(t / 86400)) + 1) * 86400;
		}
		while (t >= next) {
			days.push(sum * 100_000);
			sum = 0;
			next += 86400;
		}
		due = t + 60;
		sum += v;
		rows++;
	}
	days.push(sum * 100_000);
	return { rows, first, days, gaps };
}

// register reads 2024-03-01 00:00,12345.6789; what it advanced by belongs to the
// day of the read before.
function register(b) {
	const days = [], gaps = [], n = b.length;
	let i = b.indexOf(10) + 1, rows = 0, first = 0, day = 0, key = -1, begin = -1, due = -1, v = 0;
	while (i < n) {
		const k = (b[i] * 1000 + b[i + 1] * 100 + b[i + 2] * 10 + b[i + 3]) * 10000 + b[i + 5] * 1000 + b[i + 6] * 100 + b[i + 8] * 10 + b[i + 9];
		const then = day;
		if (k !== key) day = dayOf(b[i] * 1000 + b[i + 1] * 100 + b[i + 2] * 10 + b[i + 3] - 53328, b[i + 5] * 10 + b[i + 6] - 528, b[i + 8] * 10 + b[i + 9] - 528);
		const minute = day * 1440 + b[i + 11] * 600 + b[i + 12] * 60 + b[i + 14] * 10 + b[i + 15] - 32208;
		if (minute !== due && due >= 0) gaps.push([(due - 1) * 60, minute * 60]);
		due = minute + 1;
		i += 17;
		let c;
		v = 0;
		while (i < n && (c = b[i++]) !== 10) if (c >= 48) v = v * 10 + c - 48;
		if (k !== key) {
			if (key < 0) { first = day; begin = v; }
			else for (let d = then; d < day; d++, begin = v) days.push((v - begin) * 100_000);
			key = k;
		}
		rows++;
	}
	days.push((v - begin) * 100_000);
	return { rows, first, days, gaps };
}
