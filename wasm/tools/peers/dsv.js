// d3-dsv: the rows of a text, one by one.
import { Days } from "./rows.js";

let parse;
export async function prepare() {
	({ csvParseRows: parse } = await import("/node_modules/d3-dsv/dist/d3-dsv.min.mjs"));
}

export function run(bytes, form) {
	const sums = new Days(form);
	parse(new TextDecoder().decode(bytes), (row, i) => { if (i) sums.add(row[0], row[1]); });
	return sums.result();
}
