// What the contenders share.

// dayOf counts the days from 1970-01-01 to a date.
export function dayOf(y, m, d) {
	if (m < 3) { y--; m += 12; }
	return 365 * y + (y >> 2) - ((y / 100) | 0) + ((y / 400) | 0) + (((153 * m - 457) / 5) | 0) + d - 719469;
}

// perUnit is how many µWh the last digit of a figure stands for, by form.
export const perUnit = (form) => form === "kW" ? 1_000_000 / 60 : 100_000;
