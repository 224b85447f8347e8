// A feed with what the browser has: DOMParser and a loop over its readings.
const espi = "http://naesb.org/espi";

export function run(bytes) {
	const doc = new DOMParser().parseFromString(new TextDecoder().decode(bytes), "application/xml");
	const one = (e, name) => e.getElementsByTagNameNS(espi, name)[0];
	const offset = +one(doc, "tzOffset").textContent;
	const scale = 10 ** one(doc, "powerOfTenMultiplier").textContent;
	let rows = 0, first = 0, due = -1, cost = 0;
	const days = [], gaps = [];
	for (const reading of doc.getElementsByTagNameNS(espi, "IntervalReading")) {
		let start = 0, length = 0, value = 0;
		for (let e = reading.firstElementChild; e; e = e.nextElementSibling) {
			switch (e.localName) {
			case "cost": cost += +e.textContent; break;
			case "value": value = +e.textContent; break;
			case "timePeriod":
				for (let p = e.firstElementChild; p; p = p.nextElementSibling) {
					if (p.localName === "start") start = +p.textContent + offset;
					else length = +p.textContent;
				}
			}
		}
		const day = Math.floor(start / 86400);
		if (rows++ === 0) first = day;
		else if (start !== due) gaps.push([due, start]);
		due = start + length;
		days[day - first] = (days[day - first] || 0) + value * scale;
	}
	return { rows, first, days: days.map((v) => v * 1e6), gaps, cost };
}
