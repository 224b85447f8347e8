import pl from "nodejs-polars";
import { race } from "./lap.mjs";

const second = 1_000_000; // times are in µs

await race((file) => {
	const year = pl.readCSV(file, { schema: { time: pl.String, kWh: pl.Float64 } })
		.withColumn(pl.col("time").str.strptime(pl.Datetime("ms"), "%Y-%m-%d %H:%M").alias("t"))
		.withColumn(pl.col("t").shift(1).alias("before"));
	const days = year.groupBy(pl.col("t").cast(pl.Date).alias("day")).agg(pl.col("kWh").sum().alias("sum")).sort("day");
	const lost = year.filter(pl.col("t").cast(pl.Int64).sub(pl.col("before").cast(pl.Int64)).gt(60 * second));
	const number = (column) => column.cast(pl.Int64).toArray().map(Number);
	const before = number(lost.getColumn("before")), after = number(lost.getColumn("t"));
	return {
		rows: year.height,
		first: number(days.getColumn("day"))[0],
		days: days.getColumn("sum").toArray().map((v) => Math.round(v * 10_000) * 100_000),
		gaps: before.map((b, i) => [b / second + 60, after[i] / second]),
	};
});
