// A loop by hand for files that somebody else wrote: it still knows the order of
// the parts, 2024-03-01 00:00,0.0123, but looks at each byte that it takes for
// one of them, bears CR LF and figures of any length, and counts rows that it
// cannot read.
import { dayOf } from "./days.js";

export function run(b) {
	const days = [], gaps = [], n = b.length;
	let i = b.indexOf(10) + 1, rows = 0, bad = 0, first = 0, day = 0, key = -1, sum = 0, due = -1;
	while (i < n) {
		let c, d, y = 0, m = 0, dd = 0, h = 0, min = 0, v = 0, ok = true;
		while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) y = y * 10 + d;
		ok = c === 45;
		while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) m = m * 10 + d;
		ok = ok && c === 45 && m > 0 && m < 13;
		while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) dd = dd * 10 + d;
		ok = ok && (c === 32 || c === 84) && dd > 0 && dd < 32;
		while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) h = h * 10 + d;
		ok = ok && c === 58 && h < 24;
		while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) min = min * 10 + d;
		ok = ok && c === 44 && min < 60;
		let sign = 1, places = 0;
		if (b[i] === 45) { sign = -1; i++; }
		while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) v = v * 10 + d;
		if (c === 46) while ((d = (c = b[i++]) - 48) >= 0 && d <= 9) { v = v * 10 + d; places++; }
		for (; places < 4; places++) v *= 10;
		if (c === 13) c = b[i++];
		if (!ok || places > 4 || c !== 10 && i < n) {
			bad++;
			while (c !== 10 && i < n) c = b[i++];
			continue;
		}
		const k = (y * 100 + m) * 100 + dd;
		if (k !== key) {
			const then = day;
			day = dayOf(y, m, dd);
			if (key < 0) first = day;
			else for (let d = then; d < day; d++, sum = 0) days.push(sum * 100_000);
			key = k;
		}
		const minute = day * 1440 + h * 60 + min;
		if (minute !== due && due >= 0) gaps.push([due * 60, minute * 60]);
		due = minute + 1;
		sum += sign * v;
		rows++;
	}
	days.push(sum * 100_000);
	return { rows, bad, first, days, gaps };
}
