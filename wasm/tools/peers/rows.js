import { dayOf, perUnit } from "./days.js";

// seconds reads the stamp of a form, as somebody would who wants it fast and
// knows the form, and gives seconds of the local clock.
const iso = (s) => (dayOf(+s.slice(0, 4), +s.slice(5, 7), +s.slice(8, 10)) * 1440 + +s.slice(11, 13) * 60 + +s.slice(14, 16)) * 60;
const seconds = {
	common: iso, offset: iso, kW: iso, register: iso,
	epoch: Number,
	dayfirst: (s) => (dayOf(+s.slice(6, 10), +s.slice(3, 5), +s.slice(0, 2)) * 1440 + +s.slice(11, 13) * 60 + +s.slice(14, 16)) * 60,
	ampm(s) {
		const [date, time, half] = s.split(" ");
		const [m, d, y] = date.split("/"), [hour, minute] = time.split(":");
		return (dayOf(+y, +m, +d) * 1440 + (+hour % 12 + (half === "PM" ? 12 : 0)) * 60 + +minute) * 60;
	},
};

// Days adds up rows of texts.
export class Days {
	constructor(form) {
		this.form = form;
		this.seconds = seconds[form];
		this.scale = form === "kW" ? 1000 : 10_000;
		this.rows = 0;
		this.due = -1;
		this.gaps = [];
		this.units = []; // by day: whole units of the last digit
	}

	add(stamp, figure) {
		const t = this.seconds(stamp);
		if (this.form === "dayfirst") figure = figure.replace(",", ".");
		let v = Math.round(parseFloat(figure) * this.scale), at = t;
		if (this.form === "register") {
			[v, this.read, at] = [this.rows ? v - this.read : 0, v, this.rows ? this.due - 60 : t];
			if (this.rows && t !== this.due) this.gaps.push([this.due - 60, t]);
		} else if (this.rows && t !== this.due) this.gaps.push([this.due, t]);
		this.due = t + 60;
		const day = Math.floor(at / 86400);
		if (this.rows++ === 0) this.first = day;
		this.units[day - this.first] = (this.units[day - this.first] || 0) + v;
	}

	result() {
		const unit = perUnit(this.form);
		return { rows: this.rows, first: this.first, days: Array.from(this.units, (v) => Math.round((v || 0) * unit)), gaps: this.gaps };
	}
}
