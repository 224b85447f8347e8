// Package paired lays an instrument beside the meter's own figures day by day.
package paired

// Result is what the paired days show.
type Result struct{}
