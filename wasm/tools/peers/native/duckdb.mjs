import { DuckDBInstance } from "@duckdb/node-api";
import { result, task } from "../sql.mjs";
import { race } from "./lap.mjs";

const connection = await (await DuckDBInstance.create(":memory:")).connect();
const rows = async (sql) => (await connection.runAndReadAll(sql)).getRowObjects();

await race(async (file) => {
	const ask = task(file, "common");
	await connection.run(ask.make);
	return result(await rows(ask.days), await rows(ask.gaps), 100_000);
});
