// The task in SQL, for DuckDB in the browser and natively.

const stamps = {
	common: "time", kW: "time", register: "time",
	offset: "substr(time, 1, 19)::TIMESTAMP",
	ampm: "strptime(time, '%m/%d/%Y %I:%M %p')",
	dayfirst: "strptime(time, '%d.%m.%Y %H:%M')",
	epoch: "make_timestamp(time * 1000000)",
};
const plain = { common: "TIMESTAMP", kW: "TIMESTAMP", register: "TIMESTAMP", epoch: "BIGINT" };

// task gives the statements: the first makes a table of the file, the others
// ask it for days and for gaps. Figures are exact decimals; v is in units of the
// last digit.
export function task(file, form) {
	const places = form === "kW" ? 3 : 4;
	const columns = `{'time': '${plain[form] ?? "VARCHAR"}', 'v': 'DECIMAL(18,${places})'}`;
	const csv = `read_csv('${file}', header = true, auto_detect = false, delim = '${form === "dayfirst" ? ";" : ","}', columns = ${columns}${form === "dayfirst" ? ", decimal_separator = ','" : ""})`;
	const rows = `SELECT ${stamps[form]} AS t, v FROM ${csv}`;
	const days = form === "register" ?
		`SELECT epoch(date_trunc('day', t))::BIGINT AS day, (sum(next - v) * 10000)::BIGINT AS units, count(*) AS rows
			FROM (SELECT t, v, lead(v) OVER (ORDER BY t) AS next FROM year) GROUP BY day ORDER BY day` :
		`SELECT epoch(date_trunc('day', t))::BIGINT AS day, (sum(v) * ${10 ** places})::BIGINT AS units, count(*) AS rows
			FROM year GROUP BY day ORDER BY day`;
	const gaps = `SELECT epoch(${form === "register" ? "before" : "before + INTERVAL 1 MINUTE"})::BIGINT AS a, epoch(t)::BIGINT AS b
		FROM (SELECT t, lag(t) OVER (ORDER BY t) AS before FROM year) WHERE t - before > INTERVAL 1 MINUTE ORDER BY t`;
	return { make: `CREATE OR REPLACE TEMP TABLE year AS ${rows}`, days, gaps };
}

// result brings the answers, rows of objects, into the common form.
export function result(days, gaps, unit) {
	return {
		rows: days.reduce((sum, r) => sum + Number(r.rows), 0),
		first: Number(days[0].day) / 86400,
		days: days.map((r) => Math.round(Number(r.units) * unit)),
		gaps: gaps.map((r) => [Number(r.a), Number(r.b)]),
	};
}
