package compare_test

import (
	"fmt"

	"splittally/calc/compare"
	"splittally/calc/energy"
	"splittally/calc/uncertainty"
)

// A month of an invented home: the monitor counted 1034 kWh where the bill
// says 1000.
func ExampleJudge() {
	monitor := compare.Amount{Energy: 1034 * energy.KilowattHour}
	monitor.AddOfReading(uncertainty.Part{
		Source: "monitor.0", Name: "Accuracy of the monitor",
		HalfWidth: 1, Distribution: uncertainty.Rectangular, Promise: true,
	})
	monitor.Add(uncertainty.Part{
		Name: "Rounding of the daily totals", Unit: "kWh",
		HalfWidth: 0.05, Repeats: 30, Distribution: uncertainty.Rectangular,
	})
	monitor.Add(uncertainty.Part{
		Source: "hour.2024-03-01", Name: "Hour of the read on 1 March",
		HalfWidth: 12, Unit: "h", Sensitivity: 1.4, Distribution: uncertainty.Rectangular,
		Reducible: true, Remedy: "say at what hour the meter was read",
	})
	meter := compare.Amount{Energy: 1000 * energy.KilowattHour}
	meter.AddOfReading(uncertainty.Part{
		Source: "meter", Name: "Class of the meter",
		HalfWidth: 0.5, Distribution: uncertainty.Rectangular, Promise: true,
	})

	c := compare.Judge(monitor, meter, 0.95)
	percent, expanded := uncertainty.Show(c.Percent.InexactFloat64(), c.Expanded)
	fmt.Printf("error %s %% ± %s %%: %s\n", percent, expanded, c.Verdict)
	for i, share := range c.Budget.Shares() {
		fmt.Printf("%3.0f %% %s\n", 100*share, c.Budget[i].Name)
	}
	// Output:
	// error 3.4 % ± 2.3 %: differ-high
	//  26 % Accuracy of the monitor
	//   0 % Rounding of the daily totals
	//  68 % Hour of the read on 1 March
	//   6 % Class of the meter
}
