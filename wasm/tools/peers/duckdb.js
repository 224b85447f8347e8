// DuckDB-Wasm: its worker is started and the bytes are registered before the
// clock starts; only the questions are timed.
import * as duckdb from "/node_modules/@duckdb/duckdb-wasm/dist/duckdb-browser.mjs";
import { perUnit } from "./days.js";
import { result as gather, task } from "./sql.mjs";

const dist = location.origin + "/node_modules/@duckdb/duckdb-wasm/dist/";
let connection;

export async function prepare(bytes) {
	const db = new duckdb.AsyncDuckDB(new duckdb.VoidLogger(), new Worker(dist + "duckdb-browser-eh.worker.js"));
	await db.instantiate(dist + "duckdb-eh.wasm");
	await db.registerFileBuffer("year.csv", bytes.slice());
	connection = await db.connect();
}

export async function run(bytes, form) {
	const ask = task("year.csv", form);
	await connection.query(ask.make);
	return { form, days: await connection.query(ask.days), gaps: await connection.query(ask.gaps) };
}

export const result = ({ form, days, gaps }) => gather(days.toArray(), gaps.toArray(), perUnit(form));
