"""The task in pandas: python3 pandas_lap.py FILE LAPS"""
import json
import resource
import sys
import time

import pandas as pd


def task(file):
    year = pd.read_csv(file, parse_dates=["time"], date_format="%Y-%m-%d %H:%M") if NEW else \
        pd.read_csv(file, parse_dates=["time"], infer_datetime_format=True)
    days = year.set_index("time")["kWh"].resample("D").sum()
    step = year["time"].diff()
    lost = step > pd.Timedelta(minutes=1)
    to = year["time"][lost]
    since = to - step[lost] + pd.Timedelta(minutes=1)
    seconds = lambda s: [int(t.timestamp()) for t in s]
    return {
        "rows": len(year),
        "first": int(days.index[0].timestamp()) // 86400,
        "days": [int(v) * 100_000 for v in (days * 10_000).round()],
        "gaps": [list(pair) for pair in zip(seconds(since), seconds(to))],
    }


NEW = int(pd.__version__.split(".")[0]) >= 2  # date_format came with 2.0

times = []
for _ in range(int(sys.argv[2]) + 1):
    begin = time.perf_counter()
    result = task(sys.argv[1])
    times.append((time.perf_counter() - begin) * 1000)
megabytes = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
print(json.dumps({"times": times, "megabytes": megabytes, "result": result}))
